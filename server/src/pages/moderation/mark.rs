//! The page on which a sheet of a round, an anchor or one of the sample, is
//! marked without seeing anybody else's marks.

use analysis::method::Method;
use analysis::scheme::{Judged, Level, Suggestion};
use analysis::slip::Kind as SlipKind;
use axum::extract::{Path, State};
use axum::response::{IntoResponse, Response};

use super::called_in_round;
use super::to_do::being_marked;
use crate::assets;
use crate::db::class_set;
use crate::db::round::{self, Round};
use crate::db::round_sheet::{self, Kind, Progress, RoundSheet};
use crate::db::{self, Connection};
use crate::error::AppError;
use crate::ids::{RoundId, RoundSheetId, StaffId};
use crate::layout::{Layout, Page};
use crate::pages::sheet::body::{Body, body};
use crate::report::flag::{self, FlagLine};
use crate::report::moderation::ruling::{self, RulingLine};
use crate::report::moderation::second::{SecondPoint, SecondSheet, load};
use crate::session::SignedIn;
use crate::state::AppState;

#[derive(askama::Template)]
#[template(path = "moderation/mark.html")]
pub(super) struct MarkPage {
    layout: Layout,
    round: Round,
    sheet: SecondSheet,
    called: String,
    /// `Anchor 2 of 4`.
    which: String,
    method: Method,
    body: Option<Body>,
    /// What the figures show, without anybody's word on it.
    slips: Vec<FlagLine>,
    remarks: Vec<FlagLine>,
    points: Vec<PointLine>,
    /// Whether marks may still be given.
    is_open: bool,
    /// The reader's sheets before and after this one.
    before: Option<RoundSheetId>,
    after: Option<RoundSheetId>,
    /// The reader's next sheet that is not complete.
    next: Option<RoundSheetId>,
    script_url: String,
}

/// A point as its marker sees it.
struct PointLine {
    key: i64,
    number: i64,
    title: String,
    guidance: String,
    /// What full marks are earned by, where a check suggests them.
    rule: Option<&'static str>,
    levels: Vec<Level>,
    most: u32,
    /// What the sheet alone suggests.
    suggestion: Option<Suggestion>,
    /// What the group wrote that the point is judged on, with what it is
    /// called; the text is blank where they wrote nothing.
    answer: Option<(&'static str, String)>,
    is_on_paper: bool,
    ruling: Option<RulingLine>,
    /// The reader's own mark.
    given: Option<i64>,
    /// What is in the box of the note.
    note: String,
    wrong: Option<&'static str>,
}

impl PointLine {
    fn is_given(&self, marks: &u32) -> bool {
        self.given == Some(i64::from(*marks))
    }

    fn is_suggested(&self, marks: &u32) -> bool {
        self.suggestion.as_ref().is_some_and(|s| s.marks == *marks)
    }

