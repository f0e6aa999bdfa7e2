//! What was drawn, with all that is needed to draw it again.

use std::collections::BTreeSet;

use super::sample::{self, SampleLine, short};
use crate::db::Connection;
use crate::db::round::{self, Marker, Round, Step};
use crate::db::round_sheet::{self, Kind, RoundSheet};
use crate::db::staff::{self, Staff};
use crate::ids::SheetId;
use crate::report::moderation::cohort::{self, Cohort, FirstMarked};
use crate::report::moderation::draw::without_marker;
use crate::table::{Cell, PageTable, Table};
use crate::web::error::AppError;
use crate::web::layout::{Layout, Page};
use crate::web::session::SignedIn;
use crate::words;
use crate::words::moderation;

/// A draw that was made, as one reader may see it.
///
/// The comparison gives colleagues' sheets no name. A total beside one, or
/// that it was the highest, would give it back: so only a head of department
/// sees that of all sheets.
#[derive(askama::Template)]
#[template(path = "moderation/sample.html")]
pub(super) struct SamplePage {
    layout: Layout,
    round: Round,
    is_head: bool,
    /// How many the department's table asked for then; `None`: all.
    asked: Option<i64>,
    sheets: Vec<RoundSheet>,
    cohort: Cohort,
    markers: Vec<Marker>,
    people: Vec<Staff>,
    /// Sheets that the reader marked, first or second.
    own: BTreeSet<SheetId>,
}

/// Returns the page, for whoever may see first marks of all its class sets.
pub(super) async fn page(
    db: &mut Connection,
    by: SignedIn,
    round: Round,
) -> Result<Page<SamplePage>, AppError> {
    let closed = round_sheet::list_closed(db, by.staff_id).await?;
    let class_sets = round::list_class_sets(db, round.id).await?;
    let mut class_sets = class_sets.iter();
    if class_sets.any(|set| closed.class_set(set.id).is_some()) {
        return Err(AppError::Forbidden(moderation::SAMPLE_BLIND));
    }
    let steps = round::list_steps(db, round.id).await?;
    let step = steps.into_iter().find(|taken| taken.step == Step::Drawn);
    let step = step.ok_or(AppError::NotFound(moderation::NO_SAMPLE))?;
    let (reader, is_head) = (by.staff_id, by.is_head());
    let cohort = cohort::load(db, &round, Some(step.last_mark_id)).await?;
    let sheets = round_sheet::list(db, round.id).await?;
    let second = sheets
        .iter()
        .filter(|sheet| sheet.marker_id == Some(reader));
    let first = cohort.sheets.iter();
    let first = first.filter(|sheet| sheet.markers.contains(&reader));
    let own = second.map(|sheet| sheet.sheet_id);
    Ok(Page(SamplePage {
        own: own.chain(first.map(|sheet| sheet.sheet_id)).collect(),
        layout: by.layout,
        is_head,
        asked: step.asked,
        sheets,
        cohort,
        markers: round::list_markers(db, round.id).await?,
        people: staff::list(db).await?,
        round,
    }))
}

impl SamplePage {
    fn may_see(&self, sheet: SheetId) -> bool {
        self.is_head || self.own.contains(&sheet)
    }

    fn ticket(&self, name: &str) -> String {
        short(&analysis::moderation::ticket::ticket(
            &self.round.seed,
            name,
        ))
    }

    /// Returns the sheets that were taken, in the order in which they are
    /// marked.
    fn taken(&self) -> PageTable {
        let taken = self.sheets.iter().filter(|s| s.kind == Kind::Sample);
        let lines: Vec<_> = taken.map(|sheet| self.line(sheet)).collect();
        sample::table(&lines, true)
    }

    fn line(&self, sheet: &RoundSheet) -> SampleLine {
        let name = sheet.name();
        let told = |text: &str| match self.may_see(sheet.sheet_id) {
            true => text.to_owned(),
            false => String::new(),
        };
        SampleLine {
            ticket: self.ticket(&name),
            name,
            called: sheet.called(),
            why: told(words::taken(&sheet.why)),
            marker: told(sheet.marker.as_deref().unwrap_or_default()),
            is_taught: false,
        }
    }

    /// Returns all that it was drawn from, by ticket.
    fn drawn_from(&self) -> PageTable {
        let sheets = self.cohort.sheets.iter();
        let tickets = sheets.map(|sheet| (self.ticket(&sheet.name), sheet));
        let mut lines: Vec<_> = tickets.collect();
        lines.sort_by(|a, b| a.0.cmp(&b.0));
        let seen = |sheet: &FirstMarked, text: String| match self.may_see(sheet.sheet_id) {
            true => text,
            false => String::new(),
        };
        Table::of(&lines)
            .text("Ticket", |(ticket, _)| Cell::from(ticket).code())
            .text("Sheet", |(_, sheet)| &sheet.name)
            .heading()
            .figure("Total", |(_, sheet)| seen(sheet, sheet.total.to_string()))
            .text("Marked first by", |(_, sheet)| {
                seen(sheet, self.first_markers(sheet))
            })
            .text("Taken", |(_, sheet)| match self.taken_as(sheet) {
                Some(Kind::Anchor) => "no, an anchor",
                Some(Kind::Sample) => "yes",
                None if self.is_left_out(sheet) => "no, nobody left to mark it",
                None => "no",
            })
            .on_page("All sheets by ticket", "What the sample was drawn from")
    }

    fn first_markers(&self, sheet: &FirstMarked) -> String {
        let people = self.people.iter();
        let markers = people.filter(|person| sheet.markers.contains(&person.id));
        let markers: Vec<String> = markers.map(|person| person.name.to_string()).collect();
        markers.join(", ")
    }

    /// Says whether a sheet is in the round as an anchor or in its sample.
    /// Returns `None` when it is in neither.
    fn taken_as(&self, sheet: &FirstMarked) -> Option<Kind> {
        let mut sheets = self.sheets.iter();
        let taken = sheets.find(|other| other.sheet_id == sheet.sheet_id)?;
        Some(taken.kind)
    }

    /// Says whether nobody was left to mark a sheet a second time.
    fn is_left_out(&self, sheet: &FirstMarked) -> bool {
        self.taken_as(sheet).is_none() && without_marker(sheet, &self.markers)
    }

    /// Names of the sheets of which that is so.
    fn left_out(&self) -> String {
        let sheets = self.cohort.sheets.iter();
        let left = sheets.filter(|sheet| self.is_left_out(sheet));
        let names: Vec<&str> = left.map(|sheet| sheet.name.as_str()).collect();
        names.join(", ")
    }
}
