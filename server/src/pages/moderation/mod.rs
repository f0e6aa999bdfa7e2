//! Moderation rounds: a standard first, then a sample that is marked a second
//! time without the first marks.

pub mod anchors;
pub mod closed;
pub mod comparison;
pub mod create;
mod drawn;
pub mod give;
pub mod list;
pub mod mark;
pub mod record;
pub mod rule;
pub mod sample;
pub mod settle;
pub mod show;
pub mod show_marks;
pub mod sizes;
pub mod standard;
mod to_do;

use crate::clock::long_date;
use crate::db::round::Step;
use crate::db::round_sheet::RoundSheet;
use crate::error::AppError;
use crate::session::SignedIn;

/// Refuses whoever is not a head of department.
fn only_head(by: &SignedIn) -> Result<(), AppError> {
    if by.is_head() {
        return Ok(());
    }
    Err(AppError::Forbidden(
        "A head of department makes rounds, picks anchors and draws samples.",
    ))
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
