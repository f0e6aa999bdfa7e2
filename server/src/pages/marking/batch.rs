//! Many marks as one act: all suggestions of a sheet or of a point, and
//! earlier marks that still hold.

use axum::extract::Path;
use axum::response::Redirect;

use super::{bench, find, place};
use crate::acts::{AwardSuggested, HoldsNoMore, NotAsSeen, Places, StillHolds};
use crate::error::AppError;
use crate::ids::ClassSetId;
use crate::session::StaffForm;
use crate::state::AppState;

/// Awards every suggestion of a sheet, at the points that have no mark.
pub(super) async fn sheet(
    state: AppState,
    Path((id, label)): Path<(ClassSetId, String)>,
    form: StaffForm,
) -> Result<Redirect, AppError> {
    let desk = find(&state, &form.by, id).await?;
    let sheet = &desk.sheets[bench(&desk, &label)?];
    award(&state, &form, id, Places::Sheet(sheet.sheet_id)).await?;
    let mut points = desk.points.iter().zip(&sheet.marks.points);
    let open = points.find(|(_, p)| p.awarded().is_none() && p.suggestion.is_none());
    let anchor = open.map_or_else(String::new, |(point, _)| format!("#point-{}", point.key));
    Ok(Redirect::to(&format!(
        "/class-sets/{id}/marking/sheets/{label}{anchor}"
    )))
}

/// Awards the suggestion of every sheet for one point, where it has no mark.
pub(super) async fn point(
    state: AppState,
    Path((id, key)): Path<(ClassSetId, i64)>,
    form: StaffForm,
) -> Result<Redirect, AppError> {
    let desk = find(&state, &form.by, id).await?;
    place(&desk, key)?;
    award(&state, &form, id, Places::Point(key)).await?;
    Ok(Redirect::to(&format!(
        "/class-sets/{id}/marking/points/{key}"
    )))
}

async fn award(
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
    done.map_err(|NotAsSeen| {
        AppError::BadRequest(
            "Somebody else marked one of these points, or a sheet was stored again, while this page was open, so nothing was awarded. Open the page again.",
        )
    })
}

/// Says of the earlier marks of a sheet that they still hold: each is given
/// again on what is there now. With a point named, of that one alone.
pub(super) async fn still_holds(
    state: AppState,
    Path((id, label)): Path<(ClassSetId, String)>,
    form: StaffForm,
) -> Result<Redirect, AppError> {
    let desk = find(&state, &form.by, id).await?;
    let act = StillHolds {
        class_set: id,
        sheet: desk.sheets[bench(&desk, &label)?].sheet_id,
        point: match form.pairs.get("point") {
            "" => None,
            key => Some(key.parse().unwrap_or(0)),
        },
    };
    let first = state.act(&form.by, act).await?.map_err(|HoldsNoMore| {
        AppError::BadRequest(
            "Their figures now show otherwise, or the point has fewer marks now: award the mark again, with a reason where one is asked for.",
        )
    })?;
    Ok(Redirect::to(&format!(
        "/class-sets/{id}/marking/sheets/{label}#point-{first}"
    )))
}
