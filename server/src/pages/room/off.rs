//! What stands in the place of the live pages where they are switched off.

use crate::db::class_set::ClassSet;
use crate::web::error::Reply;
use crate::web::layout::{Layout, Page};

#[derive(askama::Template)]
#[template(path = "room/off.html")]
struct OffPage {
    layout: Layout,
    class_set: ClassSet,
}

/// Shows the page that says so, and why.
pub(super) fn page(layout: Layout, class_set: ClassSet) -> Reply {
    Page(OffPage { layout, class_set }).reply()
}
