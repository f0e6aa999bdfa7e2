//! Picking the anchors: a few sheets that every marker marks first.

use std::collections::HashSet;

use axum::extract::Path;

use crate::acts::{NotPicked, PickAnchors};
use crate::clock::long_date;
use crate::db::round::{self, Round};
use crate::db::round_sheet::{self, Closed};
use crate::error::{AppError, Reply};
use crate::ids::RoundId;
use crate::layout::{Layout, Page, go};
use crate::off_thread::off_thread;
use crate::report::moderation::anchors::{PoolClassSet, load};
use crate::report::moderation::name;
use crate::session::{SignedIn, StaffForm};
use crate::state::AppState;

const PAST: AppError = AppError::NotFound("The anchors of this round are past picking.");

#[derive(askama::Template)]
#[template(path = "moderation/anchors.html")]
struct AnchorsPage {
    layout: Layout,
    round: Round,
    judged_by_checks: u32,
    own: Vec<ClassSetLine>,
    others: Vec<ClassSetLine>,
    wrong: Option<&'static str>,
}

struct ClassSetLine {
    called: String,
    sheets: Vec<SheetLine>,
}

struct SheetLine {
    name: String,
    label: String,
    suggested: u32,
    standing: &'static str,
    marked_by: String,
    known_to: String,
    is_chosen: bool,
}

/// The choice, with those chosen that the tool would take.
pub(super) async fn get(state: AppState, by: SignedIn, Path(id): Path<RoundId>) -> Reply {
    page(&state, by, id, None).await?.reply()
}

/// Takes the anchors and lets the marking begin.
pub(super) async fn post(state: AppState, Path(id): Path<RoundId>, form: StaffForm) -> Reply {
    let chosen: HashSet<String> = form.pairs.ticked("sheet").map(str::to_owned).collect();
    let act = PickAnchors {
        round: id,
        sheets: chosen.clone(),
    };
    let wrong = match state.act(&form.by, act).await? {
        Ok(()) => return go(format!("/moderation/{id}")),
        Err(NotPicked::Past) => return Err(PAST),
        Err(NotPicked::OneMarker) => "The round has one marker only: there is nothing to compare.",
        Err(NotPicked::TooFew) => "Choose at least two sheets; three or four are usual.",
        Err(NotPicked::TooMany) => "Choose at most six sheets; three or four are usual.",
    };
    page(&state, form.by, id, Some((chosen, wrong)))
        .await?
        .refused()
}

/// The page, perhaps with a choice that could not be taken.
async fn page(
    state: &AppState,
    by: SignedIn,
    id: RoundId,
    refused: Option<(HashSet<String>, &'static str)>,
) -> Result<Page<AnchorsPage>, AppError> {
    let mut db = state.reader(&by).await?;
    let round = round::get(&mut db, id).await?;
    if round.step.is_some() {
        return Err(PAST);
    }
    let stored = load(&mut db, &round).await?;
    let closed = round_sheet::list_closed(&mut db, by.staff_id).await?;
    drop(db);
    let pool = off_thread(move || stored.judge()).await;
    let (chosen, wrong) = refused.unzip();
    let line = |of: &PoolClassSet| class_set_line(of, chosen.as_ref(), &closed);
    let with_sheets = || pool.class_sets.iter().filter(|of| !of.sheets.is_empty());
    Ok(Page(AnchorsPage {
        layout: by.layout,
        judged_by_checks: pool.judged_by_checks,
        own: with_sheets()
            .filter(|of| of.is_in_round)
            .map(line)
            .collect(),
        others: with_sheets()
            .filter(|of| !of.is_in_round)
            .map(line)
            .collect(),
        round,
        wrong,
    }))
}

/// A class set with its sheets. Who marked them is nothing for somebody who
/// has to mark one of them blind.
fn class_set_line(
    of: &PoolClassSet,
    chosen: Option<&HashSet<String>>,
    closed: &Closed,
) -> ClassSetLine {
    let id = of.class_set.id;
    let told = |names: &[String]| match closed.class_set(id) {
        Some(_) => String::new(),
        None => names.join(", "),
    };
    let sheets = of.sheets.iter().map(|sheet| {
        let name = name(id, &sheet.label);
        SheetLine {
            is_chosen: chosen.map_or(sheet.standing.is_some(), |c| c.contains(&name)),
            name,
            label: sheet.label.clone(),
            suggested: sheet.suggested,
            standing: sheet.standing.map_or("", |s| s.word()),
            marked_by: told(&sheet.marked_by),
            known_to: told(&sheet.known_to),
        }
    });
    let (class, date) = (&of.class_set.class_name, long_date(&of.class_set.held_on));
    ClassSetLine {
        called: format!("{class}, {date}"),
        sheets: sheets.collect(),
    }
}
