//! The department's kits.

mod list;

use crate::pages::access::Access::Staff;
use crate::pages::access::Routes;

pub(super) fn routes() -> Routes {
    Routes::default()
        .get("/kits", Staff, list::get)
        .post("/kits", Staff, list::post)
}
