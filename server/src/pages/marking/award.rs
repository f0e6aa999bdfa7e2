//! Awarding one point of one sheet.

use axum::extract::Path;
use axum::http::StatusCode;
use axum::response::IntoResponse;

use super::{bench, find, place, point, sheet};
use crate::acts::{Award, Given, NotAwarded};
use crate::error::Reply;
use crate::ids::{ClassSetId, MarkId, RevisionId, SchemeVersionId};
use crate::layout::go;
use crate::pages::desk::{self, Refused};
use crate::session::StaffForm;
use crate::state::AppState;

/// Somebody else was there first.
const MET: &str = "This point was marked by somebody else, or the sheet was stored again, while this page was open. Nothing was awarded: look at what is here now.";

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
    let refused = Refused::new(&desk, at, sentence, &form.pairs);
    let page = if by_point {
        point::page(&state, form.by, &desk, at.1, Some(&refused)).into_response()
    } else {
        let page = sheet::page(&state, form.by, &desk, at.0, Some(&refused));
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
