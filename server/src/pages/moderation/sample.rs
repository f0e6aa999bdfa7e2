//! The sample: what would be drawn, and drawing it.

use axum::extract::Path;

use super::{TOLD, drawn};
use crate::acts::{DrawSample, DrawnOtherwise};
use crate::db::round::{self, Round, Step};
use crate::db::round_sheet::{self, Closed};
use crate::ids::RoundId;
use crate::report::moderation::draw::{Draw, Taken, draw};
use crate::report::moderation::standard;
use crate::table::{Cell, PageTable, Table};
use crate::web::error::{AppError, Reply};
use crate::web::layout::{Layout, Page, go};
use crate::web::session::{SignedIn, StaffForm};
use crate::web::state::AppState;
use crate::words;
use crate::words::moderation;
use crate::words::moderation::sheet_called;

#[derive(askama::Template)]
#[template(path = "moderation/preview.html")]
struct PreviewPage {
    layout: Layout,
    round: Round,
    draw: Draw,
    /// Whether the reasons may be told: not to somebody who will mark, or
    /// marks sheets of these classes in another round.
    tells_why: bool,
    sheets: PageTable,
    /// Points on which the markers of the anchors differ and nothing is ruled.
    unruled: usize,
}

impl PreviewPage {
    /// Returns how many sheets the department's table asks for, 0 for all.
    fn asked(&self) -> usize {
        self.draw.asked.unwrap_or(0)
    }

    /// Returns the classes at these places of the cohort.
    fn classes(&self, places: &[usize]) -> String {
        let sets = places.iter().map(|at| &self.draw.cohort.class_sets[*at]);
        let names: Vec<&str> = sets.map(|set| set.class_name.as_str()).collect();
        names.join(", ")
    }

    /// Returns how many sheets the marker at this place would have.
    fn share(&self, marker: usize) -> usize {
        let taken = self.draw.taken.iter();
        taken.filter(|taken| taken.marker == marker).count()
    }

    /// Says whether there are fewer sheets than the table asks for.
    fn is_fewer(&self) -> bool {
        self.draw.taken.len() < self.asked()
    }
}

/// A sheet that is taken.
pub(super) struct SampleLine {
    pub(super) ticket: String,
    pub(super) name: String,
    pub(super) called: String,
    pub(super) why: String,
    pub(super) marker: String,
    pub(super) is_taught: bool,
}

/// Before the draw what it would give; after it what it gave.
pub(super) async fn get(state: AppState, by: SignedIn, Path(id): Path<RoundId>) -> Reply {
    let mut db = state.reader(&by).await?;
    let round = round::get(&mut db, id).await?;
    match round.step {
        None | Some(Step::StandardShown) => {
            if !by.is_head() {
                return Err(AppError::Forbidden(TOLD));
            }
            let draw = draw(&mut db, &round).await?;
            let closed = round_sheet::list_closed(&mut db, by.staff_id).await?;
            let unruled = match round.step {
                Some(_) => standard::load(&mut db, &round).await?.unruled(),
                None => 0,
            };
            drop(db);
            preview(by, round, draw, &closed, unruled).reply()
        }
        Some(Step::Standard) => Err(AppError::NotFound(moderation::ANCHORS_BEING_MARKED)),
        Some(_) => drawn::page(&mut db, by, round).await?.reply(),
    }
}

/// Draws the sample, if it is still the one that was shown.
pub(super) async fn post(state: AppState, Path(id): Path<RoundId>, form: StaffForm) -> Reply {
    let act = DrawSample {
        round: id,
        digest: form.pairs.get("digest").to_owned(),
    };
    match state.act(&form.by, act).await? {
        Ok(()) => go(format!("/moderation/{id}")),
        Err(DrawnOtherwise) => Err(AppError::BadRequest(moderation::SAMPLE_MET)),
    }
}

fn preview(
    by: SignedIn,
    round: Round,
    draw: Draw,
    closed: &Closed,
    unruled: usize,
) -> Page<PreviewPage> {
    let is_marker = draw.markers.iter().any(|marker| marker.id == by.staff_id);
    let mut class_sets_of_draw = draw.cohort.class_sets.iter();
    let is_closed = class_sets_of_draw.any(|set| closed.class_set(set.id).is_some());
    let tells_why = !is_marker && !is_closed;
    let lines = draw.taken.iter().map(|taken| line(&draw, taken));
    Page(PreviewPage {
        tells_why,
        layout: by.layout,
        sheets: table(&lines.collect::<Vec<_>>(), tells_why),
        unruled,
        round,
        draw,
    })
}

fn line(draw: &Draw, taken: &Taken) -> SampleLine {
    let sheet = draw.sheet(taken);
    let set = &draw.cohort.class_sets[sheet.class_set];
    SampleLine {
        ticket: short(&taken.ticket),
        name: sheet.name.clone(),
        called: sheet_called(&set.class_name, &set.held_on, &sheet.label),
        why: words::taken(taken.rule.code()).to_owned(),
        marker: draw.markers[taken.marker].name.clone(),
        is_taught: taken.is_taught,
    }
}

/// Returns the sheets that are taken; why, where that may be told.
pub(super) fn table(lines: &[SampleLine], tells_why: bool) -> PageTable {
    let named = Table::of(lines)
        .text("Ticket", |line| Cell::from(&line.ticket).code())
        .text("Sheet", |line| &line.name)
        .heading()
        .text("Class and group", |line| &line.called);
    let told = match tells_why {
        true => named.text("Why", |line| &line.why),
        false => named,
    };
    told.text("Second marker", |line| match line.is_taught {
        true => format!(
            "{} (teaches the class; nobody else may have it)",
            line.marker
        ),
        false => line.marker.clone(),
    })
    .on_page(
        "Sheets of the sample",
        "In the order of their tickets, in which they are marked",
    )
}

/// As much of a ticket as anybody compares by eye.
pub(super) fn short(ticket: &str) -> String {
    ticket.chars().take(8).collect()
}
