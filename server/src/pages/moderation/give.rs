//! Giving a second mark on one point, changing it or taking it back.

use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};

use super::mark::{self, Refused, find};
use super::to_do::being_marked;
use crate::db::round;
use crate::db::round_sheet;
use crate::db::second_mark::{self, NewSecondMark, SecondMark};
use crate::db::{Error, Writing};
use crate::error::AppError;
use crate::form::Pairs;
use crate::ids::{RoundId, RoundSheetId};
use crate::report::moderation::second::{SecondPoint, SecondSheet, load};
use crate::session::StaffForm;
use crate::state::AppState;

/// Longest note on a mark, in characters.
const LONGEST_NOTE: usize = 1000;

/// Keeps what the form gives one point, and goes on to the next one without a
/// mark.
pub(super) async fn post(
    State(state): State<AppState>,
    Path((round, id)): Path<(RoundId, RoundSheetId)>,
    form: StaffForm,
) -> Result<Response, AppError> {
    let by = form.by.staff_id;
    let mut db = state.reader(&form.by).await?;
    let (_, sheet) = find(&mut db, round, id, by).await?;
    let sheet = load(&mut db, sheet, by).await?;
    drop(db);
    let key: i64 = form.pairs.get("point").parse().unwrap_or(0);
    let mut keys = sheet.points.iter().map(|point| point.point.key);
    let at = keys
        .position(|other| other == key)
        .ok_or(AppError::NotFound("There is no such marking point."))?;
    let point = &sheet.points[at];
    let (awarded, note) = match read(&form.pairs, point) {
        Ok(given) => given,
        Err(sentence) => {
            let note = form.pairs.get("note").to_owned();
            let refused = Refused {
                key,
                note,
                sentence,
            };
            let page = mark::page(&state, form.by, round, id, Some(refused)).await?;
            return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
        }
    };
    let new = NewSecondMark {
        round_sheet_id: id,
        marking_point_id: point.point.id,
        awarded,
        note,
        staff_id: by,
        marked_at: state.clock.now(),
    };
    let keep = state
        .store
        .writer()
        .run(move |db| Box::pin(async move { keep(db, round, &new).await }));
    if !keep.await? {
        return Err(AppError::Forbidden(
            "Everyone’s marks have been shown in the meantime, so they stand as they are. This one was not kept.",
        ));
    }
    let to = next_point(&sheet, at, awarded.is_some());
    Ok(Redirect::to(&format!("/moderation/{round}/sheets/{id}#point-{to}")).into_response())
}

/// The marks and the note that a form gives; the error says what is wrong.
fn read(pairs: &Pairs, point: &SecondPoint) -> Result<(Option<i64>, String), &'static str> {
    let most = i64::from(point.point.point.marks);
    let awarded = match pairs.get("marks") {
        "none" => None,
        typed => Some(
            typed
                .parse()
                .ok()
                .filter(|marks| (0..=most).contains(marks))
                .ok_or("Choose one of the marks that the point has.")?,
        ),
    };
    let note = pairs.trimmed("note").replace("\r\n", "\n");
    if note.chars().count() > LONGEST_NOTE {
        return Err("Use at most 1000 characters, then choose the mark again.");
    }
    Ok((awarded, note))
}

/// Keeps a mark unless it stands already; false where everyone's have been
/// shown.
async fn keep(db: &mut Writing, round: RoundId, new: &NewSecondMark) -> Result<bool, Error> {
    let round = round::get(db, round).await?;
    let sheet = round_sheet::find(db, round.id, new.round_sheet_id).await?;
    if sheet.map(|sheet| sheet.kind) != being_marked(round.step) {
        return Ok(false);
    }
    let own = second_mark::list_own(db, new.round_sheet_id, new.staff_id).await?;
    let before = own
        .iter()
        .find(|mark| mark.marking_point_id == new.marking_point_id);
    if !stands(before, new) {
        second_mark::insert(db, new).await?;
    }
    Ok(true)
}

/// Whether a point stands already as it would with a new mark.
fn stands(before: Option<&SecondMark>, new: &NewSecondMark) -> bool {
    match before {
        Some(mark) => mark.awarded == new.awarded && mark.note == new.note,
        None => new.awarded.is_none() && new.note.is_empty(),
    }
}

/// The key of the next point without a mark, after this one first; of this
/// one where there is no other, or where it has none itself.
fn next_point(sheet: &SecondSheet, at: usize, is_awarded: bool) -> i64 {
    let points = &sheet.points;
    let is_open = |other: &usize| *other != at && points[*other].awarded().is_none();
    let after = (at + 1..points.len()).find(is_open);
    let next = after.or_else(|| (0..at).find(is_open));
    let next = next.filter(|_| is_awarded).unwrap_or(at);
    points[next].point.key
}
