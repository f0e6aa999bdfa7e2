//! What can go wrong for a visitor, and the page that says so.
//!
//! A handler returns an [`AppError`] and knows nothing of pages. The error
//! leaves a `Problem` on the response, and one middleware draws it at the
//! end, together with every refusal that comes from a layer. What went wrong
//! inside goes to the log, never to the page.

use axum::extract::Request;
use axum::http::header::{ALLOW, CONTENT_TYPE, RETRY_AFTER};
use axum::http::{HeaderValue, StatusCode};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};

use crate::db;
use crate::layout::{Layout, Page};

/// What a handler answers.
pub type Reply = Result<Response, AppError>;

/// Why a request cannot be answered as asked.
#[derive(Debug)]
pub enum AppError {
    /// There is no such page or thing. A sentence for the visitor.
    NotFound(&'static str),
    /// Not for this visitor.
    Forbidden(&'static str),
    /// The request is no form of ours.
    BadRequest(&'static str),
    /// The body is longer than any form of ours.
    TooLarge,
    /// Tried too often.
    TooManyTries(&'static str),
    /// Cannot write now; nothing was stored.
    Busy,
    /// Anything else. The cause is logged and not shown.
    Internal(Box<dyn std::error::Error + Send + Sync>),
}

impl AppError {
    /// An error that the visitor can do nothing about.
    pub fn internal(cause: impl Into<Box<dyn std::error::Error + Send + Sync>>) -> Self {
        Self::Internal(cause.into())
    }
}

impl From<db::Error> for AppError {
    fn from(error: db::Error) -> Self {
        match error {
            // Of a reader: what the address names. In an act it is a fault.
            db::Error::NoSuch | db::Error::Sql(sqlx::Error::RowNotFound) => {
                Self::NotFound("There is nothing here.")
            }
            db::Error::HeadOnly => Self::Forbidden("A head of department does this."),
            db::Error::Sql(sqlx::Error::PoolTimedOut) | db::Error::Busy | db::Error::Stopped => {
                tracing::error!(%error, "refused");
                Self::Busy
            }
            other => Self::internal(other),
        }
    }
}

/// What a problem page says.
#[derive(Clone, Debug)]
struct Problem {
    title: &'static str,
    sentence: &'static str,
}

impl Problem {
    /// The words for a status that a layer or the router gave.
    fn of_status(status: StatusCode) -> Self {
        let (title, sentence) = match status {
            StatusCode::NOT_FOUND => (
                "Page not found",
                "There is no page at this address. Check it, or start again.",
            ),
            StatusCode::METHOD_NOT_ALLOWED => {
                ("Not possible", "This page cannot be used in that way.")
            }
            StatusCode::FORBIDDEN => (
                "Not allowed",
                "This form came from another site, so nothing was changed. Open the page again and try once more.",
            ),
            StatusCode::PAYLOAD_TOO_LARGE => (
                "Too long",
                "That was longer than a bench sheet can be. Nothing was stored.",
            ),
            StatusCode::UNSUPPORTED_MEDIA_TYPE => {
                ("Not a form", "This page takes only its own form.")
            }
            StatusCode::SERVICE_UNAVAILABLE | StatusCode::REQUEST_TIMEOUT => (
                "Not yet confirmed",
                "The server took too long. Your entry is not yet confirmed: go back, and press the button again.",
            ),
            s if s.is_client_error() => (
                "Not understood",
                "The server could not understand this request.",
            ),
            _ => (
                "Something went wrong",
                "The server met a problem. It has been written in its log. Please try again.",
            ),
        };
        Self { title, sentence }
    }
}

impl IntoResponse for AppError {
    fn into_response(self) -> Response {
        let (status, sentence) = match self {
            Self::NotFound(sentence) => (StatusCode::NOT_FOUND, Some(sentence)),
            Self::Forbidden(sentence) => (StatusCode::FORBIDDEN, Some(sentence)),
            Self::BadRequest(sentence) => (StatusCode::BAD_REQUEST, Some(sentence)),
            Self::TooLarge => (StatusCode::PAYLOAD_TOO_LARGE, None),
            Self::TooManyTries(sentence) => (StatusCode::TOO_MANY_REQUESTS, Some(sentence)),
            Self::Busy => (StatusCode::SERVICE_UNAVAILABLE, None),
            Self::Internal(cause) => {
                tracing::error!(%cause, "a request failed");
                (StatusCode::INTERNAL_SERVER_ERROR, None)
            }
        };
        let mut problem = Problem::of_status(status);
        problem.sentence = sentence.unwrap_or(problem.sentence);
        if status == StatusCode::TOO_MANY_REQUESTS {
            problem.title = "Too many tries";
        }
        let mut response = status.into_response();
        if status == StatusCode::SERVICE_UNAVAILABLE {
            response
                .headers_mut()
                .insert(RETRY_AFTER, HeaderValue::from_static("2"));
        }
        response.extensions_mut().insert(problem);
        response
    }
}

#[derive(askama::Template)]
#[template(path = "problem.html")]
struct ProblemPage {
    layout: Layout,
    problem: Problem,
}

/// Draws the page of every refusal that has none yet.
pub async fn draw_problems(request: Request, next: Next) -> Response {
    let bare = next.run(request).await;
    let status = bare.status();
    let has_page = bare
        .headers()
        .get(CONTENT_TYPE)
        .is_some_and(|t| t.as_bytes().starts_with(b"text/html"));
    if !(status.is_client_error() || status.is_server_error()) || has_page {
        return bare;
    }
    let problem = bare
        .extensions()
        .get::<Problem>()
        .cloned()
        .unwrap_or_else(|| Problem::of_status(status));
    let mut page = (
        status,
        Page(ProblemPage {
            layout: Layout::public(),
            problem,
        }),
    )
        .into_response();
    for name in [RETRY_AFTER, ALLOW] {
        if let Some(value) = bare.headers().get(&name) {
            page.headers_mut().insert(name, value.clone());
        }
    }
    page
}
