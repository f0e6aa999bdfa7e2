//! A school year: its sheets judged and compared, and kept until something
//! changes.
//!
//! Two things are kept. A sheet's judgement, by revision, since thousands are
//! read at once; and the year's comparison, with a digest of what it was made
//! from. Both may be deleted at any time. Nobody waits for either to be
//! written.

pub mod frame;
mod judge;
mod named;
pub mod sheets;
pub mod words;

use analysis::year::{Comparison, compare};

use crate::acts::{KeepYear, perform_later};
use crate::clock::Zone;
use crate::db::judgement::Judged;
use crate::db::round_sheet::Closed;
use crate::db::year_summary::{self, NewSummary};
use crate::db::{Connection, Error, Store, year};
use crate::ids::{DepartmentId, RevisionId};

pub use frame::Frame;
pub use sheets::Sheets;

/// A year compared.
#[derive(Debug)]
pub struct YearReport {
    /// What it is arranged by.
    pub frame: Frame,
    /// The figures, by the frame's order of classes, teachers and kits.
    pub comparison: Comparison,
    /// What had to be made anew: to be kept.
    pub to_keep: ToKeep,
}

/// What was made when somebody looked.
#[derive(Debug, Default)]
pub struct ToKeep {
    judged: Vec<(RevisionId, Judged)>,
    summary: Option<NewSummary>,
}

/// Loads a year's figures: those kept, where nothing has changed since, else
/// from its sheets.
///
/// Class sets that are `closed` to whoever asks are no part of them: figures
/// of the others are made each time, and not kept.
pub async fn load(
    db: &mut Connection,
    zone: &Zone,
    school_year: i64,
    closed: &Closed,
) -> Result<YearReport, Error> {
    let frame = Frame::load(db, zone, school_year, closed).await?;
    let state = frame.state(&year::get_newest(db, school_year).await?)?;
    let is_whole = frame.left_out == 0;
    let kept = match is_whole {
        true => year_summary::find(db, school_year, &state).await?,
        false => None,
    };
    if let Some(comparison) = kept {
        return Ok(YearReport {
            frame,
            comparison,
            to_keep: ToKeep::default(),
        });
    }
    let sheets = sheets::load(db, &frame).await?;
    let comparison = compare(&sheets.year);
    let summary = is_whole.then(|| NewSummary {
        school_year,
        state,
        comparison: comparison.clone(),
    });
    Ok(YearReport {
        frame,
        comparison,
        to_keep: ToKeep {
            judged: sheets.to_keep,
            summary,
        },
    })
}

/// Keeps judgements that had to be made, for whoever looks next.
pub fn keep_judged(
    store: &Store,
    department: DepartmentId,
    judged: Vec<(RevisionId, Judged)>,
    now: i64,
) {
    if !judged.is_empty() {
        judge::keep(store, department, judged, now);
    }
}

/// Keeps what had to be made, for whoever looks next. Where it cannot be kept
/// it is made again.
pub fn keep(store: &Store, department: DepartmentId, made: ToKeep, now: i64) {
    keep_judged(store, department, made.judged, now);
    if let Some(summary) = made.summary {
        let act = KeepYear(summary);
        perform_later(store, now, department, act, "a year's summary was not kept");
    }
}
