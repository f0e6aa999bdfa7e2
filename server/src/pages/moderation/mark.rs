//! A sheet of a round, an anchor or one of the sample, which is marked without
//! seeing anybody else's marks.

use analysis::method::Method;
use axum::extract::Path;

use crate::acts::{AwardSecond, NotMarked};
use crate::db::Connection;
use crate::db::round::{self, Round};
use crate::db::round_sheet::{self, Kind, Progress, RoundSheet};
use crate::ids::{RoundId, RoundSheetId};
use crate::pages::desk::{self, DeskFrame, PointView, RefusedMark, Versions};
use crate::pages::sheet::body::{Body, body};
use crate::report::desk::second::{self, NoDesk};
use crate::report::desk::{Desk, MarkedSheet, Whose};
use crate::report::moderation::workload::being_marked;
use crate::web::assets;
use crate::web::error::{AppError, Reply};
use crate::web::layout::{Layout, Page, go};
use crate::web::session::{SignedIn, StaffForm};
use crate::web::state::AppState;
use crate::words::moderation;
use crate::words::refusal;
use crate::words::time::When;

#[derive(askama::Template)]
#[template(path = "moderation/mark.html")]
struct MarkPage<'a> {
    layout: Layout,
    round: Round,
    sheet: &'a RoundSheet,
    /// `Anchor 2 of 4`.
    which: String,
    method: Method,
    body: Option<Body>,
    points: Vec<PointView<'a>>,
    marks: &'a MarkedSheet,
    /// Whether marks may still be given.
    is_open: bool,
    /// The reader's sheets before and after this one.
    before: Option<RoundSheetId>,
    after: Option<RoundSheetId>,
    /// The reader's next sheet that is not complete.
    next: Option<RoundSheetId>,
    script_url: String,
    when: When,
}

pub(super) async fn get(
    state: AppState,
    by: SignedIn,
    Path((round, id)): Path<(RoundId, RoundSheetId)>,
) -> Reply {
    let mut db = state.reader(&by).await?;
    let (round, desk) = find(&mut db, &by, round, id).await?;
    drop(db);
    page(&state, by, round, &desk, None).await?.reply()
}

/// Returns the reader's desk with a sheet of a round that they have to mark,
/// or had to.
async fn find(
    db: &mut Connection,
    by: &SignedIn,
    round: RoundId,
    id: RoundSheetId,
) -> Result<(Round, Desk), AppError> {
    let round = round::get(db, round).await?;
    let sheet = second::find(db, &round, id, by.staff_id).await?;
    let sheet = sheet.map_err(no_desk)?;
    let desk = second::load(db, sheet, by.staff_id).await?;
    Ok((round, desk))
}

/// Says why somebody has no such desk.
fn no_desk(why: NoDesk) -> AppError {
    match why {
        NoDesk::NoSuchSheet => AppError::NotFound(moderation::NO_SHEET_IN_ROUND),
        NoDesk::NotTheirs => AppError::Forbidden(moderation::SHEET_OF_OTHERS),
    }
}

/// Returns the page, perhaps with a form that could not be taken.
async fn page<'a>(
    state: &AppState,
    by: SignedIn,
    round: Round,
    desk: &'a Desk,
    refused: Option<&RefusedMark>,
) -> Result<Page<MarkPage<'a>>, AppError> {
    let Whose::Second(sheet) = &desk.whose else {
        return Err(AppError::internal("a second mark on a first marker's desk"));
    };
    let mut db = state.reader(&by).await?;
    let progress = round_sheet::list_progress(&mut db, round.id, Some(by.staff_id)).await?;
    drop(db);
    let own = progress.iter().filter(|line| line.kind == sheet.kind);
    let own: Vec<&Progress> = own.collect();
    let at = own.iter().position(|line| line.round_sheet_id == sheet.id);
    let neighbour = |at: Option<usize>| Some(own.get(at?)?.round_sheet_id);
    let is_open = Some(sheet.kind) == being_marked(round.step);
    let frame = DeskFrame {
        desk,
        versions: &Versions::new(),
        refused,
        back: "",
        is_open,
    };
    let (method, on_desk) = (desk.class_set.method()?, &desk.sheets[0]);
    let work = on_desk.work.as_ref();
    Ok(Page(MarkPage {
        layout: by.layout,
        which: moderation::place_among(sheet.kind == Kind::Anchor, at.unwrap_or(0) + 1, own.len()),
        method,
        body: work.map(|work| body(work, &desk.class_set, method)),
        points: frame.points(0),
        marks: &on_desk.marks,
        is_open,
        before: neighbour(at.and_then(|at| at.checked_sub(1))),
        after: neighbour(at.map(|at| at + 1)),
        next: next(sheet.id, &own),
        script_url: assets::url("marking.js"),
        when: state.when(),
        round,
        sheet,
    }))
}

/// Returns the next sheet of the reader that is not complete, after this one
/// first.
fn next(sheet: RoundSheetId, own: &[&Progress]) -> Option<RoundSheetId> {
    let (before, after): (Vec<&Progress>, Vec<_>) = own
        .iter()
        .copied()
        .filter(|line| !line.is_complete() && line.round_sheet_id != sheet)
        .partition(|line| line.round_sheet_id < sheet);
    let mut in_order = after.into_iter().chain(before);
    in_order.next().map(|line| line.round_sheet_id)
}

/// Keeps what the form gives one point, and goes on to the next one without a
/// mark.
pub(super) async fn post(
    state: AppState,
    Path((round, id)): Path<(RoundId, RoundSheetId)>,
    form: StaffForm,
) -> Reply {
    let act = AwardSecond {
        round,
        sheet: id,
        key: form.pairs.get("point").parse().unwrap_or(0),
        marks: desk::marks(&form.pairs),
        reason: form.pairs.text("note"),
    };
    let (key, is_given) = (act.key, act.marks.is_some());
    let done = state.act(&form.by, act).await?;
    let no_point = AppError::NotFound(refusal::NO_MARKING_POINT);
    let why = match done {
        Ok(()) => None,
        Err(NotMarked::Unfit(why)) => Some(why),
        Err(NotMarked::NoDesk(why)) => return Err(no_desk(why)),
        Err(NotMarked::NoSuchPoint) => return Err(no_point),
        Err(NotMarked::Shown) => {
            return Err(AppError::Forbidden(moderation::SHOWN_MEANWHILE));
        }
    };
    let mut db = state.reader(&form.by).await?;
    let (round, desk) = find(&mut db, &form.by, round, id).await?;
    drop(db);
    let at = desk.point(key).ok_or(no_point)?;
    let Some(why) = why else {
        let next = match is_given {
            true => desk.next_point(0, at),
            false => at,
        };
        let (round, to) = (round.id, desk.points[next].key);
        return go(format!("/moderation/{round}/sheets/{id}#point-{to}"));
    };
    let refused = RefusedMark::new(&desk, (0, at), desk::unfit(why), &form.pairs);
    let page = page(&state, form.by, round, &desk, Some(&refused));
    page.await?.refused()
}
