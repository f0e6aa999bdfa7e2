//! A file that was chosen: what was understood of it, before anything is
//! kept.

use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};

use super::plan::{Plan, Refusal};
use super::preview::{Carried, PreviewPage};
use super::refused::RefusedPage;
use super::show;
use super::stored::StoredClass;
use super::upload::Upload;
use crate::ids::ClassSetId;
use crate::off_thread::off_thread;
use crate::web::error::AppError;
use crate::web::layout::{Layout, Page};
use crate::web::session::SignedIn;
use crate::web::state::AppState;
use crate::words::file;

/// Longest file, in bytes.
const LONGEST_FILE: usize = 2 * 1024 * 1024;

/// A preview that is opened again leads to where a file is chosen.
pub(super) async fn get(_by: SignedIn, Path(id): Path<ClassSetId>) -> Redirect {
    Redirect::to(&format!("/class-sets/{id}/files"))
}

/// Shows what would be taken in. Nothing is kept.
pub(super) async fn post(
    State(state): State<AppState>,
    Path(id): Path<ClassSetId>,
    upload: Upload,
) -> Result<Response, AppError> {
    let Upload { by, mut file, .. } = upload;
    let wrong = if file.is_empty() {
        Some(file::CHOOSE_FILE)
    } else if file.len() > LONGEST_FILE {
        Some(file::LONG_FILE)
    } else {
        None
    };
    if wrong.is_some() {
        let page = show::page(&state, &by, id, wrong).await?;
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
    }
    // No keyboard types it, and for the data file a text ends there. (In a
    // file of another encoding it is half of a letter, and is told as such.)
    file.retain(|byte| *byte != 0);
    let stored = StoredClass::load(&mut state.reader(&by).await?, id).await?;
    let planning = off_thread(move || {
        let plan = Plan::of(&file, &stored);
        (file, stored, plan)
    });
    let (file, stored, plan) = planning.await;
    match plan {
        Ok(plan) => {
            let file = String::from_utf8(file).map_err(AppError::internal)?;
            let carried = Carried::first(file, &plan);
            preview(by.layout, stored, plan, &carried, StatusCode::OK, None)
        }
        Err(refusal) => Ok(refused(by.layout, stored, refusal)),
    }
}

pub(super) fn preview(
    layout: Layout,
    stored: StoredClass,
    plan: Plan,
    carried: &Carried,
    status: StatusCode,
    notice: Option<String>,
) -> Result<Response, AppError> {
    let page = PreviewPage::new(layout, stored, plan, carried, notice)?;
    Ok((status, Page(page)).into_response())
}

pub(super) fn refused(layout: Layout, stored: StoredClass, refusal: Refusal) -> Response {
    let page = RefusedPage::new(layout, stored, refusal);
    (StatusCode::UNPROCESSABLE_ENTITY, Page(page)).into_response()
}
