//! Picking the anchors: a few sheets that every marker marks first.

use std::collections::HashSet;

use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};

use crate::clock::long_date;
use crate::db::event::{self, NewEvent};
use crate::db::round::{self, Round, Step};
use crate::db::round_sheet::{self, Closed, NewRoundSheet};
use crate::error::AppError;
use crate::ids::{RoundId, StaffId};
use crate::layout::{Layout, Page};
use crate::off_thread::off_thread;
use crate::report::moderation::anchors::{Pool, PoolClassSet, load};
use crate::report::moderation::name;
use crate::session::{SignedIn, StaffForm};
use crate::state::AppState;

/// Fewest and most anchors.
const FEWEST: usize = 2;
const MOST: usize = 6;

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
pub(super) async fn get(
    State(state): State<AppState>,
    by: SignedIn,
    Path(id): Path<RoundId>,
) -> Result<Response, AppError> {
    Ok(page(&state, by, id, None).await?.into_response())
}

/// Takes the anchors and lets the marking begin.
pub(super) async fn post(
    State(state): State<AppState>,
    Path(id): Path<RoundId>,
    form: StaffForm,
) -> Result<Response, AppError> {
    let chosen: HashSet<String> = form.pairs.ticked("sheet").map(str::to_owned).collect();
    let (round, pool, markers) = find(&state, id).await?;
    let rows = pool.rows(&round, &chosen);
    let wrong = match rows.len() {
        _ if markers < 2 => Some("The round has one marker only: there is nothing to compare."),
        n if n < FEWEST => Some("Choose at least two sheets; three or four are usual."),
        n if n > MOST => Some("Choose at most six sheets; three or four are usual."),
        _ => None,
    };
    if let Some(wrong) = wrong {
        let page = page(&state, form.by, id, Some((chosen, wrong))).await?;
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
    }
    begin(&state, id, rows, form.by.staff_id).await?;
    Ok(Redirect::to(&format!("/moderation/{id}")).into_response())
}

async fn begin(
    state: &AppState,
    id: RoundId,
    rows: Vec<NewRoundSheet>,
    by: StaffId,
) -> Result<(), AppError> {
    let at = state.clock.now();
    let write = state.store.writer().run(move |db| {
        Box::pin(async move {
            // Pressed twice, it is begun once.
            if round::get(db, id).await?.step.is_some() {
                return Ok(());
            }
            for row in &rows {
                round_sheet::insert(db, row).await?;
            }
            round::insert_step(db, id, Step::Standard, by, at).await?;
            let done = NewEvent {
                at,
                what: "anchors_picked",
                staff_id: Some(by),
                class_set_id: None,
                detail: &format!("round {id}: {} sheets", rows.len()),
            };
            event::insert(db, &done).await
        })
    });
    Ok(write.await?)
}

/// The round, what to pick from, and how many mark it.
async fn find(state: &AppState, id: RoundId) -> Result<(Round, Pool, usize), AppError> {
    let mut db = state.store.reader(crate::ids::DEPARTMENT).await?;
    let round = round::get(&mut db, id).await?;
    if round.step.is_some() {
        return Err(AppError::NotFound(
            "The anchors of this round are past picking.",
        ));
    }
    let markers = round::list_markers(&mut db, id).await?.len();
    let stored = load(&mut db, &round).await?;
    drop(db);
    let pool = off_thread(move || stored.judge()).await;
    Ok((round, pool, markers))
}

/// The page, perhaps with a choice that could not be taken.
async fn page(
    state: &AppState,
    by: SignedIn,
    id: RoundId,
    refused: Option<(HashSet<String>, &'static str)>,
) -> Result<Page<AnchorsPage>, AppError> {
    let (round, pool, _) = find(state, id).await?;
    let mut db = state.reader(&by).await?;
    let closed = round_sheet::list_closed(&mut db, by.staff_id).await?;
    drop(db);
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
