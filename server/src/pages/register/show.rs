//! The register of a class set.

use axum::extract::Path;

use super::set::SetRegister;
use super::typed::{RegisterTyped, TypedAbsentee, TypedGroup};
use crate::db::class_set::ClassSet;
use crate::db::register::{RegisterLine, digest};
use crate::ids::ClassSetId;
use crate::report;
use crate::table::{Cell, PageTable, Table};
use crate::web::error::{AppError, Reply};
use crate::web::form::TypedText;
use crate::web::layout::{Layout, Page};
use crate::web::session::SignedIn;
use crate::web::state::AppState;
use crate::words::time::When;
use crate::words::version;

#[derive(askama::Template)]
#[template(path = "register/show.html")]
pub(super) struct RegisterPage {
    layout: Layout,
    class_set: ClassSet,
    keeps_initials: bool,
    /// Whether anything is stored yet.
    is_begun: bool,
    /// What the stored lines are known by.
    seen: String,
    groups: PageTable,
    absent: TypedText,
    absentees: PageTable,
    /// How many boxes are wrong.
    wrong: usize,
    /// What there is to say about the form as a whole.
    notice: Option<&'static str>,
    present: usize,
    /// Absentees who have not caught up.
    owing: usize,
}

/// A box in a table, and what is wrong with it.
#[derive(askama::Template)]
#[template(path = "register/box.html")]
struct TypedBox<'a> {
    kind: BoxKind,
    name: String,
    /// What a screen reader calls it.
    called: String,
    typed: &'a TypedText,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum BoxKind {
    Count,
    Initials,
    Day,
}

fn typed_box(kind: BoxKind, name: String, called: String, typed: &TypedText) -> Cell {
    Cell::drawn(&TypedBox {
        kind,
        name,
        called,
        typed,
    })
}

fn groups(set: &SetRegister, typed: &[TypedGroup], when: &When) -> PageTable {
    let lines: Vec<_> = set.benches.iter().zip(typed).collect();
    let mut table = Table::of(&lines)
        .text("Group", |(bench, _)| &bench.label)
        .text("Sheet", |(bench, _)| {
            report::state(bench, when, version::NOTHING)
        })
        .text("Present", |(bench, typed)| {
            let label = &bench.label;
            let called = format!("Present in group {label}");
            typed_box(
                BoxKind::Count,
                format!("present.{label}"),
                called,
                &typed.present,
            )
        });
    if set.keeps_initials {
        table = table.text("Initials", |(bench, typed)| {
            let label = &bench.label;
            let called = format!("Initials of group {label}");
            typed_box(
                BoxKind::Initials,
                format!("initials.{label}"),
                called,
                &typed.initials,
            )
        });
    }
    table.on_page("Table of groups", "")
}

fn absentees(keeps_initials: bool, typed: &[TypedAbsentee]) -> PageTable {
    let lines: Vec<_> = (1..).zip(typed).collect::<Vec<(usize, _)>>();
    let mut table = Table::of(&lines).text("Absentee", |(at, _)| at);
    if keeps_initials {
        table = table.text("Initials", |(at, typed)| {
            let called = format!("Initials of absentee {at}");
            typed_box(
                BoxKind::Initials,
                format!("absent.{at}.initials"),
                called,
                &typed.initials,
            )
        });
    }
    table
        .text("Caught up on", |(at, typed)| {
            let called = format!("Day on which absentee {at} caught up");
            typed_box(
                BoxKind::Day,
                format!("absent.{at}.caught_up"),
                called,
                &typed.caught_up,
            )
        })
        .on_page(
            "Table of absentees",
            "The day stays blank until the pupil has caught up",
        )
}

pub(super) async fn get(state: AppState, by: SignedIn, Path(id): Path<ClassSetId>) -> Reply {
    let set = load(&state, &by, id).await?;
    let typed = RegisterTyped::of(&set);
    let page = page(&state, &by, set, typed, None)?;
    page.reply()
}

pub(in crate::pages) async fn load(
    state: &AppState,
    by: &SignedIn,
    id: ClassSetId,
) -> Result<SetRegister, AppError> {
    let today = state.zone.date(state.clock.now());
    Ok(SetRegister::load(&mut state.reader(by).await?, id, today).await?)
}

/// Returns the page with these boxes filled in.
pub(super) fn page(
    state: &AppState,
    by: &SignedIn,
    set: SetRegister,
    typed: RegisterTyped,
    notice: Option<&'static str>,
) -> Result<Page<RegisterPage>, AppError> {
    let lines = &set.lines;
    let owing = |l: &&RegisterLine| !l.was_present && l.caught_up_on.is_none();
    Ok(Page(RegisterPage {
        layout: by.layout.clone(),
        keeps_initials: set.keeps_initials,
        is_begun: !lines.is_empty(),
        seen: digest(lines)?,
        groups: groups(&set, &typed.groups, &state.when()),
        absentees: absentees(set.keeps_initials, &typed.absentees),
        wrong: typed.count_wrong(),
        absent: typed.absent,
        notice,
        present: lines.iter().filter(|line| line.was_present).count(),
        owing: lines.iter().filter(owing).count(),
        class_set: set.class_set,
    }))
}
