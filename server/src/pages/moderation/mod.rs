//! Moderation rounds: a standard first, then a sample that is marked a second
//! time without the first marks.

mod anchors;
pub(crate) mod closed;
mod comparison;
mod create;
mod drawn;
mod give;
mod list;
mod mark;
mod record;
mod rule;
mod sample;
mod settle;
mod show;
mod show_marks;
mod sizes;
mod standard;
mod to_do;

use crate::access::Access::{Head, Staff};
use crate::access::Routes;
use crate::clock::long_date;
use crate::db::round::Step;
use crate::db::round_sheet::RoundSheet;

/// What others than heads of department are told.
const TOLD: &str = "A head of department makes rounds, picks anchors and draws samples.";

/// Who may see what of a round is for each page to say.
pub(super) fn routes() -> Routes {
    Routes::default()
        .get("/moderation", Staff, list::get)
        .get("/moderation/new", Head(TOLD), create::get)
        .post("/moderation/new", Head(TOLD), create::post)
        .get("/moderation/sizes", Staff, sizes::get)
        .post("/moderation/sizes", Head(TOLD), sizes::post)
        .get("/moderation/{round}", Staff, show::get)
        .get("/moderation/{round}/anchors", Head(TOLD), anchors::get)
        .post("/moderation/{round}/anchors", Head(TOLD), anchors::post)
        .get("/moderation/{round}/standard", Staff, standard::get)
        .post("/moderation/{round}/rulings", Staff, rule::post)
        .get("/moderation/{round}/sample", Staff, sample::get)
        .post("/moderation/{round}/sample", Head(TOLD), sample::post)
        .get("/moderation/{round}/sheets/{sheet}", Staff, mark::get)
        .post("/moderation/{round}/sheets/{sheet}", Staff, give::post)
        .post("/moderation/{round}/show", Staff, show_marks::post)
        .with(comparison::routes())
        .with(settle::routes())
        .with(record::routes())
}

/// Where a round stands, in words.
fn stands(step: Option<Step>) -> &'static str {
    match step {
        None => "Made, not begun",
        Some(Step::Standard) => "Everyone marks the anchors",
        Some(Step::StandardShown) => "The standard is shown; no sample drawn yet",
        Some(Step::Drawn) => "The sample is marked a second time",
        Some(Step::Shown) => "First and second marks are side by side",
        Some(Step::Closed) => "Closed",
    }
}

/// A sheet as staff call it: `10B/Ph2, 24 November 2026, group A`.
fn called(class_name: &str, held_on: &str, label: &str) -> String {
    format!("{class_name}, {}, group {label}", long_date(held_on))
}

/// The same of a sheet of a round.
fn called_in_round(sheet: &RoundSheet) -> String {
    called(&sheet.class_name, &sheet.held_on, &sheet.label)
}
