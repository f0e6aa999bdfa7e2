//! What taking a file in would do, group by group. The preview shows it, and
//! keeping goes by it.
//!
//! # Why the preview carries the whole file
//! So that nothing has to be kept before the teacher says so, a restart loses
//! nothing, and the preview and the keeping are one reading of one file. It
//! travels as JSON text, because browsers change line ends in a form. Work that
//! is stored already is not stored again, so pressing twice is harmless; a
//! sheet that moved on since the preview stops all of it.

use analysis::sheet::Sheet;

use super::choose;
use super::limits::{self, settled};
use super::stored::StoredClass;
use super::understood::{self, UnderstoodLine};
use crate::acts::{NoBench, why_no_bench};
use crate::db::revision::Entry;
use crate::files::SheetReadings;
use crate::files::fault::Fault;
use crate::files::readings::{Readings, WholeFile};
use crate::pages::bench_sheet::lines::{Pair, side_by_side};
use crate::words::Say;
use crate::words::file;

/// What taking a file in would do.
#[derive(Debug)]
pub(super) struct Plan {
    pub(super) groups: Vec<Planned>,
    /// How the file was read, where it could be read in several ways.
    pub(super) assumed: Vec<String>,
    /// What stands in the file and is not taken.
    pub(super) left_aside: Vec<String>,
}

/// What it would do to one group.
#[derive(Debug)]
pub(super) struct Planned {
    pub(super) label: String,
    pub(super) entry: Entry,
    pub(super) lines: Vec<UnderstoodLine>,
    pub(super) standing: Standing,
}

/// How a group of the file stands to the benches.
#[derive(Debug)]
pub(super) enum Standing {
    /// There is no such bench; it can be added.
    New,
    /// There is no such bench and none can be made: why.
    Impossible(&'static str),
    /// Its bench has stored nothing yet.
    First,
    /// Its bench has stored just this.
    Same,
    /// Its bench has stored something else.
    Change {
        /// The version that is stored.
        version: i64,
        /// The boxes in which the two differ.
        differences: Vec<Pair>,
    },
}

/// Why nothing can be taken from a file.
#[derive(Debug)]
pub(super) enum Refusal {
    /// It cannot be read: at least one fault, in the order of the file.
    Faults(Vec<Fault>),
    /// Nothing in it is for this class set: sentences that say why.
    NothingHere(Vec<String>),
}

impl Plan {
    /// Reads a file for a class set, beside what is stored.
    pub(super) fn of(file: &[u8], stored: &StoredClass) -> Result<Self, Refusal> {
        let readings = Readings::open(file).map_err(|e| Refusal::Faults(vec![e.into_fault(1)]))?;
        let WholeFile {
            classes,
            assumed,
            mut faults,
        } = readings.whole();
        let mut left_aside = Vec::new();
        let sheets = choose::class(classes, &stored.class_set.class_name, &mut left_aside);
        let sheets = choose::method(sheets, stored.method, &mut left_aside);
        let sheets = choose::filled(sheets, &mut left_aside);
        let mut checked = Vec::new();
        for sheet in sheets {
            faults.extend(limits::faults(&sheet));
            match sheet.check_all() {
                Ok(read) => checked.push((sheet, read)),
                Err(wrong) => faults.extend(wrong),
            }
        }
        if !faults.is_empty() {
            faults.sort_by_key(|fault| fault.line);
            return Err(Refusal::Faults(faults));
        }
        if checked.is_empty() {
            return Err(Refusal::NothingHere(left_aside));
        }
        let mut benches = stored.benches.len();
        let planned = |(sheet, read)| planned(&sheet, &read, stored, &mut benches);
        Ok(Self {
            groups: checked.into_iter().map(planned).collect(),
            assumed: assumed.of_reading(),
            left_aside,
        })
    }
}

/// Returns what would become of one sheet of the file; `benches` counts those
/// that there would be.
fn planned(
    readings: &SheetReadings,
    sheet: &Sheet,
    stored: &StoredClass,
    benches: &mut usize,
) -> Planned {
    let entry = settled(readings.entry.clone());
    let standing = match stored.bench(&readings.group) {
        None => new_bench(&readings.group, benches),
        Some(bench) => match stored.work(bench) {
            None => Standing::First,
            Some(work) if work.entry == entry => Standing::Same,
            Some(work) => Standing::Change {
                version: work.version,
                differences: differences(&work.entry, &entry),
            },
        },
    };
    Planned {
        label: readings.group.clone(),
        lines: understood::lines(readings, sheet),
        entry,
        standing,
    }
}

fn new_bench(label: &str, benches: &mut usize) -> Standing {
    match why_no_bench(label, *benches) {
        Some(NoBench::Label) => Standing::Impossible(file::BAD_LABEL),
        Some(NoBench::Full) => Standing::Impossible(file::TOO_MANY_GROUPS),
        None => {
            *benches += 1;
            Standing::New
        }
    }
}

fn differences(stored: &Entry, read: &Entry) -> Vec<Pair> {
    let mut pairs = side_by_side(Say::english(), stored, read);
    pairs.retain(Pair::differs);
    pairs
}

impl Planned {
    /// Says whether there is anything to choose.
    pub(super) fn is_open(&self) -> bool {
        !matches!(self.standing, Standing::Same | Standing::Impossible(_))
    }

    /// Says whether its bench is there or can be added.
    pub(super) fn may_be_taken(&self) -> bool {
        !matches!(self.standing, Standing::Impossible(_))
    }

    /// Says whether a bench would be added.
    pub(super) fn is_new(&self) -> bool {
        matches!(self.standing, Standing::New)
    }

    /// Returns the version that is stored, 0 for nothing. Returns `None` when
    /// there is no such bench.
    pub(super) fn base(&self) -> Option<i64> {
        match self.standing {
            Standing::First => Some(0),
            Standing::Change { version, .. } => Some(version),
            Standing::New | Standing::Impossible(_) | Standing::Same => None,
        }
    }
}
