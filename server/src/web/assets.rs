//! Static files, embedded, under addresses that carry a hash of the contents:
//! a browser keeps them for a year and still sees every change at once.

use std::sync::LazyLock;

use axum::extract::Path;
use axum::http::header::{CACHE_CONTROL, CONTENT_TYPE};
use axum::response::{IntoResponse, Response};

use crate::secret::sha256_of;
use crate::web::error::AppError;
use crate::words::refusal;

struct Asset {
    /// Its path below `static/`.
    name: &'static str,
    kind: &'static str,
    body: &'static [u8],
}

/// Every static file.
const FILES: [Asset; 6] = [
    Asset {
        name: "app.css",
        kind: "text/css; charset=utf-8",
        body: include_bytes!("../../../static/app.css"),
    },
    Asset {
        name: "app.js",
        kind: "text/javascript; charset=utf-8",
        body: include_bytes!("../../../static/app.js"),
    },
    Asset {
        name: "marking.js",
        kind: "text/javascript; charset=utf-8",
        body: include_bytes!("../../../static/marking.js"),
    },
    Asset {
        name: "room.js",
        kind: "text/javascript; charset=utf-8",
        body: include_bytes!("../../../static/room.js"),
    },
    Asset {
        name: "fonts/atkinson-next-regular.woff2",
        kind: "font/woff2",
        body: include_bytes!("../../../static/fonts/atkinson-next-regular.woff2"),
    },
    Asset {
        name: "fonts/atkinson-next-bold.woff2",
        kind: "font/woff2",
        body: include_bytes!("../../../static/fonts/atkinson-next-bold.woff2"),
    },
];

/// One hash over all files, so that a style sheet may name a font by a
/// relative address.
static STAMP: LazyLock<String> = LazyLock::new(|| {
    let all: Vec<u8> = FILES.iter().flat_map(|f| f.body.iter().copied()).collect();
    sha256_of(&all)[..16].to_owned()
});

static CSS_URL: LazyLock<String> = LazyLock::new(|| format!("/static/{}/app.css", *STAMP));
static SCRIPT_URL: LazyLock<String> = LazyLock::new(|| format!("/static/{}/app.js", *STAMP));

/// Address of the style sheet.
#[must_use]
pub fn css_url() -> &'static str {
    &CSS_URL
}

/// Address of the script.
#[must_use]
pub fn script_url() -> &'static str {
    &SCRIPT_URL
}

/// Address of a file that only some pages load.
#[must_use]
pub fn url(name: &str) -> String {
    format!("/static/{}/{name}", *STAMP)
}

/// Serves one file by the hash of all and its name; under an old hash there is none.
pub(crate) async fn get(Path((stamp, name)): Path<(String, String)>) -> Result<Response, AppError> {
    let file = FILES.iter().find(|f| f.name == name && stamp == *STAMP);
    let file = file.ok_or(AppError::NotFound(refusal::NO_FILE_HERE))?;
    let headers = [
        (CONTENT_TYPE, file.kind),
        (CACHE_CONTROL, "public, max-age=31536000, immutable"),
    ];
    Ok((headers, file.body).into_response())
}
