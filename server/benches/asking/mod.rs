//! Asking a router for a page, as somebody who is signed in.

use std::hint::black_box;
use std::time::{Duration, Instant};

use axum::Router;
use axum::body::{Body, to_bytes};
use axum::http::{Request, StatusCode};
use tower::ServiceExt as _;

/// Token of the session.
pub(crate) const SESSION: &str = "session";

/// How long the router takes for a page, read to its end.
pub(crate) async fn ask(router: &Router, path: &str) -> Duration {
    let request = Request::builder()
        .uri(path)
        .header("host", "lab.test")
        .header("cookie", format!("sid={SESSION}"))
        .body(Body::empty())
        .unwrap();
    let started = Instant::now();
    let reply = router.clone().oneshot(request).await.unwrap();
    let status = reply.status();
    let body = to_bytes(reply.into_body(), usize::MAX).await.unwrap();
    let took = started.elapsed();
    assert_eq!(status, StatusCode::OK, "{path}");
    black_box(body);
    took
}
