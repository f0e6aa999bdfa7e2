//! What can go wrong for a visitor, and the page that says so.
//!
//! A handler returns an [`AppError`] and knows nothing of pages. The error
//! leaves a `Problem` on the response, and one middleware draws it at the
//! end, together with every refusal that comes from a layer. What went wrong
//! inside goes to the log, never to the page.

use axum::extract::{Request, State};
use axum::http::header::{ALLOW, CONTENT_TYPE, RETRY_AFTER};
use axum::http::{HeaderValue, StatusCode};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};

use crate::db;
use crate::web::layout::{Layout, Page};
use crate::web::state::AppState;
use crate::words::Say;
use crate::words::refusal;

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
    /// Refused with this status, in words of the pupils' catalogue.
    Pupil(StatusCode, fn(Say) -> String),
    /// Cannot write now; nothing was stored.
    Busy,
    /// Anything else. The cause is logged and not shown.
    Internal(Box<dyn std::error::Error + Send + Sync>),
}

impl AppError {
    /// Returns an error that the visitor can do nothing about.
    pub fn internal(cause: impl Into<Box<dyn std::error::Error + Send + Sync>>) -> Self {
        Self::Internal(cause.into())
    }
}

impl From<db::Error> for AppError {
    fn from(error: db::Error) -> Self {
        match error {
            // Of a reader: what the address names. In an act it is a fault.
            db::Error::NoSuch | db::Error::Sql(sqlx::Error::RowNotFound) => {
                Self::Pupil(StatusCode::NOT_FOUND, Say::problem_nothing_here)
            }
            db::Error::HeadOnly => Self::Forbidden(refusal::HEAD_DOES_THIS),
            db::Error::Sql(sqlx::Error::PoolTimedOut) | db::Error::Busy | db::Error::Stopped => {
                tracing::error!(%error, "refused");
                Self::Busy
            }
            other => Self::internal(other),
        }
    }
}

/// A message of the pupils' catalogue.
type Said = fn(Say) -> String;

/// What a problem page says.
#[derive(Clone, Debug)]
struct Problem {
    title: Said,
    sentence: Sentence,
}

/// A sentence of a problem page.
#[derive(Clone, Debug)]
enum Sentence {
    /// For staff, in English.
    Staff(&'static str),
    /// For pupils, from their catalogue.
    Pupil(Said),
}

impl Problem {
    /// Returns the words for a status that a layer or the router gave.
    fn of_status(status: StatusCode) -> Self {
        let (title, sentence): (Said, Said) = match status {
            StatusCode::NOT_FOUND => (Say::problem_no_page, Say::problem_no_page_why),
            StatusCode::METHOD_NOT_ALLOWED => {
                (Say::problem_not_possible, Say::problem_not_possible_why)
            }
            StatusCode::FORBIDDEN => (Say::problem_not_allowed, Say::problem_not_allowed_why),
            StatusCode::PAYLOAD_TOO_LARGE => (Say::problem_too_long, Say::problem_too_long_why),
            StatusCode::UNSUPPORTED_MEDIA_TYPE => (Say::problem_no_form, Say::problem_no_form_why),
            StatusCode::SERVICE_UNAVAILABLE | StatusCode::REQUEST_TIMEOUT => {
                (Say::problem_not_confirmed, Say::problem_not_confirmed_why)
            }
            s if s.is_client_error() => {
                (Say::problem_not_understood, Say::problem_not_understood_why)
            }
            _ => (Say::problem_inside, Say::problem_inside_why),
        };
        let sentence = Sentence::Pupil(sentence);
        Self { title, sentence }
    }
}

impl IntoResponse for AppError {
    fn into_response(self) -> Response {
        let staff = |status, sentence| (status, Some(Sentence::Staff(sentence)));
        let (status, sentence) = match self {
            Self::NotFound(sentence) => staff(StatusCode::NOT_FOUND, sentence),
            Self::Forbidden(sentence) => staff(StatusCode::FORBIDDEN, sentence),
            Self::BadRequest(sentence) => staff(StatusCode::BAD_REQUEST, sentence),
            Self::TooManyTries(sentence) => staff(StatusCode::TOO_MANY_REQUESTS, sentence),
            Self::Pupil(status, sentence) => (status, Some(Sentence::Pupil(sentence))),
            Self::TooLarge => (StatusCode::PAYLOAD_TOO_LARGE, None),
            Self::Busy => (StatusCode::SERVICE_UNAVAILABLE, None),
            Self::Internal(cause) => {
                tracing::error!(%cause, "a request failed");
                (StatusCode::INTERNAL_SERVER_ERROR, None)
            }
        };
        let mut problem = Problem::of_status(status);
        problem.sentence = sentence.unwrap_or(problem.sentence);
        if status == StatusCode::TOO_MANY_REQUESTS {
            problem.title = Say::problem_too_many_tries;
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
    title: String,
    sentence: String,
}

/// Draws the page of every refusal that has none yet.
pub async fn draw_problems(
    State(AppState { say, .. }): State<AppState>,
    request: Request,
    next: Next,
) -> Response {
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
            layout: Layout::public(say),
            title: (problem.title)(say),
            sentence: match problem.sentence {
                Sentence::Staff(sentence) => sentence.to_owned(),
                Sentence::Pupil(sentence) => sentence(say),
            },
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
