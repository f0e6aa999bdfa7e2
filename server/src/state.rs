//! What every handler may ask for.

use std::sync::Arc;

use axum::extract::FromRef;

use crate::changes::Changes;
use crate::clock::{Clock, Zone};
use crate::db::Store;
use crate::password::Passwords;
use crate::rate::Rates;

/// The state of the application, cheap to clone.
#[derive(Clone, Debug)]
pub struct AppState {
    /// The data file.
    pub store: Store,
    /// What time it is.
    pub clock: Clock,
    /// The school's time zone.
    pub zone: Zone,
    /// Password hashing, a few at a time.
    pub passwords: Passwords,
    /// How often passwords and numbers may be tried.
    pub rates: Arc<Rates>,
    /// What tells open pages of a lesson that something has changed.
    pub changes: Changes,
    /// Address that pupils type, if the configuration gives one.
    pub pupils_address: PupilsAddress,
}

/// Address that pupils type, without a last slash; `None`: as in the request.
#[derive(Clone, Debug)]
pub struct PupilsAddress(pub Option<String>);

impl AppState {
    /// A state on an open data file.
    #[must_use]
    pub fn new(store: Store, clock: Clock, zone: Zone, pupils_address: Option<String>) -> Self {
        Self {
            store,
            changes: Changes::new(clock.now()),
            clock,
            zone,
            passwords: Passwords::default(),
            rates: Arc::new(Rates::default()),
            pupils_address: PupilsAddress(pupils_address),
        }
    }
}

impl FromRef<AppState> for Store {
    fn from_ref(state: &AppState) -> Self {
        state.store.clone()
    }
}

impl FromRef<AppState> for Clock {
    fn from_ref(state: &AppState) -> Self {
        state.clock.clone()
    }
}
