//! A round: what it is about, where it stands, what there is to do.

use axum::extract::Path;

use super::to_do::{ToDo, to_do};
use super::{called_in_round, stands};
use crate::clock::long_date;
use crate::db::round::{self, Marker, Round, Step, StepTaken};
use crate::db::round_sheet::{self, Kind, Progress, RoundSheet};
use crate::error::Reply;
use crate::ids::{RoundId, RoundSheetId, StaffId};
use crate::layout::{Layout, Page};
use crate::report::moderation::settling::list_to_mark_again;
use crate::report::moderation::step_words;
use crate::report::moderation::workload::{Workload, being_marked};
use crate::session::SignedIn;
use crate::state::AppState;

#[derive(askama::Template)]
#[template(path = "moderation/show.html")]
struct ShowPage {
    layout: Layout,
    round: Round,
    stands: &'static str,
    to_do: Vec<ToDo>,
    class_sets: Vec<String>,
    markers: Vec<Marker>,
    made: String,
    steps: Vec<StepLine>,
    /// Pages of the round that the reader may open: address and words.
    links: Vec<(&'static str, &'static str)>,
    /// What is being marked.
    marking: Option<Marking>,
}

struct StepLine {
    words: &'static str,
    by: String,
    when: String,
}

/// The sheets that are being marked.
struct Marking {
    kind: Kind,
    work: Workload,
    /// The reader's own.
    own: Vec<OwnSheet>,
    may_show: bool,
}

struct OwnSheet {
    id: RoundSheetId,
    called: String,
    points: i64,
    marked: i64,
}

/// The page.
pub(super) async fn get(state: AppState, by: SignedIn, Path(id): Path<RoundId>) -> Reply {
    let mut db = state.reader(&by).await?;
    let round = round::get(&mut db, id).await?;
    let class_sets = round::list_class_sets(&mut db, round.id).await?;
    let markers = round::list_markers(&mut db, round.id).await?;
    let steps = round::list_steps(&mut db, round.id).await?;
    let sheets = round_sheet::list(&mut db, round.id).await?;
    let progress = round_sheet::list_progress(&mut db, round.id, None).await?;
    let again = list_to_mark_again(&mut db, by.staff_id).await?;
    let is_marker = round_sheet::has_marker(&mut db, round.id, by.staff_id).await?;
    let closed = round_sheet::list_closed(&mut db, by.staff_id).await?;
    drop(db);
    let is_closed = class_sets
        .iter()
        .any(|set| closed.class_set(set.id).is_some());
    let now = state.clock.now();
    let when = |at| state.zone.time_or_day(at, now);
    let is_head = by.is_head();
    let marking = being_marked(round.step).map(|kind| {
        let work = Workload::of(&progress, kind);
        Marking {
            kind,
            own: own(&sheets, &progress, kind, by.staff_id),
            may_show: is_head || work.is_complete() && work.find(by.staff_id).is_some(),
            work,
        }
    });
    let page = ShowPage {
        stands: stands(round.step),
        to_do: to_do(&round, &by, &progress, is_marker, &again),
        class_sets: class_sets
            .iter()
            .map(|set| format!("{}, {}", set.class_name, long_date(&set.held_on)))
            .collect(),
        markers,
        made: when(round.made_at),
        links: links(&steps, is_closed, is_marker, is_head),
        steps: steps
            .into_iter()
            .map(|taken| StepLine {
                words: step_words(taken.step),
                when: when(taken.at),
                by: taken.by,
            })
            .collect(),
        marking,
        layout: by.layout,
        round,
    };
    Page(page).reply()
}

/// The pages of a round that its reader may open. Those with first marks are
/// left out while a class of it is closed to them.
fn links(
    steps: &[StepTaken],
    is_closed: bool,
    is_marker: bool,
    is_head: bool,
) -> Vec<(&'static str, &'static str)> {
    let has = |step: Step| steps.iter().any(|taken| taken.step == step);
    let is_party = is_head || is_marker;
    let pages = [
        (has(Step::StandardShown), "standard", "The standard"),
        (has(Step::Drawn) && !is_closed, "sample", "The sample"),
        (
            has(Step::Shown) && !is_closed && is_party,
            "comparison",
            "The comparison",
        ),
        (
            has(Step::Shown) && !is_closed && is_party,
            "settle",
            "Settling",
        ),
        (has(Step::Closed) && is_head, "record", "The record"),
    ];
    let open = pages.into_iter().filter(|(is_open, ..)| *is_open);
    open.map(|(_, address, words)| (address, words)).collect()
}

fn own(sheets: &[RoundSheet], progress: &[Progress], kind: Kind, reader: StaffId) -> Vec<OwnSheet> {
    let own = progress
        .iter()
        .filter(|line| line.kind == kind && line.staff_id == reader);
    own.filter_map(|line| {
        let sheet = sheets
            .iter()
            .find(|sheet| sheet.id == line.round_sheet_id)?;
        Some(OwnSheet {
            id: sheet.id,
            called: called_in_round(sheet),
            points: line.points,
            marked: line.marked,
        })
    })
    .collect()
}
