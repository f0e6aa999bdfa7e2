//! Closing a round, its record on one page and as a file, and what is written
//! to that later. For heads of department: a record compares teachers.

use axum::extract::Path;
use axum::response::IntoResponse;

use super::settle::BLIND;
use crate::acts::{CloseRound, EnterRecord, NotClosed, NotEntered};
use crate::clock::Zone;
use crate::db::moderation_record::{self, RecordEntry, StoredRecord};
use crate::db::{Connection, Error};
use crate::files;
use crate::ids::{ClassSetId, RoundId};
use crate::report::moderation::line::ComparisonLine;
use crate::report::moderation::may_see::is_blind;
use crate::report::moderation::record::{PointLine, Record, SheetLine};
use crate::secret::sha256;
use crate::table::{PageTable, Table};
use crate::web::attachment::Attachment;
use crate::web::error::{AppError, Reply};
use crate::web::form::TypedText;
use crate::web::layout::{Layout, Page, go};
use crate::web::session::{SignedIn, StaffForm};
use crate::web::state::AppState;
use crate::words::counted;
use crate::words::moderation;
use crate::words::number;
use crate::words::refusal;
use crate::words::verdict::Whose;

/// What others than heads of department are told.
pub(super) const COMPARES_COLLEAGUES: &str = moderation::RECORD_FOR_HEADS;

const NO_RECORD: AppError = AppError::NotFound(moderation::NO_RECORD);

/// A record as it was stored, read, with what was written to it later.
struct Found {
    stored: StoredRecord,
    record: Record,
    entries: Vec<RecordEntry>,
}

#[derive(askama::Template)]
#[template(path = "moderation/record.html")]
struct RecordPage {
    layout: Layout,
    id: RoundId,
    record: Record,
    stored: StoredRecord,
    entries: Vec<RecordEntry>,
    /// Times are always with the day: the page is filed.
    zone: Zone,
    /// A later entry.
    entry: TypedText,
}

impl RecordPage {
    /// Tells two copies apart that do not say the same.
    fn fingerprint(&self) -> String {
        sha256(&self.stored.body)[..16].to_owned()
    }

    /// Returns the lines of points, or all others.
    fn lines(&self, are_points: bool) -> Vec<ComparisonLine<'_>> {
        let mut lines = self.record.lines();
        lines.retain(|line| line.point().is_some() == are_points);
        lines
    }

    fn line_table(&self, are_points: bool, caption: &str) -> PageTable {
        Table::of(&self.lines(are_points))
            .text("Of", |line| self.called(line))
            .figure("Compared", |line| line.agreement.n)
            .figure("Mean difference", ComparisonLine::mean)
            .unit("/ marks")
            .figure("95 % interval", ComparisonLine::interval)
            .unit("/ marks")
            .figure("SD", |line| match line.agreement.sd {
                Some(_) => line.sd(),
                None => String::new(),
            })
            .unit("/ marks")
            .figure("The same", |line| line.agreement.exact.count)
            .figure("Within tolerance", |line| line.agreement.within.count)
            .on_page(caption, caption)
    }

    /// Everyone's marks of the anchors.
    fn anchor_table(&self) -> PageTable {
        let anchors = self.record.anchors.iter();
        let lines = anchors.flat_map(|anchor| {
            let differing = anchor.differing.iter();
            let differing = differing.map(|point| (point.title.as_str(), &point.marks));
            let all = std::iter::once(("All together", &anchor.totals)).chain(differing);
            all.map(move |(title, marks)| (anchor.sheet.called(), title, marks))
        });
        let lines: Vec<_> = lines.collect();
        let mut table = Table::of(&lines)
            .name("Anchor", |(sheet, ..)| sheet)
            .text("Point", |(_, title, _)| title);
        for (at, marker) in self.record.markers.iter().enumerate() {
            table = table.figure(marker, |(.., marks)| {
                number::marks(marks.get(at).copied().flatten())
            });
        }
        table.on_page(
            "Marks of the anchors",
            "Everyone’s marks of the anchors: the totals, and the points on which they differed",
        )
    }

    fn sheet_table(&self) -> PageTable {
        let sheets = &self.record.sheets;
        Table::of(sheets)
            .name("Sheet", |one| one.sheet.called())
            .text("Drawn as", |one| crate::words::taken(&one.why))
            .text("Marked first by", SheetLine::first_by)
            .text("Second by", |one| match one.second {
                Some(_) => one.second_marker.clone(),
                None => format!("{} (did not finish)", one.second_marker),
            })
            .figure("First", |one| number::marks(one.first))
            .figure("Second", |one| number::marks(one.second))
            .figure("Second − first", |one| number::apart(one.apart()))
            .figure("Stands", |one| number::marks(one.stands))
            .on_page(
                "Sheets of the sample",
                format!(
                    "{}, in the order in which they were marked",
                    counted(sheets.len(), "sheet", "sheets")
                ),
            )
    }

    fn mark_table(&self) -> PageTable {
        let mut table = Table::of(&self.record.sheets).name("Sheet", |one| one.sheet.called());
        for point in self.record.columns() {
            table = table.figure(point.number, |one| one.marks(point.key));
        }
        table.on_page(
            "Every mark",
            "Every mark, point by point: first, second, and after an arrow the mark that stood when the round was closed",
        )
    }

    fn called(&self, line: &ComparisonLine<'_>) -> String {
        match &line.name {
            name if line.is_of(Whose::First) => format!("{name}, first"),
            name if line.is_of(Whose::Second) => format!("{name}, second"),
            name if line.point().is_some() => name.clone(),
            _ => "All sheets".to_owned(),
        }
    }

    /// Marks that stood in the end though nobody in the round had decided so.
    fn marked_since(&self) -> Vec<(&SheetLine, &PointLine)> {
        let sheets = self.record.sheets.iter();
        let points = sheets.flat_map(|sheet| sheet.points.iter().map(move |point| (sheet, point)));
        points.filter(|(_, point)| point.is_marked_since).collect()
    }
}

