//! The application: its routes, and the layers around them.

use std::time::Duration;

use axum::Router;
use axum::extract::{DefaultBodyLimit, MatchedPath, Request};
use axum::http::header::{
    CACHE_CONTROL, CONTENT_SECURITY_POLICY, HeaderName, REFERRER_POLICY, X_CONTENT_TYPE_OPTIONS,
};
use axum::http::{HeaderValue, StatusCode};
use axum::middleware;
use tower_http::catch_panic::CatchPanicLayer;
use tower_http::csrf::CsrfLayer;
use tower_http::set_header::SetResponseHeaderLayer;
use tower_http::timeout::{RequestBodyDeadlineLayer, TimeoutLayer};
use tower_http::trace::TraceLayer;

use crate::pages;
use crate::web::error::draw_problems;
use crate::web::state::AppState;

/// Longest body of a form, in bytes.
const LONGEST_BODY: usize = 64 * 1024;
/// A body must have arrived within this.
const BODY_TIME: Duration = Duration::from_secs(10);
/// A request must be answered within this. A write that is under way by then
/// goes on: it is not the handler's.
const ANSWER_TIME: Duration = Duration::from_secs(15);

/// Nothing from elsewhere, nothing inline.
const CONTENT_POLICY: &str = "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self'; \
    font-src 'self'; connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

/// Returns the whole application.
pub fn app(state: AppState) -> Router {
    pages::routes()
        .into_router()
        .fallback(async || StatusCode::NOT_FOUND)
        .layer(RequestBodyDeadlineLayer::new(BODY_TIME))
        .layer(DefaultBodyLimit::max(LONGEST_BODY))
        .layer(CatchPanicLayer::new())
        .layer(TimeoutLayer::with_status_code(
            StatusCode::SERVICE_UNAVAILABLE,
            ANSWER_TIME,
        ))
        .layer(CsrfLayer::new())
        .layer(middleware::from_fn_with_state(state.clone(), draw_problems))
        .layer(header(CONTENT_SECURITY_POLICY, CONTENT_POLICY))
        .layer(header(X_CONTENT_TYPE_OPTIONS, "nosniff"))
        // `no-referrer` would make browsers send `Origin: null` with our own
        // forms on a plain-HTTP network, and they would be refused.
        .layer(header(REFERRER_POLICY, "same-origin"))
        .layer(header(
            HeaderName::from_static("cross-origin-opener-policy"),
            "same-origin",
        ))
        .layer(SetResponseHeaderLayer::if_not_present(
            CACHE_CONTROL,
            HeaderValue::from_static("no-store"),
        ))
        .layer(TraceLayer::new_for_http().make_span_with(span))
        .with_state(state)
}

fn header(name: HeaderName, value: &'static str) -> SetResponseHeaderLayer<HeaderValue> {
    SetResponseHeaderLayer::overriding(name, HeaderValue::from_static(value))
}

/// Names the route, never the address: addresses hold one-time tokens.
fn span(request: &Request) -> tracing::Span {
    let route = request
        .extensions()
        .get::<MatchedPath>()
        .map_or("none", MatchedPath::as_str);
    tracing::info_span!("request", method = %request.method(), route)
}
