//! When measuring stops: one box on the room page.

use axum::extract::Path;
use axum::http::StatusCode;
use axum::response::IntoResponse;
use jiff::civil::Time;

use super::{back, show};
use crate::acts::{NoStop, SetStop};
use crate::db::class_set::{self, ClassSet};
use crate::ids::ClassSetId;
use crate::web::error::Reply;
use crate::web::form::TypedText;
use crate::web::session::StaffForm;
use crate::web::state::AppState;
use crate::words::refusal;

/// What is said to a time that is no more to come.
const PASSED: &str = refusal::TIME_PASSED;

/// Returns the box with what the class set has. Returns no text when nobody
/// said, or it was on another day.
pub(super) fn set(class_set: &ClassSet, state: &AppState) -> TypedText {
    let (zone, now) = (&state.zone, state.clock.now());
    let today = |at: &i64| zone.date(*at) == zone.date(now);
    let stops_at = class_set.stops_at.filter(today);
    TypedText::new(stops_at.map_or_else(String::new, |at| zone.time(at)))
}

/// Sets the time; a blank box takes it back.
pub(super) async fn post(state: AppState, Path(id): Path<ClassSetId>, form: StaffForm) -> Reply {
    let is_still = !form.pairs.get("still").is_empty();
    let stops_at = match read(form.pairs.trimmed("until"), &state) {
        Ok(stops_at) => stops_at,
        Err(wrong) => return refuse(&state, &form, id, wrong).await,
    };
    let act = SetStop {
        class_set: id,
        stops_at,
    };
    match state.act(&form.by, act).await? {
        Ok(()) => back(id, is_still, "#stop"),
        Err(NoStop::NotLive) => back(id, false, ""),
        Err(NoStop::Passed) => refuse(&state, &form, id, PASSED).await,
    }
}

/// Shows the page with what was typed, and what is wrong with it.
async fn refuse(state: &AppState, form: &StaffForm, id: ClassSetId, wrong: &'static str) -> Reply {
    let class_set = class_set::get(&mut state.reader(&form.by).await?, id).await?;
    if !class_set.is_live {
        return back(id, false, "");
    }
    let mut typed = form.pairs.typed_in("until");
    typed.refuse(wrong);
    let is_still = !form.pairs.get("still").is_empty();
    let page = show::page(state, &form.by, id, is_still, Some(typed)).await?;
    Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response())
}

/// Returns the time today in Unix ms; `None` for a blank box.
fn read(text: &str, state: &AppState) -> Result<Option<i64>, &'static str> {
    if text.is_empty() {
        return Ok(None);
    }
    let time = time(text).ok_or(refusal::TIME_OF_DAY)?;
    let at = state.zone.today_at(time, state.clock.now());
    at.map(Some).ok_or(PASSED)
}

/// Hours and minutes on a 24-hour clock, with a colon or a full stop.
fn time(text: &str) -> Option<Time> {
    let (hours, minutes) = text.split_once([':', '.'])?;
    let is_number =
        |part: &str| (1..=2).contains(&part.len()) && part.bytes().all(|b| b.is_ascii_digit());
    if !is_number(hours) || !is_number(minutes) || minutes.len() != 2 {
        return None;
    }
    Time::new(hours.parse().ok()?, minutes.parse().ok()?, 0, 0).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hours_and_minutes_are_read_and_nothing_else() {
        for text in ["9:05", "09:05", "9.05"] {
            assert_eq!(time(text), Some(Time::constant(9, 5, 0, 0)), "{text}");
        }
        for text in [
            "", "10", "24:00", "10:60", "10:5", "10:050", "+9:05", "-1:05", "ten", "10:4 ",
        ] {
            assert_eq!(time(text), None, "{text}");
        }
    }
}
