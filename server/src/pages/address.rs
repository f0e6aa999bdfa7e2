//! The address under which this program is reached.

use axum::http::HeaderMap;
use axum::http::header::HOST;

use crate::web::state::PupilsAddress;

/// An address without a last slash.
#[derive(Debug)]
pub(super) struct Address {
    pub(super) text: String,
    /// Whether it leads only to the computer that it is typed on.
    pub(super) is_local: bool,
}

impl Address {
    /// Returns the configured address, or the one that this request was sent
    /// to.
    pub(super) fn of(configured: &PupilsAddress, headers: &HeaderMap) -> Self {
        let text = configured.0.clone().unwrap_or_else(|| {
            let host = headers
                .get(HOST)
                .and_then(|h| h.to_str().ok())
                .unwrap_or("localhost");
            format!("http://{host}")
        });
        let host = text.split("//").nth(1).unwrap_or_default();
        let is_local = ["localhost", "127.", "[::1]"]
            .iter()
            .any(|start| host.starts_with(start));
        Self { text, is_local }
    }
}
