//! What the school has decided to keep, and for how long.

mod initials;

use crate::access::Access::{Head, Staff};
use crate::access::Routes;

/// What others than heads of department are told.
const TOLD: &str = "Only a head of department can set what is kept.";

pub(super) fn routes() -> Routes {
    Routes::default().get("/upkeep", Staff, initials::get).post(
        "/upkeep",
        Head(TOLD),
        initials::post,
    )
}
