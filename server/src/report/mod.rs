//! From rows to judgement to what a page shows. Only here and in
//! [`files`](crate::files) are sheets judged.
//!
//! Judgements are made when somebody looks, and are not stored: a full sheet
//! takes under a tenth of a millisecond, and a stored judgement would need
//! rules for when it has gone stale.

pub mod class_set;
pub mod flag;
pub mod number;
pub mod sheet;

use analysis::assess::{Assessment, assess};
use analysis::sheet::Sheet;

use crate::db::decision::Decision;
use crate::db::revision::Revision;

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
}

impl Work {
    /// Judges a revision. `None` where its boxes cannot be read, which the
    /// door keeps from happening for anything stored through a page.
    #[must_use]
    pub fn of(revision: Revision, decisions: Vec<Decision>) -> Option<Self> {
        let sheet = Sheet::check(&revision.entry.sheet).ok()?;
        let assessment = assess(&sheet);
        Some(Self {
            revision,
            sheet,
            assessment,
            decisions,
        })
    }

    /// What the sheet says with the slips that people dismissed taken out.
    #[must_use]
    pub fn upheld(&self) -> Assessment {
        let mut upheld = self.assessment.clone();
        upheld.flags.retain(|flag| {
            let key = flag::key(&self.assessment, flag);
            !self
                .decisions
                .iter()
                .any(|d| d.flag == key && d.is_dismissal())
        });
        upheld
    }
}
