//! The department's own record of who did which practical.

mod keep;
mod lines;
pub(super) mod set;
pub(super) mod show;
mod typed;
mod year;

use crate::pages::access::Access::Staff;
use crate::pages::access::Routes;

pub(super) fn routes() -> Routes {
    Routes::default()
        .get("/class-sets/{id}/register", Staff, show::get)
        .post("/class-sets/{id}/register", Staff, keep::post)
        .get("/registers", Staff, year::get)
        .get("/registers.csv", Staff, year::csv)
}
