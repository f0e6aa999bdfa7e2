//! Giving a second mark on one point, changing it or taking it back.

use axum::extract::Path;

use super::mark::{self, find, no_desk};
use crate::acts::{AwardSecond, NotMarked};
use crate::error::{AppError, Reply};
use crate::ids::{RoundId, RoundSheetId};
use crate::layout::go;
use crate::pages::desk::{self, Refused};
use crate::session::StaffForm;
use crate::state::AppState;

/// Keeps what the form gives one point, and goes on to the next one without a
/// mark.
pub(super) async fn post(
    state: AppState,
    Path((round, id)): Path<(RoundId, RoundSheetId)>,
    form: StaffForm,
) -> Reply {
    let act = AwardSecond {
        round,
        sheet: id,
        key: form.pairs.get("point").parse().unwrap_or(0),
        marks: desk::marks(&form.pairs),
        reason: form.pairs.text("note"),
    };
    let (key, is_given) = (act.key, act.marks.is_some());
    let done = state.act(&form.by, act).await?;
    let no_point = AppError::NotFound("There is no such marking point.");
    let why = match done {
        Ok(()) => None,
        Err(NotMarked::Unfit(why)) => Some(why),
        Err(NotMarked::NoDesk(why)) => return Err(no_desk(why)),
        Err(NotMarked::NoSuchPoint) => return Err(no_point),
        Err(NotMarked::Shown) => {
            return Err(AppError::Forbidden(
                "Everyone’s marks have been shown in the meantime, so they stand as they are. This one was not kept.",
            ));
        }
    };
    let mut db = state.reader(&form.by).await?;
    let (round, desk) = find(&mut db, &form.by, round, id).await?;
    drop(db);
    let at = desk.point(key).ok_or(no_point)?;
    let Some(why) = why else {
        let next = match is_given {
            true => desk.next_point(0, at),
            false => at,
        };
        let (round, to) = (round.id, desk.points[next].key);
        return go(format!("/moderation/{round}/sheets/{id}#point-{to}"));
    };
    let refused = Refused::new(&desk, (0, at), desk::unfit(why), &form.pairs);
    mark::page(&state, form.by, round, desk, Some(&refused))
        .await?
        .refused()
}
