//! What was drawn, with all that is needed to draw it again.

use std::collections::BTreeSet;

use super::called_in_round;
use super::sample::{SampleLine, short};
use crate::db::round::{self, Round, Step};
use crate::db::round_sheet::{self, Kind, RoundSheet};
use crate::db::staff::{self, Staff};
use crate::db::{Connection, Error};
use crate::error::AppError;
use crate::ids::{SheetId, StaffId};
use crate::layout::{Layout, Page};
use crate::report::moderation::cohort::{self, Cohort, FirstMarked};
use crate::report::moderation::draw::without_marker;
use crate::report::moderation::name;
use crate::session::SignedIn;

#[derive(askama::Template)]
#[template(path = "moderation/sample.html")]
pub(super) struct SamplePage {
    layout: Layout,
    round: Round,
    /// Whether the reader sees all of it; else only what is about sheets that
    /// they marked.
    is_head: bool,
    /// How many the department's table asked for then; `None`: all.
    asked: Option<i64>,
    lines: Vec<SampleLine>,
    /// All that it was drawn from, by ticket.
    drawn_from: Vec<CandidateLine>,
    /// Names of the sheets that nobody was left to mark a second time.
    without_marker: Vec<String>,
}

/// A sheet that might have been taken.
struct CandidateLine {
    ticket: String,
    name: String,
    /// `None` where the reader may not see it, as for the names of those who
    /// marked it.
    total: Option<i64>,
    markers: String,
    what_became: &'static str,
}

/// A draw that was made, as one reader may see it.
///
/// The comparison gives colleagues' sheets no name. A total beside one, or
/// that it was the highest, would give it back: so only a head of department
/// sees that of all sheets.
struct Drawn {
    round: Round,
    sheets: Vec<RoundSheet>,
    cohort: Cohort,
    people: Vec<Staff>,
    without_marker: BTreeSet<SheetId>,
    is_head: bool,
    /// Sheets that the reader marked, first or second.
    own: BTreeSet<SheetId>,
}

/// The page, for whoever may see first marks of all its class sets.
pub(super) async fn page(
    db: &mut Connection,
    by: SignedIn,
    round: Round,
) -> Result<Page<SamplePage>, AppError> {
    let closed = round_sheet::list_closed(db, by.staff_id).await?;
    let class_sets = round::list_class_sets(db, round.id).await?;
    let mut class_sets = class_sets.iter();
    if class_sets.any(|set| closed.class_set(set.id).is_some()) {
        return Err(AppError::Forbidden(
            "You are marking sheets of this sample without seeing other marks, and why each was taken would tell of them. This page opens when the marks are shown.",
        ));
    }
    let steps = round::list_steps(db, round.id).await?;
    let step = steps.into_iter().find(|taken| taken.step == Step::Drawn);
    let step = step.ok_or(AppError::NotFound("No sample was drawn in this round."))?;
    let is_head = by.is_head();
    let cohort = cohort::load(db, &round, Some(step.last_mark_id)).await?;
    let drawn = Drawn::load(db, round, cohort, by.staff_id, is_head).await?;
    Ok(Page(SamplePage {
        layout: by.layout,
        is_head,
        asked: step.asked,
        lines: drawn.lines(),
        drawn_from: drawn.drawn_from(),
        without_marker: drawn.without_marker(),
        round: drawn.round,
    }))
}

impl Drawn {
    async fn load(
        db: &mut Connection,
        round: Round,
        cohort: Cohort,
        reader: StaffId,
        is_head: bool,
    ) -> Result<Self, Error> {
        let sheets = round_sheet::list(db, round.id).await?;
        let markers = round::list_markers(db, round.id).await?;
        let second = sheets
            .iter()
            .filter(|sheet| sheet.marker_id == Some(reader))
            .map(|sheet| sheet.sheet_id);
        let first = cohort
            .sheets
            .iter()
            .filter(|sheet| sheet.markers.contains(&reader))
            .map(|sheet| sheet.sheet_id);
        let anchors: BTreeSet<SheetId> = sheets
            .iter()
            .filter(|sheet| sheet.kind == Kind::Anchor)
            .map(|sheet| sheet.sheet_id)
            .collect();
        let nobody_left = cohort
            .sheets
            .iter()
            .filter(|sheet| !anchors.contains(&sheet.sheet_id) && without_marker(sheet, &markers))
            .map(|sheet| sheet.sheet_id);
        Ok(Self {
            own: second.chain(first).collect(),
            without_marker: nobody_left.collect(),
            people: staff::list(db).await?,
            round,
            sheets,
            cohort,
            is_head,
        })
    }

    fn may_see(&self, sheet: SheetId) -> bool {
        self.is_head || self.own.contains(&sheet)
    }

    fn ticket(&self, name: &str) -> String {
        short(&analysis::moderation::ticket::ticket(
            &self.round.seed,
            name,
        ))
    }

    /// The sheets that were taken, in the order in which they are marked.
    fn lines(&self) -> Vec<SampleLine> {
        let taken = self.sheets.iter().filter(|s| s.kind == Kind::Sample);
        taken.map(|sheet| self.line(sheet)).collect()
    }

    fn line(&self, sheet: &RoundSheet) -> SampleLine {
        let name = name(sheet.class_set_id, &sheet.label);
        let told = |text: &str| match self.may_see(sheet.sheet_id) {
            true => text.to_owned(),
            false => String::new(),
        };
        SampleLine {
            ticket: self.ticket(&name),
            name,
            called: called_in_round(sheet),
            why: told(&sheet.why),
            marker: told(sheet.marker.as_deref().unwrap_or_default()),
            is_taught: false,
        }
    }

    fn drawn_from(&self) -> Vec<CandidateLine> {
        let sheets = self.cohort.sheets.iter();
        let mut lines: Vec<_> = sheets.map(|sheet| self.candidate(sheet)).collect();
        lines.sort_by(|a, b| a.ticket.cmp(&b.ticket));
        lines
    }

    fn candidate(&self, sheet: &FirstMarked) -> CandidateLine {
        let may_see = self.may_see(sheet.sheet_id);
        let markers = self
            .people
            .iter()
            .filter(|person| may_see && sheet.markers.contains(&person.id));
        let markers: Vec<String> = markers.map(|person| person.name.to_string()).collect();
        CandidateLine {
            ticket: self.ticket(&sheet.name),
            name: sheet.name.clone(),
            total: may_see.then_some(sheet.total),
            markers: markers.join(", "),
            what_became: self.what_became(sheet.sheet_id),
        }
    }

    fn what_became(&self, sheet: SheetId) -> &'static str {
        let is = |kind| {
            let mut sheets = self.sheets.iter();
            sheets.any(|other| other.kind == kind && other.sheet_id == sheet)
        };
        if is(Kind::Anchor) {
            "no, an anchor"
        } else if is(Kind::Sample) {
            "yes"
        } else if self.without_marker.contains(&sheet) {
            "no, nobody left to mark it"
        } else {
            "no"
        }
    }

    /// Names of sheets that were left out since nobody could mark them.
    fn without_marker(&self) -> Vec<String> {
        let sheets = self.cohort.sheets.iter();
        sheets
            .filter(|sheet| self.without_marker.contains(&sheet.sheet_id))
            .map(|sheet| sheet.name.clone())
            .collect()
    }
}
