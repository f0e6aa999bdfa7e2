//! The department's kits.

mod list;

use crate::access::Access::Staff;
use crate::access::Routes;

pub(super) fn routes() -> Routes {
    Routes::default()
        .get("/kits", Staff, list::get)
        .post("/kits", Staff, list::post)
}
