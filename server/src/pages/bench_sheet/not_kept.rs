//! When a sheet cannot be kept at all: the page says why, and still shows
//! everything that was typed.

use axum::extract::{FromRequest as _, Request};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};

use super::form::SheetForm;
use super::lines::table;
use crate::db::revision::Entry;
use crate::pages::front::AtBench;
use crate::table::PageTable;
use crate::web::error::AppError;
use crate::web::form::Pairs;
use crate::web::layout::{Layout, Page};

#[derive(askama::Template)]
#[template(path = "bench_sheet/not_kept.html")]
struct NotKeptPage {
    layout: Layout,
    code: String,
    label: String,
    sentence: String,
    typed: PageTable,
    /// Where to go on.
    next: String,
    next_text: String,
}

/// The class set was closed in the meantime.
pub(super) fn closed(at: &AtBench, typed: &Entry) -> Response {
    page(
        at,
        typed,
        StatusCode::CONFLICT,
        at.say.not_kept_closed(),
        at.url(),
        at.say.not_kept_closed_next(),
    )
}

/// This browser has not given the bench's number, or too long ago: it
/// gets back what it sent.
pub(crate) async fn stranger(at: &AtBench, request: Request) -> Response {
    match read(at, request).await {
        Ok(typed) => number_first(at, &typed),
        Err(error) => error.into_response(),
    }
}

/// Returns the same, with what was read of it.
pub(super) fn number_first(at: &AtBench, typed: &Entry) -> Response {
    page(
        at,
        typed,
        StatusCode::FORBIDDEN,
        at.say.not_kept_number(),
        format!("{}/come-back", at.url()),
        at.say.not_kept_number_next(),
    )
}

async fn read(at: &AtBench, request: Request) -> Result<Entry, AppError> {
    let pairs = Pairs::from_request(request, &()).await?;
    Ok(SheetForm::read(at.class_set.method()?, &pairs).entry().0)
}

fn page(
    at: &AtBench,
    typed: &Entry,
    status: StatusCode,
    sentence: String,
    next: String,
    next_text: String,
) -> Response {
    let page = NotKeptPage {
        layout: Layout::public(at.say),
        code: at.class_set.join_code.clone(),
        label: at.bench.label.clone(),
        sentence,
        typed: table(at.say, typed, at.say.not_kept_typed()),
        next,
        next_text,
    };
    (status, Page(page)).into_response()
}
