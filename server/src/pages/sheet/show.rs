//! Showing a sheet to the teacher.

use axum::extract::Path;
use axum::response::IntoResponse;

use super::page::{Refused, SheetPage};
use crate::error::{AppError, Reply};
use crate::ids::ClassSetId;
use crate::layout::{Layout, Page};
use crate::report::sheet::{SheetReport, load};
use crate::session::SignedIn;
use crate::state::AppState;
use crate::words::refusal;

/// No sheet is at this address.
pub(super) const NO_SUCH_BENCH: AppError = AppError::NotFound(refusal::NO_BENCH_OR_VERSION);

/// The page.
pub(super) async fn get(
    state: AppState,
    by: SignedIn,
    Path((id, label)): Path<(ClassSetId, String)>,
) -> Reply {
    let report = find(&state, &by, id, &label, None).await?;
    Ok(page(&state, by.layout, report, Refused::default())?.into_response())
}

/// The page of an earlier version, to read only.
pub(super) async fn version(
    state: AppState,
    by: SignedIn,
    Path((id, label, version)): Path<(ClassSetId, String, i64)>,
) -> Reply {
    let report = find(&state, &by, id, &label, Some(version)).await?;
    Ok(page(&state, by.layout, report, Refused::default())?.into_response())
}

pub(super) async fn find(
    state: &AppState,
    by: &SignedIn,
    id: ClassSetId,
    label: &str,
    version: Option<i64>,
) -> Result<SheetReport, AppError> {
    let mut db = state.reader(by).await?;
    let report = load(&mut db, id, label, version).await?;
    drop(db);
    let mut report = report.ok_or(NO_SUCH_BENCH)?;
    state.keep(by, report.to_keep.take());
    Ok(report)
}

pub(super) fn page(
    state: &AppState,
    layout: Layout,
    report: SheetReport,
    refused: Refused,
) -> Result<Page<SheetPage>, AppError> {
    Ok(Page(SheetPage::of(
        layout,
        report,
        &state.zone,
        state.clock.now(),
        refused,
    )?))
}
