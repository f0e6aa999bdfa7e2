//! A new scheme from an old one, and schemes that are no more offered.

use axum::extract::Path;

use super::{list, no_such};
use crate::acts::{CopyScheme, LastOfMethod, RetireScheme, Taken};
use crate::ids::SchemeId;
use crate::web::error::{AppError, Reply};
use crate::web::layout::go;
use crate::web::session::StaffForm;
use crate::web::state::AppState;
use crate::words::refusal;

/// Longest name, in characters.
const LONGEST: usize = 80;

/// Makes a scheme with the points of another.
pub(super) async fn post(state: AppState, Path(id): Path<SchemeId>, form: StaffForm) -> Reply {
    let name = form.pairs.trimmed("name").to_owned();
    let fault = match name.chars().count() {
        0 => refusal::NAME_OF_SCHEME,
        n if n > LONGEST => refusal::AT_MOST_80,
        _ => {
            let act = CopyScheme {
                from: id,
                name: name.clone(),
            };
            match state.act(&form.by, act).await.map_err(no_such)? {
                Ok(made) => return go(format!("/schemes/{made}/edit")),
                Err(Taken) => refusal::SCHEME_NAME_TAKEN,
            }
        }
    };
    let refused = list::RefusedCopy {
        from: id,
        name,
        fault,
    };
    list::page(&state, &form.by, Some(refused)).await?.refused()
}

/// Offers a scheme no more for new class sets, or again.
pub(super) async fn retire(state: AppState, Path(id): Path<SchemeId>, form: StaffForm) -> Reply {
    let act = RetireScheme {
        scheme: id,
        is_retired: form.pairs.get("retired") == "yes",
    };
    match state.act(&form.by, act).await.map_err(no_such)? {
        Ok(()) => go("/schemes"),
        Err(LastOfMethod) => Err(AppError::BadRequest(refusal::ONLY_SCHEME)),
    }
}
