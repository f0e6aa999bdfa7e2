//! What the school has decided to keep, and for how long.

mod initials;

use crate::pages::access::Access::{Head, Staff};
use crate::pages::access::Routes;
use crate::words::refusal;

/// What others than heads of department are told.
const TOLD: &str = refusal::HEAD_SETS_WHAT_IS_KEPT;

pub(super) fn routes() -> Routes {
    Routes::default().get("/upkeep", Staff, initials::get).post(
        "/upkeep",
        Head(TOLD),
        initials::post,
    )
}
