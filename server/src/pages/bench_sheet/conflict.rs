//! When somebody else stored something since the page was opened: both
//! versions are shown, and the group chooses.

use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};

use super::form::SheetForm;
use super::lines::{Pair, side_by_side};
use crate::db::revision::Revision;
use crate::form::Pairs;
use crate::layout::{Layout, Page};
use crate::pages::front::AtBench;

#[derive(askama::Template)]
#[template(path = "bench_sheet/conflict.html")]
struct ConflictPage {
    layout: Layout,
    code: String,
    label: String,
    /// When the stored version was written.
    stored_at: String,
    /// Boxes in which the two differ, and those in which they agree.
    different: Vec<Pair>,
    alike: Vec<Pair>,
    /// Everything that was sent, to be sent again.
    typed: Vec<(String, String)>,
    /// A fresh draft from the stored version.
    draft: String,
    /// Value of the button that was pressed.
    act: &'static str,
}

pub(super) fn page(
    at: &AtBench,
    form: &SheetForm,
    sent: Pairs,
    stored: &Revision,
    stored_at: String,
    draft: String,
) -> Response {
    let (different, alike) = side_by_side(at.say, &stored.entry, &form.entry().0)
        .into_iter()
        .partition(Pair::differs);
    let page = ConflictPage {
        layout: Layout::public(at.say),
        code: at.class_set.join_code.clone(),
        label: at.bench.label.clone(),
        stored_at,
        different,
        alike,
        typed: sent
            .0
            .into_iter()
            .filter(|(name, _)| name != "draft" && name != "act")
            .collect(),
        draft,
        act: form.act.value(),
    };
    (StatusCode::CONFLICT, Page(page)).into_response()
}
