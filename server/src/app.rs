//! The application: every route by who asks for it, and the layers around.

use std::time::Duration;

use axum::Router;
use axum::extract::{DefaultBodyLimit, MatchedPath, Request};
use axum::http::header::{
    CACHE_CONTROL, CONTENT_SECURITY_POLICY, HeaderName, REFERRER_POLICY, X_CONTENT_TYPE_OPTIONS,
};
use axum::http::{HeaderValue, StatusCode};
use axum::middleware;
use axum::routing::{get, post};
use tower_http::catch_panic::CatchPanicLayer;
use tower_http::csrf::CsrfLayer;
use tower_http::set_header::SetResponseHeaderLayer;
use tower_http::timeout::{RequestBodyDeadlineLayer, TimeoutLayer};
use tower_http::trace::TraceLayer;

use crate::assets;
use crate::error::{AppError, draw_problems};
use crate::pages::{
    bench_sheet, class_set, feedback, front, kit, marking, moderation, room, scheme, sheet, staff,
};
use crate::state::AppState;

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

/// The whole application.
pub fn app(state: AppState) -> Router {
    let blind = middleware::from_fn_with_state(state.clone(), moderation::closed::guard);
    Router::new()
        .merge(for_pupils())
        .merge(for_staff())
        .merge(with_first_marks().route_layer(blind))
        .merge(for_moderation())
        .route("/static/{stamp}/{*name}", get(assets::get))
        .fallback(async || {
            AppError::NotFound("There is no page at this address. Check it, or start again.")
        })
        .layer(RequestBodyDeadlineLayer::new(BODY_TIME))
        .layer(DefaultBodyLimit::max(LONGEST_BODY))
        .layer(CatchPanicLayer::new())
        .layer(TimeoutLayer::with_status_code(
            StatusCode::SERVICE_UNAVAILABLE,
            ANSWER_TIME,
        ))
        .layer(CsrfLayer::new())
        .layer(middleware::from_fn(draw_problems))
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

fn for_pupils() -> Router<AppState> {
    Router::new()
        .route("/", get(front::welcome::get))
        .route("/join", post(front::join::post))
        .route("/privacy", get(front::privacy))
        .route("/about", get(front::about))
        .route(
            "/c/{code}",
            get(front::benches::get).post(front::benches::post),
        )
        .route(
            "/c/{code}/{label}",
            get(bench_sheet::show::get).post(bench_sheet::hand_in::post),
        )
        .route(
            "/c/{code}/{label}/come-back",
            get(front::come_back::get).post(front::come_back::post),
        )
        .route(
            "/c/{code}/{label}/look-again",
            get(bench_sheet::look_again::get),
        )
        .route("/c/{code}/{label}/leave", post(front::leave::post))
        .route("/c/{code}/{label}/feedback", get(feedback::own))
}

fn for_staff() -> Router<AppState> {
    Router::new()
        .route("/staff", get(staff::colleagues::get))
        .route("/staff/invite", post(staff::colleagues::post))
        .route(
            "/staff/first/{token}",
            get(staff::account::get).post(staff::account::post),
        )
        .route(
            "/staff/sign-in",
            get(staff::sign_in::get).post(staff::sign_in::post),
        )
        .route("/staff/sign-out", post(staff::sign_out::post))
        .route("/class-sets", get(class_set::list::get))
        .route(
            "/class-sets/new",
            get(class_set::create::get).post(class_set::create::post),
        )
        .route("/class-sets/{id}", get(class_set::show::get))
        .route("/class-sets/{id}/state", post(class_set::state::post))
        .route("/class-sets/{id}/help", post(class_set::help::post))
        .route(
            "/class-sets/{id}/thresholds",
            post(class_set::thresholds::post),
        )
        .route(
            "/class-sets/{id}/benches/{label}/new-number",
            get(class_set::new_number::get).post(class_set::new_number::post),
        )
        .route("/class-sets/{id}/room/wall", get(room::wall::get))
        .route(
            "/class-sets/{id}/room/wall/benches",
            get(room::wall::benches),
        )
        .route("/kits", get(kit::get).post(kit::post))
        .route(
            "/comments",
            get(marking::comments::get).post(marking::comments::post),
        )
        .route("/comments/retire", post(marking::comments::retire))
        .route("/schemes", get(scheme::list))
        .route("/schemes/{id}", get(scheme::show))
        .route("/schemes/{id}/versions/{number}", get(scheme::version))
        .route("/schemes/{id}/edit", get(scheme::edit).post(scheme::save))
        .route("/schemes/{id}/copy", post(scheme::copy))
        .route("/schemes/{id}/retire", post(scheme::retire))
}

/// Pages of a class set that show first marks, or anything that was made
/// while they were given: what is confirmed or dismissed, notes. Whoever has
/// to mark a sheet of it blind does not get them.
fn with_first_marks() -> Router<AppState> {
    Router::new()
        .route("/class-sets/{id}/summary", get(class_set::summary::get))
        .route("/class-sets/{id}/sheets/{label}", get(sheet::show::get))
        .route(
            "/class-sets/{id}/sheets/{label}/versions/{version}",
            get(sheet::show::version),
        )
        .route(
            "/class-sets/{id}/sheets/{label}/decision",
            post(sheet::decide::post),
        )
        .route(
            "/class-sets/{id}/sheets/{label}/notes",
            post(sheet::annotate::post),
        )
        .route("/class-sets/{id}/room", get(room::show::get))
        .route("/class-sets/{id}/room/tiles", get(room::tiles::get))
        .route("/class-sets/{id}/room/changes", get(room::changes::get))
        .route("/class-sets/{id}/room/seen", post(room::seen::post))
        .route("/class-sets/{id}/room/stop", post(room::stop::post))
        .merge(for_markers())
}

fn for_markers() -> Router<AppState> {
    Router::new()
        .route("/class-sets/{id}/feedback", get(feedback::overview))
        .route("/class-sets/{id}/feedback/print", get(feedback::all))
        .route(
            "/class-sets/{id}/feedback/sheets/{label}",
            get(feedback::one),
        )
        .route("/class-sets/{id}/release", post(feedback::release))
        .route("/class-sets/{id}/marking", get(marking::overview))
        .route("/class-sets/{id}/marking/scheme", post(marking::scheme))
        .route("/class-sets/{id}/marking/undo", post(marking::undo))
        .route("/class-sets/{id}/marking/points/{key}", get(marking::point))
        .route(
            "/class-sets/{id}/marking/points/{key}/all",
            post(marking::award_point),
        )
        .route(
            "/class-sets/{id}/marking/sheets/{label}",
            get(marking::sheet),
        )
        .route(
            "/class-sets/{id}/marking/sheets/{label}/all",
            post(marking::award_sheet),
        )
        .route(
            "/class-sets/{id}/marking/sheets/{label}/holds",
            post(marking::still_holds),
        )
        .route(
            "/class-sets/{id}/marking/sheets/{label}/notes",
            post(marking::note),
        )
        .route(
            "/class-sets/{id}/marking/sheets/{label}/withdraw",
            post(marking::withdraw),
        )
        .route(
            "/class-sets/{id}/marking/sheets/{label}/award/{key}",
            post(marking::award),
        )
}

fn for_moderation() -> Router<AppState> {
    Router::new()
        .route("/moderation", get(moderation::list::get))
        .route(
            "/moderation/new",
            get(moderation::create::get).post(moderation::create::post),
        )
        .route(
            "/moderation/sizes",
            get(moderation::sizes::get).post(moderation::sizes::post),
        )
        .route("/moderation/{round}", get(moderation::show::get))
        .route(
            "/moderation/{round}/anchors",
            get(moderation::anchors::get).post(moderation::anchors::post),
        )
        .route(
            "/moderation/{round}/standard",
            get(moderation::standard::get),
        )
        .route("/moderation/{round}/rulings", post(moderation::rule::post))
        .route(
            "/moderation/{round}/sample",
            get(moderation::sample::get).post(moderation::sample::post),
        )
        .route(
            "/moderation/{round}/sheets/{sheet}",
            get(moderation::mark::get).post(moderation::give::post),
        )
        .route(
            "/moderation/{round}/show",
            post(moderation::show_marks::post),
        )
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
