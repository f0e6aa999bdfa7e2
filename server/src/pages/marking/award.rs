//! Awarding marks: one, or many as one act; and undoing my newest act.

use axum::extract::Path;
use axum::http::StatusCode;
use axum::response::IntoResponse;

use super::{bench, find, place, point, sheet as sheet_page};
use crate::acts::{
    Award, AwardSuggested, Given, HoldsNoMore, NotAsSeen, NotAwarded, NotUndone, Places,
    StillHolds, UndoMarks,
};
use crate::ids::{ClassSetId, MarkId, RevisionId, SchemeVersionId};
use crate::pages::desk::{self, RefusedMark};
use crate::pages::note::TypedNote;
use crate::web::error::{AppError, Reply};
use crate::web::layout::go;
use crate::web::session::StaffForm;
use crate::web::state::AppState;
use crate::words::refusal;

/// Somebody else was there first.
const MET: &str = refusal::MET_AT_POINT;

/// Awards what the form gives, and goes on to the next point of the sheet, or
/// to the next bench where the form came from a point's page.
pub(super) async fn post(
    state: AppState,
    Path((id, label, key)): Path<(ClassSetId, String, i64)>,
    form: StaffForm,
) -> Reply {
    let desk = find(&state, &form.by, id).await?;
    let at = (bench(&desk, &label)?, place(&desk, key)?);
    let by_point = form.pairs.get("back") == "point";
    let seen = form.pairs.get("version").parse();
    let given = Given {
        sheet: desk.sheets[at.0].sheet_id,
        key,
        marks: desk::marks(&form.pairs),
        reason: form.pairs.text("reason"),
        revision: form.pairs.seen("revision").map(RevisionId),
        newest: form.pairs.seen("newest").map(MarkId),
    };
    let is_given = given.marks.is_some();
    let act = Award {
        class_set: id,
        version: seen.map_or(desk.version.id, SchemeVersionId),
        given: vec![given],
    };
    let (status, sentence) = match state.act(&form.by, act).await? {
        Ok(()) => {
            let to = if by_point {
                let next = next(is_given, at.0, || desk.next_sheet(at.0, at.1));
                format!("points/{key}#bench-{}", desk.sheets[next].label)
            } else {
                let next = next(is_given, at.1, || desk.next_point(at.0, at.1));
                format!("sheets/{label}#point-{}", desk.points[next].key)
            };
            return go(format!("/class-sets/{id}/marking/{to}"));
        }
        Err(NotAwarded::Met) => (StatusCode::CONFLICT, MET),
        Err(NotAwarded::Unfit(why)) => (StatusCode::UNPROCESSABLE_ENTITY, desk::unfit(why)),
    };
    // Somebody else's mark is on the page that comes back.
    let desk = find(&state, &form.by, id).await?;
    let at = (bench(&desk, &label)?, place(&desk, key)?);
    let refused = RefusedMark::new(&desk, at, sentence, &form.pairs);
    let page = if by_point {
        point::page(&state, form.by, &desk, at.1, Some(&refused)).into_response()
    } else {
        let page = sheet_page::page(
            &state,
            form.by,
            &desk,
            at.0,
            Some(&refused),
            TypedNote::default(),
        );
        page.await?.into_response()
    };
    Ok((status, page).into_response())
}

/// Goes on once a mark is given; stays where one was taken back.
fn next(is_given: bool, here: usize, next: impl FnOnce() -> usize) -> usize {
    match is_given {
        true => next(),
        false => here,
    }
}

/// Awards every suggestion of a sheet, at the points that have no mark.
pub(super) async fn sheet(
    state: AppState,
    Path((id, label)): Path<(ClassSetId, String)>,
    form: StaffForm,
) -> Reply {
    let desk = find(&state, &form.by, id).await?;
    let sheet = &desk.sheets[bench(&desk, &label)?];
    award_suggested(&state, &form, id, Places::Sheet(sheet.sheet_id)).await?;
    let mut points = desk.points.iter().zip(&sheet.marks.points);
    let open = points.find(|(_, p)| p.awarded().is_none() && p.suggestion.is_none());
    let anchor = open.map_or_else(String::new, |(point, _)| format!("#point-{}", point.key));
    go(format!("/class-sets/{id}/marking/sheets/{label}{anchor}"))
}

/// Awards the suggestion of every sheet for one point, where it has no mark.
pub(super) async fn point(
    state: AppState,
    Path((id, key)): Path<(ClassSetId, i64)>,
    form: StaffForm,
) -> Reply {
    let desk = find(&state, &form.by, id).await?;
    place(&desk, key)?;
    award_suggested(&state, &form, id, Places::Point(key)).await?;
    go(format!("/class-sets/{id}/marking/points/{key}"))
}

async fn award_suggested(
    state: &AppState,
    form: &StaffForm,
    class_set: ClassSetId,
    places: Places,
) -> Result<(), AppError> {
    let act = AwardSuggested {
        class_set,
        places,
        seen: form.pairs.get("seen").to_owned(),
    };
    let done = state.act(&form.by, act).await?;
    done.map_err(|NotAsSeen| AppError::BadRequest(refusal::MET_AT_POINTS))
}

/// Says of the earlier marks of a sheet that they still hold: each is given
/// again on what is there now. With a point named, of that one alone.
pub(super) async fn still_holds(
    state: AppState,
    Path((id, label)): Path<(ClassSetId, String)>,
    form: StaffForm,
) -> Reply {
    let desk = find(&state, &form.by, id).await?;
    let act = StillHolds {
        class_set: id,
        sheet: desk.sheets[bench(&desk, &label)?].sheet_id,
        point: match form.pairs.get("point") {
            "" => None,
            key => Some(key.parse().unwrap_or(0)),
        },
    };
    let first = state
        .act(&form.by, act)
        .await?
        .map_err(|HoldsNoMore| AppError::BadRequest(refusal::HOLDS_NO_MORE))?;
    go(format!(
        "/class-sets/{id}/marking/sheets/{label}#point-{first}"
    ))
}

/// Undoes the newest act of whoever asks: what stood before stands again.
pub(super) async fn undo(state: AppState, Path(id): Path<ClassSetId>, form: StaffForm) -> Reply {
    match state.act(&form.by, UndoMarks { class_set: id }).await? {
        Ok(()) => go(back(id, &form)),
        Err(NotUndone::Nothing) => Err(AppError::BadRequest(refusal::NOTHING_TO_UNDO)),
        Err(NotUndone::Met) => Err(AppError::BadRequest(refusal::MET_BY_UNDOING)),
    }
}

/// Returns the page that the form came from; the overview where it names none
/// of ours.
fn back(id: ClassSetId, form: &StaffForm) -> String {
    let own = format!("/class-sets/{id}/marking");
    let named = form.pairs.get("back");
    let is_plain = named
        .chars()
        .all(|c| c.is_ascii_alphanumeric() || matches!(c, '/' | '-'));
    if named.starts_with(&own) && is_plain {
        named.to_owned()
    } else {
        own
    }
}
