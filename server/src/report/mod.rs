//! From rows to judgement to what a page shows. Only here and in
//! [`files`](crate::files) are sheets judged.
//!
//! Working is judged when somebody looks, and that is not stored: a full sheet
//! takes under a tenth of a millisecond, and a stored judgement would need
//! rules for when it has gone stale. What the readings suggest leans on the
//! whole class and costs more: see [`inference`].

#![expect(
    clippy::missing_errors_doc,
    reason = "what loads fails when a query does; only what fails otherwise is said"
)]

pub mod class_set;
pub mod desk;
pub mod feedback;
pub mod finding;
pub mod flag;
pub mod heard;
pub mod inference;
pub mod judge;
pub mod kits;
pub mod look_again;
pub mod moderation;
pub mod question;
pub mod room;
pub mod shared;
pub mod sheet;
pub mod year;

use analysis::assess::{Assessment, assess};
use analysis::field::Field;
use analysis::reading::Inference;
use analysis::sheet::Sheet;
use analysis::slip::Slip;
use analysis::working::Flag;

use crate::db::annotation::Annotation;
use crate::db::bench::Bench;
use crate::db::decision::Decision;
use crate::db::revision::Revision;
use crate::words::time::When;
use crate::words::{self, Say};

use self::heard::Heard;

/// A stored revision with what it says.
#[derive(Debug)]
pub struct Work {
    /// The newest revision.
    pub revision: Revision,
    /// Its boxes, read.
    pub sheet: Sheet,
    /// What they say, dismissed slips included.
    pub assessment: Assessment,
    /// What people decided on its slips; of each slip the newest.
    pub decisions: Vec<Decision>,
    /// What people said that bears on its readings, oldest first: the same,
    /// and what was said of its kit on the sheets of others.
    pub heard: Vec<Heard>,
    /// What its readings suggest; `None` for an earlier version, since only
    /// the newest sheets of a class are looked at together.
    pub inference: Option<Inference>,
}

impl Work {
    /// Judges a revision. Returns `None` when its boxes cannot be read, which
    /// the door keeps from happening for anything stored through a page.
    #[must_use]
    pub fn of(revision: Revision, decisions: Vec<Decision>) -> Option<Self> {
        let sheet = Sheet::check(&revision.entry.sheet).ok()?;
        let assessment = assess(&sheet);
        Some(Self {
            revision,
            sheet,
            assessment,
            heard: decisions.iter().cloned().map(Heard::own).collect(),
            decisions,
            inference: None,
        })
    }

    /// Returns what the sheet says with the slips that people dismissed taken
    /// out.
    #[must_use]
    pub fn upheld(&self) -> Assessment {
        let mut upheld = self.assessment.clone();
        upheld.flags.retain(|flag| !self.is_dismissed(flag));
        upheld
    }

    /// Returns the figures that the sheet holds, in the order of the work: the
    /// name of the box and what it is called.
    #[must_use]
    pub fn figures(&self) -> Vec<(&'static str, &'static str)> {
        let is_used = |field: &Field| {
            let mut rows = self.sheet.rows.iter();
            self.sheet.whole.get(*field).is_some()
                || rows.any(|row| row.entries.get(*field).is_some())
        };
        let fields = self.sheet.method.fields().filter(is_used);
        let label = |field: Field| Say::english().field(field);
        fields.map(|field| (field.name(), label(field))).collect()
    }

    /// Says whether the group gave any figure that it worked out.
    #[must_use]
    pub fn has_working(&self) -> bool {
        let mut comparisons = self.assessment.comparisons.iter();
        comparisons.any(|comparison| comparison.given.is_some())
    }

    /// Says whether the sheet shows a slip that nobody dismissed.
    #[must_use]
    pub fn upholds(&self, slip: Slip) -> bool {
        let mut flags = self.assessment.flags.iter();
        flags.any(|flag| flag.slip == slip && !self.is_dismissed(flag))
    }

    fn is_dismissed(&self, flag: &Flag) -> bool {
        let key = flag::key(&self.assessment, flag);
        let mut decisions = self.decisions.iter();
        decisions.any(|d| d.flag == key && d.is_dismissal())
    }
}

/// Says what a note is about: `row 2, wavelength`. Returns `None` for the whole
/// sheet.
#[must_use]
pub fn about(say: Say, note: &Annotation) -> Option<String> {
    let step = note.step.as_deref().and_then(Field::named);
    let step = step.map(|field| say.field(field));
    Some(match (&note.row_label, step) {
        (Some(row), Some(step)) => say.place_row_label(row, step),
        (Some(row), None) => say.place_a_row(row),
        (None, Some(step)) => step.to_owned(),
        (None, None) => return None,
    })
}

/// Returns the kit of a bench by its own label, or what the group wrote where
/// it is none of the list. Returns no text when neither is known.
#[must_use]
pub fn kit<'a>(bench: &'a Bench, work: Option<&'a Work>) -> &'a str {
    let typed = work.map_or("", |work| work.revision.entry.kit.trim());
    bench.kit.as_deref().unwrap_or(typed)
}

/// Says whose readings the group says that these are. Returns no text when
/// they are its own.
#[must_use]
pub fn shared(work: Option<&Work>) -> &str {
    work.map_or("", |work| work.revision.entry.shared.trim())
}

/// Says how far the sheet of a bench has come: `handed in at 10:42, changed at
/// 10:50`. Returns `None` when nothing is stored.
#[must_use]
pub fn progress(bench: &Bench, when: &When) -> Option<String> {
    words::room::progress(bench.handed_in_at, bench.saved_at, &|at| when.says(at))
}

/// Returns the same for the start of a line; `nothing` says that nothing is
/// stored.
#[must_use]
pub fn state(bench: &Bench, when: &When, nothing: &str) -> String {
    words::version::progress(progress(bench, when), nothing)
}
