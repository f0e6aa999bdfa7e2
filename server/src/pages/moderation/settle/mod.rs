//! Settling what first and second markers differ on.

mod again;
mod decide;
mod show;
mod view;

use crate::access::Access::{Head, Staff};
use crate::access::Routes;
use crate::db::Connection;
use crate::db::round::{self, Round, Step};
use crate::db::round_sheet;
use crate::error::AppError;
use crate::ids::{ClassSetId, RoundId, RoundSheetId};
use crate::pages::moderation::TOLD;
use crate::report::moderation::settling::{self, Settling};
use crate::session::SignedIn;

pub(super) fn routes() -> Routes {
    Routes::default()
        .get("/moderation/{round}/settle", Staff, show::get)
        .post("/moderation/{round}/settle", Staff, decide::post)
        .post("/moderation/{round}/again", Head(TOLD), again::post)
}

/// Longest reason of a settlement, in characters.
const LONGEST_REASON: usize = 800;

/// A page of marks for somebody who has still to mark these classes blind.
pub(super) const BLIND: AppError = AppError::Forbidden(
    "In another round you mark sheets of these classes without seeing other marks. This page opens to you when those are shown.",
);

/// A form of the page.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Form {
    /// On one point of a sheet.
    Point(RoundSheetId, i64),
    /// On a whole sheet.
    Whole(RoundSheetId),
    /// On a whole class, which was chosen in it.
    Again { class_set: String },
}

/// What a form gave that could not be taken.
struct Refused {
    form: Form,
    /// The mark that was chosen, or the point of a class.
    chosen: String,
    /// As typed.
    reason: String,
    sentence: &'static str,
}

/// A round whose second marks are shown, with what of it the reader may see:
/// a head of department everything, others the sheets that they marked.
async fn find(
    db: &mut Connection,
    by: &SignedIn,
    id: RoundId,
) -> Result<(Round, Settling), AppError> {
    let round = round::get(db, id).await?;
    let is_shown = matches!(round.step, Some(Step::Shown | Step::Closed));
    if !is_shown {
        return Err(AppError::NotFound(
            "The second marks of this round are not shown yet.",
        ));
    }
    let mut settling = settling::load(db, &round).await?;
    // A sheet may be marked blind once more, in another round.
    let closed = round_sheet::list_closed(db, by.staff_id).await?;
    let all = settling.sheets.len();
    settling
        .sheets
        .retain(|sheet| closed.class_set(sheet.pair.sheet.class_set_id).is_none());
    let is_some_closed = settling.sheets.len() < all;
    if !by.is_head() {
        settling
            .sheets
            .retain(|sheet| sheet.pair.is_by(by.staff_id));
    }
    let of_classes: Vec<ClassSetId> = settling
        .sheets
        .iter()
        .map(|sheet| sheet.pair.sheet.class_set_id)
        .collect();
    settling.again.retain(|(one, _)| {
        one.class_set_id.is_some_and(|id| {
            closed.class_set(id).is_none() && (by.is_head() || of_classes.contains(&id))
        })
    });
    if settling.sheets.is_empty() && is_some_closed {
        return Err(BLIND);
    }
    if settling.sheets.is_empty() && !by.is_head() {
        return Err(AppError::Forbidden(
            "You marked none of the sheets of this round, neither first nor second.",
        ));
    }
    Ok((round, settling))
}

/// A reason as it was typed; the error says what is wrong with it.
fn reason(typed: &str) -> Result<String, &'static str> {
    let reason = typed.trim().replace("\r\n", "\n");
    match reason.chars().count() {
        0 => Err("Write down why. It stays on record."),
        1..=LONGEST_REASON => Ok(reason),
        _ => Err("Use at most 800 characters."),
    }
}
