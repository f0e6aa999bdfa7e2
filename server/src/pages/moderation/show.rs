//! A round: what it is about, where it stands, what there is to do; and showing
//! everyone's marks: from then on they stand as they are.

use axum::extract::Path;

use super::to_do::{ToDo, to_do};
use crate::acts::{NotShown, ShowMarks, Shown};
use crate::db::round::{self, ClassSetOfRound, Marker, Round, Step, StepTaken};
use crate::db::round_sheet::{self, Kind, Progress, RoundSheet};
use crate::error::{AppError, Reply};
use crate::ids::RoundId;
use crate::layout::{Layout, Page, go};
use crate::report::moderation::settling::list_to_mark_again;
use crate::report::moderation::workload::{Workload, being_marked};
use crate::session::{SignedIn, StaffForm};
use crate::state::AppState;
use crate::words::moderation;
use crate::words::time::When;

const ANOTHER_PAGE: AppError = AppError::BadRequest(moderation::ROUND_WENT_ON);

#[derive(askama::Template)]
#[template(path = "moderation/show.html")]
struct ShowPage {
    layout: Layout,
    round: Round,
    to_do: Vec<ToDo>,
    class_sets: Vec<ClassSetOfRound>,
    markers: Vec<Marker>,
    steps: Vec<StepTaken>,
    when: When,
    /// Pages of the round that the reader may open: address and words.
    links: Vec<(&'static str, &'static str)>,
    /// What is being marked.
    marking: Option<Marking>,
}

/// The sheets that are being marked.
struct Marking {
    kind: Kind,
    work: Workload,
    /// The reader's own, and how far they have come.
    own: Vec<(RoundSheet, Progress)>,
    may_show: bool,
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
    let mut sets = class_sets.iter();
    let is_closed = sets.any(|set| closed.class_set(set.id).is_some());
    let is_head = by.is_head();
    let page = ShowPage {
        to_do: to_do(&round, &by, &progress, is_marker, &again),
        links: links(&steps, is_closed, is_marker, is_head),
        marking: being_marked(round.step).map(|kind| {
            let work = Workload::of(&progress, kind);
            let own = progress
                .into_iter()
                .filter(|line| line.kind == kind && line.staff_id == by.staff_id);
            let own = own.filter_map(|line| {
                let mut sheets = sheets.iter();
                let sheet = sheets.find(|sheet| sheet.id == line.round_sheet_id)?;
                Some((sheet.clone(), line))
            });
            Marking {
                kind,
                own: own.collect(),
                may_show: is_head || work.is_complete() && work.find(by.staff_id).is_some(),
                work,
            }
        }),
        class_sets,
        markers,
        steps,
        when: state.when(),
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
    let is_party = has(Step::Shown) && !is_closed && (is_head || is_marker);
    let pages = [
        (has(Step::StandardShown), "standard", "The standard"),
        (has(Step::Drawn) && !is_closed, "sample", "The sample"),
        (is_party, "comparison", "The comparison"),
        (is_party, "settle", "Settling"),
        (has(Step::Closed) && is_head, "record", "The record"),
    ];
    let open = pages.into_iter().filter(|(is_open, ..)| *is_open);
    open.map(|(_, address, words)| (address, words)).collect()
}

/// Shows the marks of what is being marked: a head of department at any time,
/// a marker of the round once all have finished.
pub(super) async fn post(state: AppState, Path(id): Path<RoundId>, form: StaffForm) -> Reply {
    let kind = match form.pairs.get("kind") {
        "" => None,
        code => Some(Kind::from_code(code).ok_or(ANOTHER_PAGE)?),
    };
    let act = ShowMarks {
        round: id,
        kind,
        is_early: form.pairs.get("early") == "yes",
    };
    match state.act(&form.by, act).await? {
        Ok(Shown::Marks(Kind::Anchor)) => go(format!("/moderation/{id}/standard")),
        Ok(Shown::Marks(Kind::Sample) | Shown::Nothing) => go(format!("/moderation/{id}")),
        Err(NotShown::NotAllFinished) => Err(AppError::BadRequest(moderation::NOT_ALL_FINISHED)),
        Err(NotShown::AnotherPage) => Err(ANOTHER_PAGE),
        Err(NotShown::NotAllowed) => Err(AppError::Forbidden(moderation::WHO_SHOWS)),
    }
}
