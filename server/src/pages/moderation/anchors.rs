//! Picking the anchors: a few sheets that every marker marks first.

use std::collections::HashSet;

use axum::extract::Path;

use crate::acts::{NotPicked, PickAnchors};
use crate::db::round::{self, Round};
use crate::db::round_sheet::{self, Closed};
use crate::ids::RoundId;
use crate::off_thread::off_thread;
use crate::report::moderation::anchors::{self, Pool, PoolClassSet, PoolSheet};
use crate::web::error::{AppError, Reply};
use crate::web::layout::{Layout, Page, go};
use crate::web::session::{SignedIn, StaffForm};
use crate::web::state::AppState;
use crate::words::moderation;

const PAST: AppError = AppError::NotFound(moderation::PAST_PICKING);

#[derive(askama::Template)]
#[template(path = "moderation/anchors.html")]
struct AnchorsPage {
    layout: Layout,
    round: Round,
    pool: Pool,
    /// Whose first marks the reader may not see.
    closed: Closed,
    /// What was chosen, where it could not be taken.
    chosen: Option<HashSet<String>>,
    wrong: Option<&'static str>,
}

impl AnchorsPage {
    /// Returns the class sets with sheets, those of the round or the others.
    fn class_sets(&self, are_in_round: bool) -> Vec<&PoolClassSet> {
        let sets = self.pool.class_sets.iter();
        sets.filter(|set| set.is_in_round == are_in_round && !set.sheets.is_empty())
            .collect()
    }

    /// Says whether a sheet is ticked. At first, those that the tool would
    /// take are.
    fn is_chosen(&self, set: &PoolClassSet, sheet: &PoolSheet) -> bool {
        match &self.chosen {
            Some(chosen) => chosen.contains(&set.name(sheet)),
            None => sheet.standing.is_some(),
        }
    }

    /// These names of who marked a sheet of a class set; none for somebody who
    /// has to mark one of them blind.
    fn told(&self, set: &PoolClassSet, names: &[String]) -> String {
        match self.closed.class_set(set.class_set.id) {
            Some(_) => String::new(),
            None => names.join(", "),
        }
    }
}

/// Shows the choice, with those chosen that the tool would take.
pub(super) async fn get(state: AppState, by: SignedIn, Path(id): Path<RoundId>) -> Reply {
    let (round, pool) = judge(&state, &by, id).await?;
    page(&state, by, round, pool, None).await?.reply()
}

/// Takes the anchors and lets the marking begin.
pub(super) async fn post(state: AppState, Path(id): Path<RoundId>, form: StaffForm) -> Reply {
    let chosen: HashSet<String> = form.pairs.ticked("sheet").map(str::to_owned).collect();
    let (round, pool) = judge(&state, &form.by, id).await?;
    let act = PickAnchors {
        round: id,
        pool: pool.clone(),
        sheets: chosen.clone(),
    };
    let wrong = match state.act(&form.by, act).await? {
        Ok(()) => return go(format!("/moderation/{id}")),
        Err(NotPicked::Past) => return Err(PAST),
        Err(NotPicked::OneMarker) => moderation::ONE_MARKER,
        Err(NotPicked::TooFew) => moderation::TWO_ANCHORS,
        Err(NotPicked::TooMany) => moderation::SIX_ANCHORS,
        Err(NotPicked::Changed) => moderation::ANCHORS_MET,
    };
    let page = page(&state, form.by, round, pool, Some((chosen, wrong)));
    page.await?.refused()
}

/// Returns what the anchors of a round are picked from, while they can be.
async fn judge(state: &AppState, by: &SignedIn, id: RoundId) -> Result<(Round, Pool), AppError> {
    let mut db = state.reader(by).await?;
    let round = round::get(&mut db, id).await?;
    if round.step.is_some() {
        return Err(PAST);
    }
    let stored = anchors::load(&mut db, &round).await?;
    drop(db);
    Ok((round, off_thread(move || stored.judge()).await))
}

/// Returns the page, perhaps with a choice that could not be taken.
async fn page(
    state: &AppState,
    by: SignedIn,
    round: Round,
    pool: Pool,
    refused: Option<(HashSet<String>, &'static str)>,
) -> Result<Page<AnchorsPage>, AppError> {
    let closed = round_sheet::list_closed(&mut state.reader(&by).await?, by.staff_id).await?;
    let (chosen, wrong) = refused.unzip();
    Ok(Page(AnchorsPage {
        layout: by.layout,
        round,
        pool,
        closed,
        chosen,
        wrong,
    }))
}
