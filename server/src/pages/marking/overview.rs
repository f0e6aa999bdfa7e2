//! Where a pile stands, and what it is marked with.

use analysis::scheme::Judged;
use axum::extract::Path;

use super::find;
use crate::acts::{ChooseScheme, NotChosen};
use crate::db::class_set::ClassSet;
use crate::db::scheme::{self, Scheme};
use crate::ids::{ClassSetId, SchemeVersionId};
use crate::report::desk::{Desk, OnDesk};
use crate::report::progress;
use crate::table::{Cell, PageTable, Table};
use crate::web::error::{AppError, Reply};
use crate::web::layout::{Layout, Page, go};
use crate::web::session::{SignedIn, StaffForm};
use crate::web::state::AppState;
use crate::words::time::When;
use crate::words::{refusal, suggestion};

#[derive(askama::Template)]
#[template(path = "marking/overview.html")]
struct OverviewPage<'a> {
    layout: Layout,
    class_set: &'a ClassSet,
    desk: &'a Desk,
    sheets: PageTable,
    points: PageTable,
    /// Schemes to choose from while nothing is marked; else none.
    choices: Vec<&'a Scheme>,
    /// A newer version of the scheme.
    newer: Option<&'a Scheme>,
}

impl OverviewPage<'_> {
    /// Returns the first sheet with something stored that is not complete,
    /// else any. Returns `None` when all are.
    fn next(&self) -> Option<&str> {
        let sheets = self.desk.sheets.iter();
        let open: Vec<&OnDesk> = sheets.filter(|one| !one.marks.is_complete()).collect();
        let with_work = open.iter().find(|sheet| sheet.work.is_some());
        Some(&with_work.or(open.first())?.label)
    }
}

fn sheets(desk: &Desk, when: &When) -> PageTable {
    let marking = format!("/class-sets/{}/marking/sheets", desk.class_set.id);
    Table::of(&desk.sheets)
        .text("Group", |OnDesk { label, .. }| {
            Cell::from(label)
                .link_called(format!("{marking}/{label}"), format!("Mark group {label}"))
        })
        .text("State", |sheet| {
            let stands = sheet.bench.as_ref().and_then(|one| progress(one, when));
            stands.unwrap_or_else(|| "nothing stored".to_owned())
        })
        .figure("Marks so far", |sheet| sheet.marks.total())
        .words("To do", |sheet| {
            let open = desk.points.len() - sheet.marks.marked();
            suggestion::to_mark(open, sheet.marks.earlier())
        })
        .on_page("Sheets", "")
}

fn points(desk: &Desk) -> PageTable {
    let marking = format!("/class-sets/{}/marking/points", desk.class_set.id);
    let points: Vec<_> = desk.points.iter().enumerate().collect();
    Table::of(&points)
        .text("Point", |(_, point)| {
            let says = format!("Mark point {} on all sheets", point.number);
            Cell::from(point.number).link_called(format!("{marking}/{}", point.key), says)
        })
        .words("What it asks", |(_, point)| &point.point.title)
        .figure("Marks", |(_, point)| point.point.marks)
        .text("Judged", |(_, point)| match point.point.judged {
            Judged::ByEye(_) => "by eye",
            Judged::ByCheck(_) => "by check",
        })
        .figure("Sheets marked", |(at, _)| {
            format!("{} of {}", desk.marked_on(*at), desk.sheets.len())
        })
        .on_page("Points", "")
}

/// Shows the page.
pub(super) async fn get(state: AppState, by: SignedIn, Path(id): Path<ClassSetId>) -> Reply {
    let desk = find(&state, &by, id).await?;
    let schemes = scheme::list(&mut state.reader(&by).await?).await?;
    let (version, is_begun) = (&desk.version, desk.is_begun());
    let of_method = |scheme: &&Scheme| scheme.method == desk.class_set.method;
    let is_newer = |one: &&Scheme| one.id == version.scheme_id && one.version_id != version.id;
    let choices = schemes.iter().filter(of_method);
    let page = OverviewPage {
        layout: by.layout,
        class_set: &desk.class_set,
        desk: &desk,
        sheets: sheets(&desk, &state.when()),
        points: points(&desk),
        choices: choices
            .filter(|scheme| !is_begun && !scheme.is_retired)
            .collect(),
        newer: schemes.iter().find(is_newer),
    };
    Page(page).reply()
}

/// Sets what a class set is marked with.
pub(super) async fn post(state: AppState, Path(id): Path<ClassSetId>, form: StaffForm) -> Reply {
    let version = form.pairs.get("version").parse().map(SchemeVersionId);
    let version = version.map_err(|_| AppError::BadRequest(refusal::WHICH_SCHEME))?;
    let act = ChooseScheme {
        class_set: id,
        version,
    };
    state
        .act(&form.by, act)
        .await?
        .map_err(|NotChosen| AppError::BadRequest(refusal::ANOTHER_SCHEME))?;
    go(format!("/class-sets/{id}/marking"))
}
