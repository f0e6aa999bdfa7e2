//! A stream that an open page listens to.

use std::time::Duration;

use axum::body::Body;
use http_body_util::BodyExt as _;
use tower::ServiceExt as _;

use crate::support::{Browser, TestApp};

/// The stream of an open page.
pub(super) struct Stream {
    body: Body,
}

impl Stream {
    /// Opens one as a browser does.
    pub(super) async fn open(app: &TestApp, browser: &Browser, address: &str) -> Self {
        Self::open_after(app, browser, address, None).await
    }

    /// The same after a connection was lost, with what was heard last.
    pub(super) async fn open_after(
        app: &TestApp,
        browser: &Browser,
        address: &str,
        heard: Option<i64>,
    ) -> Self {
        let mut request = browser.request("GET", address);
        if let Some(heard) = heard {
            request = request.header("last-event-id", heard.to_string());
        }
        let request = request.body(Body::empty()).unwrap();
        let response = app.router.clone().oneshot(request).await.unwrap();
        assert_eq!(response.status(), 200, "{address}");
        let kind = response.headers()["content-type"].to_str().unwrap();
        assert_eq!(kind, "text/event-stream", "{address}");
        Self {
            body: response.into_body(),
        }
    }

    /// The next thing that is sent; `None` when the stream has ended. It must
    /// come soon.
    pub(super) async fn next(&mut self) -> Option<String> {
        let next = tokio::time::timeout(Duration::from_secs(20), self.body.frame());
        let frame = next.await.expect("nothing came")?.unwrap();
        let bytes = frame.into_data().unwrap();
        Some(String::from_utf8(bytes.to_vec()).unwrap())
    }

    /// Id of the change that is told next.
    pub(super) async fn change(&mut self) -> i64 {
        let event = self.next().await.expect("the stream has ended");
        assert!(event.contains("event: changed\n"), "{event}");
        let field = |name| event.lines().find_map(|line| line.strip_prefix(name));
        assert!(field("data: ").is_some_and(|d| !d.is_empty()), "{event}");
        field("id: ").unwrap().parse().unwrap()
    }

    /// Whether nothing is sent for a while.
    pub(super) async fn is_silent(&mut self) -> bool {
        let next = tokio::time::timeout(Duration::from_millis(200), self.body.frame());
        next.await.is_err()
    }
}
