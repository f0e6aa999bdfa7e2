//! When somebody else stored something since the page was opened: both
//! versions are shown, and the group chooses.

use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};

use super::form::SheetForm;
use super::lines::{Pair, side_by_side};
use crate::db::revision::Revision;
use crate::pages::front::AtBench;
use crate::table::{PageTable, Table};
use crate::web::form::Pairs;
use crate::web::layout::{Layout, Page};
use crate::words::Say;

#[derive(askama::Template)]
#[template(path = "bench_sheet/conflict.html")]
struct ConflictPage {
    layout: Layout,
    code: String,
    label: String,
    /// Boxes in which the two differ, and those in which they agree.
    different: PageTable,
    alike: PageTable,
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
    stored_at: &str,
    draft: String,
) -> Response {
    let say = at.say;
    let (pairs, same): (Vec<_>, Vec<_>) = side_by_side(say, &stored.entry, &form.entry().0)
        .into_iter()
        .partition(Pair::differs);
    let page = ConflictPage {
        layout: Layout::public(at.say),
        code: at.class_set.join_code.clone(),
        label: at.bench.label.clone(),
        different: different(say, stored_at, &pairs),
        alike: alike(say, &same),
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

fn different(say: Say, stored_at: &str, pairs: &[Pair]) -> PageTable {
    let or_empty = |text: &String| match text.as_str() {
        "" => say.two_versions_empty(),
        text => text.to_owned(),
    };
    Table::of(pairs)
        .text(say.typed_box(), |pair| &pair.label)
        .text(say.two_versions_stored(stored_at), |pair| {
            or_empty(&pair.stored)
        })
        .text(say.two_versions_yours(), |pair| or_empty(&pair.yours))
        .on_page(say.two_versions_table(), say.two_versions_differ())
        .class("typed")
}

fn alike(say: Say, pairs: &[Pair]) -> PageTable {
    Table::of(pairs)
        .text(say.typed_box(), |pair| &pair.label)
        .text(say.two_versions_same_both(), |pair| &pair.stored)
        .on_page("", say.two_versions_same_caption())
        .class("typed")
}
