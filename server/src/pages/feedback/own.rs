//! A group reads its own sheet, while it is out.

use axum::http::StatusCode;
use axum::response::IntoResponse;

use super::sheet_view::{SheetView, view};
use crate::db::release;
use crate::pages::front::{AtBench, OwnBench};
use crate::report::feedback::load;
use crate::web::error::{AppError, Reply};
use crate::web::layout::{Layout, Page};
use crate::web::state::AppState;
use crate::words::Say;

#[derive(askama::Template)]
#[template(path = "feedback/own.html")]
struct OwnPage<'a> {
    layout: Layout,
    code: &'a str,
    sheet: SheetView<'a>,
    is_released: bool,
}

#[derive(askama::Template)]
#[template(path = "feedback/not_yet.html")]
struct NotYetPage {
    layout: Layout,
    code: String,
    label: String,
}

/// Says whether the feedback of a bench is out.
pub(in crate::pages) async fn is_out(state: &AppState, at: &AtBench) -> Result<bool, AppError> {
    let mut db = state.store.reader(at.department).await?;
    Ok(release::find_out(&mut db, at.class_set.id).await?.is_some())
}

/// Shows the sheet of this bench as it was released: for the browser that has
/// its number, and for no other.
pub(super) async fn get(state: AppState, OwnBench(at, _): OwnBench) -> Reply {
    let mut db = state.store.reader(at.department).await?;
    let Some(release) = release::find_out(&mut db, at.class_set.id).await? else {
        let page = NotYetPage {
            layout: Layout::public(at.say),
            code: at.class_set.join_code,
            label: at.bench.label,
        };
        return Ok((StatusCode::NOT_FOUND, Page(page)).into_response());
    };
    let feedback = load(&mut db, &at.class_set, Some(&release)).await?;
    let mut sheets = feedback.sheets.iter();
    let own = sheets.find(|sheet| sheet.bench.id == at.bench.id);
    let own = own.ok_or(AppError::Pupil(StatusCode::NOT_FOUND, Say::feedback_none))?;
    let page = OwnPage {
        layout: Layout::public(at.say),
        sheet: view(at.say, &at.class_set, &feedback, own),
        code: &at.class_set.join_code,
        is_released: true,
    };
    Page(page).reply()
}
