//! Where pupils come in: a lesson code, a bench, its come-back number. And the
//! two pages that anybody may read.

mod at_bench;
mod benches;
mod come_back;
mod privacy;
mod welcome;

pub(crate) use at_bench::{AtBench, OwnBench};

use crate::pages::access::Access::Anyone;
use crate::pages::access::Routes;

pub(super) fn routes() -> Routes {
    Routes::default()
        .get("/", Anyone, welcome::get)
        .post("/join", Anyone, welcome::post)
        .get("/privacy", Anyone, privacy::get)
        .get("/about", Anyone, privacy::about)
        .get("/c/{code}", Anyone, benches::get)
        .post("/c/{code}", Anyone, benches::post)
        .get("/c/{code}/{label}/come-back", Anyone, come_back::get)
        .post("/c/{code}/{label}/come-back", Anyone, come_back::post)
        .post("/c/{code}/{label}/leave", Anyone, come_back::leave)
}
