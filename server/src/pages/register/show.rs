//! The register of a class set.

use axum::extract::Path;

use super::lines::Wrong;
use super::set::SetRegister;
use super::typed::Typed;
use crate::db::class_set::ClassSet;
use crate::db::register::{Line, digest};
use crate::error::{AppError, Reply};
use crate::ids::ClassSetId;
use crate::layout::{Layout, Page};
use crate::report::progress;
use crate::session::SignedIn;
use crate::state::AppState;
use crate::words::capitalised;

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
    groups: Vec<GroupRow>,
    absent: String,
    wrong_absent: Option<String>,
    absentees: Vec<AbsenteeRow>,
    /// How many boxes are wrong.
    wrong: usize,
    /// What there is to say about the form as a whole.
    notice: Option<&'static str>,
    present: usize,
    /// Absentees who have not caught up.
    owing: usize,
}

struct GroupRow {
    label: String,
    /// How far it has come.
    state: String,
    present: String,
    initials: String,
    wrong_present: Option<String>,
    wrong_initials: Option<String>,
}

struct AbsenteeRow {
    number: usize,
    initials: String,
    caught_up: String,
    /// The day, spelt out for the printed page.
    on_paper: String,
    wrong_initials: Option<String>,
    wrong_caught_up: Option<String>,
}

/// The page.
pub(super) async fn get(state: AppState, by: SignedIn, Path(id): Path<ClassSetId>) -> Reply {
    let set = load(&state, &by, id).await?;
    let typed = Typed::of(&set);
    let page = page(&state, &by, set, typed, Wrong::default(), None)?;
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

/// The page with these boxes filled in.
pub(super) fn page(
    state: &AppState,
    by: &SignedIn,
    set: SetRegister,
    typed: Typed,
    wrong: Wrong,
    notice: Option<&'static str>,
) -> Result<Page<RegisterPage>, AppError> {
    let now = state.clock.now();
    let when = |at| state.zone.time_or_day(at, now);
    let count = wrong.count();
    let mut wrong_groups = wrong.groups.into_iter();
    let groups = set.benches.iter().zip(typed.groups).map(|(bench, boxes)| {
        let (wrong_present, wrong_initials) = wrong_groups.next().unwrap_or_default();
        let state = progress(bench, &when);
        GroupRow {
            label: bench.label.clone(),
            state: state.map_or_else(|| "Nothing stored".to_owned(), |s| capitalised(&s)),
            present: boxes.present,
            initials: boxes.initials,
            wrong_present,
            wrong_initials,
        }
    });
    let groups = groups.collect();
    let mut wrong_absentees = wrong.absentees.into_iter();
    let absentees = (1..).zip(typed.absentees).map(|(number, boxes)| {
        let (wrong_initials, wrong_caught_up) = wrong_absentees.next().unwrap_or_default();
        AbsenteeRow {
            number,
            initials: boxes.initials,
            on_paper: crate::clock::long_date(&boxes.caught_up),
            caught_up: boxes.caught_up,
            wrong_initials,
            wrong_caught_up,
        }
    });
    let lines = &set.lines;
    let owing = |l: &&Line| !l.was_present && l.caught_up_on.is_none();
    Ok(Page(RegisterPage {
        layout: by.layout.clone(),
        keeps_initials: set.keeps_initials,
        is_begun: !lines.is_empty(),
        seen: digest(lines)?,
        groups,
        absent: typed.absent,
        wrong_absent: wrong.absent,
        absentees: absentees.collect(),
        wrong: count,
        notice,
        present: lines.iter().filter(|line| line.was_present).count(),
        owing: lines.iter().filter(owing).count(),
        class_set: set.class_set,
    }))
}
