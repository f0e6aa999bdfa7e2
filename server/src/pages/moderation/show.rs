//! A round: what it is about, where it stands, what there is to do; and showing
//! everyone's marks: from then on they stand as they are.

use axum::extract::Path;

use super::to_do::{ToDos, to_do};
use crate::acts::{NotShown, ShowMarks, Shown};
use crate::db::round::{self, ClassSetOfRound, Marker, Round, Step, StepTaken};
use crate::db::round_sheet::{self, Kind, Progress, RoundSheet};
use crate::ids::RoundId;
use crate::report::moderation::settling::list_to_mark_again;
use crate::report::moderation::workload::{Workload, being_marked};
use crate::table::{Cell, PageTable, Table};
use crate::web::error::{AppError, Reply};
use crate::web::layout::{Layout, Page, go};
use crate::web::session::{SignedIn, StaffForm};
use crate::web::state::AppState;
use crate::words::moderation;
use crate::words::time::When;

const ANOTHER_PAGE: AppError = AppError::BadRequest(moderation::ROUND_WENT_ON);

#[derive(askama::Template)]
#[template(path = "moderation/show.html")]
struct ShowPage {
    layout: Layout,
    round: Round,
    to_do: ToDos,
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
    own: PageTable,
    /// How far everyone has come.
    everyone: PageTable,
    may_show: bool,
}

impl Marking {
    fn of(kind: Kind, by: &SignedIn, sheets: &[RoundSheet], progress: &[Progress]) -> Self {
        let work = Workload::of(progress, kind);
        let own = progress.iter().filter_map(|line| {
            let is_own = line.kind == kind && line.staff_id == by.staff_id;
            let mut sheets = sheets.iter().filter(|_| is_own);
            Some((sheets.find(|sheet| sheet.id == line.round_sheet_id)?, line))
        });
        let own: Vec<_> = own.collect();
        let own = Table::of(&own)
            .text("Sheet", |(sheet, _)| {
                let marking = format!("/moderation/{}/sheets/{}", sheet.round_id, sheet.id);
                Cell::from(sheet.called()).link(marking)
            })
            .figure("Points marked", |(_, done)| {
                format!("{} of {}", done.marked, done.points)
            })
            .on_page("", "In the order in which they are marked");
        let what = match kind {
            Kind::Anchor => "Anchors",
            Kind::Sample => "Sheets of the sample",
        };
        let everyone = Table::of(&work.markers)
            .text("Marker", |share| &share.marker)
            .figure("Complete", |share| {
                format!("{} of {}", share.complete, share.sheets)
            })
            .on_page("", format!("{what} with a mark on every point"));
        Self {
            kind,
            own,
            everyone,
            may_show: by.is_head() || work.is_complete() && work.find(by.staff_id).is_some(),
            work,
        }
    }
}

/// Shows the page.
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
        marking: being_marked(round.step).map(|kind| Marking::of(kind, &by, &sheets, &progress)),
        class_sets,
        markers,
        steps,
        when: state.when(),
        layout: by.layout,
        round,
    };
    Page(page).reply()
}

/// Returns the pages of a round that its reader may open. Those with first
/// marks are left out while a class of it is closed to them.
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
