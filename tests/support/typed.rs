//! What the simulator made, as the program takes it.

use serde::Serialize;
use serde::de::DeserializeOwned;

/// A simulated sheet as a revision stores it, or its method by its code.
pub(crate) fn typed<T: DeserializeOwned>(simulated: &impl Serialize) -> T {
    let stored = serde_json::to_value(simulated).unwrap();
    serde_json::from_value(stored).unwrap()
}
