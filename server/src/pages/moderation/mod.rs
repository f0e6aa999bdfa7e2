//! Moderation rounds: a standard first, then a sample that is marked a second
//! time without the first marks.

mod anchors;
pub(crate) mod closed;
mod comparison;
mod comparison_tables;
mod create;
mod decide;
mod drawn;
mod list;
mod mark;
mod record;
mod sample;
mod settle;
mod settle_points;
mod show;
mod sizes;
mod standard;
mod to_do;

use crate::pages::access::Access::{Head, Staff};
use crate::pages::access::Routes;
use crate::words::moderation;

/// What others than heads of department are told.
const TOLD: &str = moderation::HEAD_MAKES_ROUNDS;

/// Returns the routes. Each page decides itself who may see what of a round.
pub(super) fn routes() -> Routes {
    let record = Head(record::COMPARES_COLLEAGUES);
    Routes::default()
        .get("/moderation", Staff, list::get)
        .get("/moderation/new", Head(TOLD), create::get)
        .post("/moderation/new", Head(TOLD), create::post)
        .get("/moderation/sizes", Staff, sizes::get)
        .post("/moderation/sizes", Head(TOLD), sizes::post)
        .get("/moderation/{round}", Staff, show::get)
        .post("/moderation/{round}/show", Staff, show::post)
        .get("/moderation/{round}/anchors", Head(TOLD), anchors::get)
        .post("/moderation/{round}/anchors", Head(TOLD), anchors::post)
        .get("/moderation/{round}/standard", Staff, standard::get)
        .post("/moderation/{round}/rulings", Staff, standard::post)
        .get("/moderation/{round}/sample", Staff, sample::get)
        .post("/moderation/{round}/sample", Head(TOLD), sample::post)
        .get("/moderation/{round}/sheets/{sheet}", Staff, mark::get)
        .post("/moderation/{round}/sheets/{sheet}", Staff, mark::post)
        .get("/moderation/{round}/comparison", Staff, comparison::get)
        .get("/moderation/{round}/comparison.csv", Staff, comparison::csv)
        .get("/moderation/{round}/settle", Staff, settle::get)
        .post("/moderation/{round}/settle", Staff, decide::post)
        .post("/moderation/{round}/again", Head(TOLD), decide::again)
        .post("/moderation/{round}/close", Head(TOLD), record::close)
        .get("/moderation/{round}/record", record, record::get)
        .post("/moderation/{round}/record", record, record::enter)
        .get("/moderation/{round}/record.csv", record, record::csv)
}
