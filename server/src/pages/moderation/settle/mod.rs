//! Settling what first and second markers differ on.

mod again;
mod decide;
mod show;
mod view;

use crate::access::Access::{Head, Staff};
use crate::access::Routes;
use crate::acts::NotSettled;
use crate::db::Connection;
use crate::db::round::{self, Round};
use crate::error::AppError;
use crate::ids::{RoundId, RoundSheetId};
use crate::pages::moderation::TOLD;
use crate::report::moderation::may_see::{self, Hidden};
use crate::report::moderation::settling::Settling;
use crate::session::SignedIn;

pub(super) fn routes() -> Routes {
    Routes::default()
        .get("/moderation/{round}/settle", Staff, show::get)
        .post("/moderation/{round}/settle", Staff, decide::post)
        .post("/moderation/{round}/again", Head(TOLD), again::post)
}

/// No mark of the point was chosen.
const CHOOSE: &str = "Choose the mark that holds.";

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

/// A round whose second marks are shown, with what of it the reader may see.
async fn find(
    db: &mut Connection,
    by: &SignedIn,
    id: RoundId,
) -> Result<(Round, Settling), AppError> {
    let round = round::get(db, id).await?;
    let settling = may_see::settling(db, &round, by.staff_id, by.is_head()).await?;
    Ok((round, settling.map_err(hidden)?))
}

/// Says why somebody does not see what there is to settle.
fn hidden(why: Hidden) -> AppError {
    match why {
        Hidden::NotShown => AppError::NotFound("The second marks of this round are not shown yet."),
        Hidden::NotTheirs => AppError::Forbidden(
            "You marked none of the sheets of this round, neither first nor second.",
        ),
        Hidden::Blind => BLIND,
    }
}

/// Says what is wrong with a form, beside it. What is not wrong with the form
/// is an error of its own.
fn sentence(why: NotSettled) -> Result<&'static str, AppError> {
    Ok(match why {
        NotSettled::Hidden(why) => return Err(hidden(why)),
        NotSettled::Closed => {
            return Err(AppError::Forbidden(
                "The round is closed: its record does not change. What is decided later is written to the record as a later entry.",
            ));
        }
        NotSettled::NoSuchSheet => {
            return Err(AppError::NotFound(
                "There is no such sheet of yours in this round.",
            ));
        }
        NotSettled::NoSuchClass => "Choose the class.",
        NotSettled::NoSuchPoint => "There is no such marking point with a first mark.",
        NotSettled::NoSuchMarks => CHOOSE,
        NotSettled::NoReason => "Write down why. It stays on record.",
        NotSettled::LongReason => "Use at most 800 characters.",
        NotSettled::Met => {
            "Somebody has marked or settled this point while this page was open. Nothing was settled: look at what is here now."
        }
    })
}