    /// The own mark as the form sends it.
    fn kept(&self) -> String {
        self.given
            .map_or_else(|| "none".to_owned(), |marks| marks.to_string())
    }
}

/// A mark or a note that cannot be taken.
pub(super) struct Refused {
    pub(super) key: i64,
    /// The note as typed.
    pub(super) note: String,
    pub(super) sentence: &'static str,
}

/// The page.
pub(super) async fn get(
    State(state): State<AppState>,
    by: SignedIn,
    Path((round, id)): Path<(RoundId, RoundSheetId)>,
) -> Result<Response, AppError> {
    let page = page(&state, by, round, id, None).await?;
    Ok(page.into_response())
}

/// A sheet of a round, for somebody who has to mark it, or had to.
pub(super) async fn find(
    db: &mut Connection,
    round: RoundId,
    id: RoundSheetId,
    reader: StaffId,
) -> Result<(Round, RoundSheet), AppError> {
    let round = round::get(db, round).await?;
    let sheet = round_sheet::find(db, round.id, id).await?;
    let sheet = sheet.ok_or(AppError::NotFound("There is no such sheet in this round."))?;
    let is_own = match sheet.marker_id {
        Some(marker) => marker == reader,
        None => {
            let markers = round::list_markers(db, round.id).await?;
            markers.iter().any(|marker| marker.id == reader)
        }
    };
    if !is_own {
        return Err(AppError::Forbidden(
            "Only those who have to mark this sheet in the round can open it here.",
        ));
    }
    Ok((round, sheet))
}

/// The page, perhaps with what was typed where some of it could not be taken.
pub(super) async fn page(
    state: &AppState,
    by: SignedIn,
    round: RoundId,
    id: RoundSheetId,
    refused: Option<Refused>,
) -> Result<Page<MarkPage>, AppError> {
    let mut db = state.reader(&by).await?;
    let (round, sheet) = find(&mut db, round, id, by.staff_id).await?;
    let sheet = load(&mut db, sheet, by.staff_id).await?;
    let class_set = class_set::get(&mut db, sheet.sheet.class_set_id).await?;
    let progress = round_sheet::list_progress(&mut db, round.id, Some(by.staff_id)).await?;
    let standing = db::ruling::list_standing(&mut db, round.scheme_id).await?;
    drop(db);
    let now = state.clock.now();
    let when = |at| state.zone.time_or_day(at, now);
    let mut rulings = ruling::by_key(standing, &when);
    let points = sheet.points.iter().map(|point| {
        let key = point.point.key;
        let refused = refused.as_ref().filter(|refused| refused.key == key);
        line(&sheet, point, rulings.remove(&key), refused)
    });
    let points = points.collect();
    let own: Vec<&Progress> = progress
        .iter()
        .filter(|line| line.kind == sheet.sheet.kind)
        .collect();
    let at = own.iter().position(|line| line.round_sheet_id == id);
    let neighbour = |at: Option<usize>| Some(own.get(at?)?.round_sheet_id);
    let (method, work) = (class_set.method()?, sheet.work.as_ref());
    Ok(Page(MarkPage {
        layout: by.layout,
        called: called_in_round(&sheet.sheet),
        which: which(sheet.sheet.kind, at, own.len()),
        method,
        body: work.map(|work| body(work, &class_set, method)),
        slips: work.map_or_else(Vec::new, |work| flag::lines(work, SlipKind::Slip)),
        remarks: work.map_or_else(Vec::new, |work| flag::lines(work, SlipKind::Remark)),
        points,
        is_open: Some(sheet.sheet.kind) == being_marked(round.step),
        before: neighbour(at.and_then(|at| at.checked_sub(1))),
        after: neighbour(at.map(|at| at + 1)),
        next: next(id, &own),
        script_url: assets::url("marking.js"),
        sheet,
        round,
    }))
}

fn line(
    sheet: &SecondSheet,
    point: &SecondPoint,
    ruling: Option<RulingLine>,
    refused: Option<&Refused>,
) -> PointLine {
    let asked = &point.point.point;
    let kept = point.mark.as_ref().map_or("", |mark| mark.note.as_str());
    PointLine {
        key: point.point.key,
        number: point.point.number,
        title: asked.title.clone(),
        guidance: asked.guidance.clone(),
        rule: match asked.judged {
            Judged::ByCheck(check) => Some(check.rule()),
            Judged::ByEye(_) => None,
        },
        levels: asked.levels.clone(),
        most: asked.marks,
        suggestion: point.suggestion.clone(),
        answer: answer(sheet, asked.judged),
        is_on_paper: asked.judged == Judged::ByEye(None),
        ruling,
        given: point.awarded(),
        note: refused.map_or(kept, |refused| &refused.note).to_owned(),
        wrong: refused.map(|refused| refused.sentence),
    }
}

/// The group's own words that a point is judged on, with what they are called.
fn answer(sheet: &SecondSheet, judged: Judged) -> Option<(&'static str, String)> {
    let Judged::ByEye(Some(answer)) = judged else {
        return None;
    };
    let work = sheet.work.as_ref();
    let text = work.map(|work| work.revision.entry.answers.get(answer).trim().to_owned());
    Some((answer.label(), text.unwrap_or_default()))
}

/// Where the sheet stands among those of the reader: `Anchor 2 of 4`.
fn which(kind: Kind, at: Option<usize>, of: usize) -> String {
    let what = match kind {
        Kind::Anchor => "Anchor",
        Kind::Sample => "Sheet",
    };
    format!("{what} {} of {of}", at.unwrap_or(0) + 1)
}

/// The next sheet of the reader that is not complete, after this one first.
fn next(sheet: RoundSheetId, own: &[&Progress]) -> Option<RoundSheetId> {
    let (before, after): (Vec<&Progress>, Vec<_>) = own
        .iter()
        .copied()
        .filter(|line| !line.is_complete() && line.round_sheet_id != sheet)
        .partition(|line| line.round_sheet_id < sheet);
    let mut in_order = after.into_iter().chain(before);
    in_order.next().map(|line| line.round_sheet_id)
}
