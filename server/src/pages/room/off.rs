//! What stands in the place of the live pages where they are switched off.

use axum::response::{IntoResponse, Response};

use crate::clock::long_date;
use crate::db::class_set::ClassSet;
use crate::layout::{Layout, Page};

#[derive(askama::Template)]
#[template(path = "room/off.html")]
struct OffPage {
    layout: Layout,
    class_set: ClassSet,
    date: String,
}

/// The page that says so, and why.
pub(super) fn page(layout: Layout, class_set: ClassSet) -> Response {
    Page(OffPage {
        layout,
        date: long_date(&class_set.held_on),
        class_set,
    })
    .into_response()
}
