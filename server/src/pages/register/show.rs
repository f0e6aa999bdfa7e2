//! The register of a class set.

use axum::extract::Path;

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
use crate::words::time::time_or_day;
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
    /// The benches: their labels, and how far each has come.
    benches: Vec<(String, String)>,
    typed: Typed,
    /// How many boxes are wrong.
    wrong: usize,
    /// What there is to say about the form as a whole.
    notice: Option<&'static str>,
    present: usize,
    /// Absentees who have not caught up.
    owing: usize,
}

pub(super) async fn get(state: AppState, by: SignedIn, Path(id): Path<ClassSetId>) -> Reply {
    let set = load(&state, &by, id).await?;
    let typed = Typed::of(&set);
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

/// The page with these boxes filled in.
pub(super) fn page(
    state: &AppState,
    by: &SignedIn,
    set: SetRegister,
    typed: Typed,
    notice: Option<&'static str>,
) -> Result<Page<RegisterPage>, AppError> {
    let now = state.clock.now();
    let when = |at| time_or_day(&state.zone, at, now);
    let benches = set.benches.iter().map(|bench| {
        let state = progress(bench, &when);
        let state = version::progress(state, version::NOTHING);
        (bench.label.clone(), state)
    });
    let lines = &set.lines;
    let owing = |l: &&Line| !l.was_present && l.caught_up_on.is_none();
    Ok(Page(RegisterPage {
        layout: by.layout.clone(),
        keeps_initials: set.keeps_initials,
        is_begun: !lines.is_empty(),
        seen: digest(lines)?,
        benches: benches.collect(),
        wrong: typed.count_wrong(),
        typed,
        notice,
        present: lines.iter().filter(|line| line.was_present).count(),
        owing: lines.iter().filter(owing).count(),
        class_set: set.class_set,
    }))
}
