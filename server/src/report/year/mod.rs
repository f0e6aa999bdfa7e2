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
pub mod number;
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
use crate::off_thread::off_thread;

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

/// What a year's figures are made from, or the figures that are kept.
#[derive(Debug)]
pub struct Stored {
    frame: Frame,
    state: String,
    figures: Figures,
}

#[derive(Debug)]
enum Figures {
    Kept(Comparison),
    Of(Sheets),
}

/// Loads a year's figures where nothing has changed since they were kept, else
/// its sheets.
///
/// Class sets that are `closed` to whoever asks are no part of them: figures
/// of the others are made each time, and not kept.
pub async fn load(
    db: &mut Connection,
    zone: &Zone,
    school_year: i64,
    closed: &Closed,
) -> Result<Stored, Error> {
    let frame = Frame::load(db, zone, school_year, closed).await?;
    let state = frame.state(&year::get_newest(db, school_year).await?)?;
    let kept = match frame.left_out {
        0 => year_summary::find(db, school_year, &state).await?,
        _ => None,
    };
    let figures = match kept {
        Some(comparison) => Figures::Kept(comparison),
        None => Figures::Of(sheets::load(db, &frame).await?),
    };
    Ok(Stored {
        frame,
        state,
        figures,
    })
}

impl Stored {
    /// Compares the year, away from the threads that answer requests.
    pub async fn compare(self) -> YearReport {
        let frame = self.frame;
        let sheets = match self.figures {
            Figures::Of(sheets) => sheets,
            Figures::Kept(comparison) => {
                return YearReport {
                    frame,
                    comparison,
                    to_keep: ToKeep::default(),
                };
            }
        };
        let judged = sheets.to_keep;
        let comparison = off_thread(move || compare(&sheets.year)).await;
        let summary = (frame.left_out == 0).then(|| NewSummary {
            school_year: frame.school_year,
            state: self.state,
            comparison: comparison.clone(),
        });
        YearReport {
            frame,
            comparison,
            to_keep: ToKeep { judged, summary },
        }
    }
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