/// Shows the page.
pub(super) async fn get(state: AppState, by: SignedIn, Path(id): Path<RoundId>) -> Reply {
    page(&state, by, id, TypedText::default()).await?.reply()
}

/// Shows the record as a file.
pub(super) async fn csv(state: AppState, by: SignedIn, Path(id): Path<RoundId>) -> Reply {
    let found = find(&mut state.reader(&by).await?, &by, id).await?;
    let stamp = |at| state.zone.stamp(at);
    let table = files::record::table(&found.record, &found.entries, &stamp);
    Ok(Attachment::csv(format!("moderation-{id}.csv"), &table)?.into_response())
}

/// Returns the record of a round, for those who may see it.
async fn find(db: &mut Connection, by: &SignedIn, id: RoundId) -> Result<Found, AppError> {
    let stored = moderation_record::find(db, id).await?;
    let stored = stored.ok_or(NO_RECORD)?;
    let record: Record = serde_json::from_str(&stored.body).map_err(Error::from)?;
    // A head may mark these classes blind once more, in another round.
    let sets = record.class_sets.iter().map(|set| ClassSetId(set.id));
    if is_blind(db, by.staff_id, sets).await? {
        return Err(BLIND);
    }
    Ok(Found {
        entries: moderation_record::list_entries(db, id).await?,
        stored,
        record,
    })
}

async fn page(
    state: &AppState,
    by: SignedIn,
    id: RoundId,
    entry: TypedText,
) -> Result<Page<RecordPage>, AppError> {
    let found = find(&mut state.reader(&by).await?, &by, id).await?;
    Ok(Page(RecordPage {
        layout: by.layout,
        id,
        record: found.record,
        stored: found.stored,
        entries: found.entries,
        zone: state.zone.clone(),
        entry,
    }))
}

/// Closes the round and makes its record. A round that is closed already
/// stays as it is.
pub(super) async fn close(state: AppState, Path(id): Path<RoundId>, form: StaffForm) -> Reply {
    let act = CloseRound {
        round: id,
        although_pending: form.pairs.get("pending") == "yes",
    };
    match state.act(&form.by, act).await? {
        Ok(()) => go(format!("/moderation/{id}/record")),
        Err(NotClosed::NotNow) => go(format!("/moderation/{id}")),
        Err(NotClosed::Open(_)) => Err(AppError::BadRequest(moderation::DIFFERENCES_LEFT)),
        Err(NotClosed::Pending) => Err(AppError::BadRequest(moderation::STILL_TO_MARK)),
    }
}

/// Writes to the record of a closed round: what is already there stays.
pub(super) async fn enter(state: AppState, Path(id): Path<RoundId>, form: StaffForm) -> Reply {
    let mut entry = TypedText::new(form.pairs.text("entry"));
    let act = EnterRecord {
        round: id,
        body: entry.text.clone(),
    };
    let wrong = match state.act(&form.by, act).await? {
        Ok(()) => return go(format!("/moderation/{id}/record#entries")),
        Err(NotEntered::NoRecord) => return Err(NO_RECORD),
        Err(NotEntered::Blind) => return Err(BLIND),
        Err(NotEntered::Blank) => moderation::FOUND_OR_DONE,
        Err(NotEntered::Long) => refusal::AT_MOST_2000,
    };
    entry.refuse(wrong);
    page(&state, form.by, id, entry).await?.refused()
}
