//! A flag in words: where, what, the arithmetic, and what people said of it.

use analysis::assess::Assessment;
use analysis::field::Place;
use analysis::slip::{Kind, Slip};
use analysis::unit::Unit;
use analysis::working::Flag;

use super::Work;
use crate::db::decision::{Decision, FlagKey};
use crate::words::Say;
use crate::words::finding::ON_EARLIER;
use crate::words::sheet::with_unit;

/// A slip or remark as a page shows it.
#[derive(Clone, Debug)]
pub struct FlagLine {
    pub slip: Slip,
    /// Where: `wavelength, every row`.
    pub place: String,
    /// A few words: `enlargement left out`.
    pub short: &'static str,
    pub sentence: &'static str,
    /// The right turn written out; blank for a remark.
    pub arithmetic: String,
    /// Theirs, with its unit.
    pub given: String,
    /// The row whose arithmetic it is; blank where the flag names its row, or
    /// is about the whole sheet.
    pub example_row: String,
    /// The other explanation that fits as well.
    pub rival: Option<&'static str>,
    /// What forms call it.
    pub key: FlagKey,
    /// What was decided on it, if anything.
    pub decision: Option<Decision>,
    /// Where that was, if not on this version of the sheet: ` on an earlier
    /// version of the sheet`.
    pub decided_where: &'static str,
}

/// Returns the key by which forms and decisions name a flag.
#[must_use]
pub fn key(assessment: &Assessment, flag: &Flag) -> FlagKey {
    let label = flag
        .row
        .and_then(|row| assessment.rows.get(row))
        .map(|row| row.label.clone());
    FlagKey {
        step: flag.step.name().to_owned(),
        slip: flag.slip.code().to_owned(),
        row_label: label.unwrap_or_default(),
    }
}

/// Returns the flags of one kind, in the order of the work, in a language.
#[must_use]
pub fn lines(say: Say, work: &Work, kind: Kind) -> Vec<FlagLine> {
    let flags = work
        .assessment
        .flags
        .iter()
        .filter(|flag| flag.slip.kind() == kind);
    flags.map(|flag| line(say, work, flag)).collect()
}

impl FlagLine {
    /// Says whether somebody dismissed it.
    #[must_use]
    pub fn is_dismissed(&self) -> bool {
        self.decision.as_ref().is_some_and(Decision::is_dismissal)
    }

    /// Says in a line where it is and what: `wavelength, every row:
    /// enlargement left out`; what alone where it says where by itself.
    #[must_use]
    pub fn headline(&self) -> String {
        if self.short.starts_with(&self.place) {
            self.short.to_owned()
        } else {
            format!("{}: {}", self.place, self.short)
        }
    }
}

fn line(say: Say, work: &Work, flag: &Flag) -> FlagLine {
    let key = key(&work.assessment, flag);
    let decision = work.decisions.iter().find(|d| d.flag == key).cloned();
    FlagLine {
        decided_where: match &decision {
            Some(d) if d.revision_id != work.revision.id => ON_EARLIER,
            _ => "",
        },
        slip: flag.slip,
        place: place(say, flag, &key),
        short: say.slip(flag.slip),
        sentence: say.slip_sentence(flag.slip),
        arithmetic: say.sum(&flag.arithmetic),
        given: given(work, flag),
        example_row: example_row(work, flag),
        rival: flag.rival.map(|rival| say.slip_sentence(rival)),
        decision,
        key,
    }
}

fn place(say: Say, flag: &Flag, key: &FlagKey) -> String {
    let label = say.field(flag.step);
    match (flag.step.place(), flag.row) {
        (_, Some(_)) => say.place_row(label, &key.row_label),
        (Place::Row, None) => say.place_every_row(label),
        (Place::Sheet, None) => label.to_owned(),
    }
}

/// Returns the row that a flag for every row takes its figures from: the first
/// that gave the figure.
fn first_row(work: &Work, flag: &Flag) -> Option<usize> {
    let gave = |row: &analysis::sheet::Row| row.entries.get(flag.step).is_some();
    flag.row.or_else(|| work.sheet.rows.iter().position(gave))
}

fn given(work: &Work, flag: &Flag) -> String {
    let entries = match flag.step.place() {
        Place::Sheet => Some(&work.sheet.whole),
        Place::Row => first_row(work, flag).map(|row| &work.sheet.rows[row].entries),
    };
    let entry = entries.and_then(|entries| entries.get(flag.step));
    let unit = entry.and_then(|entry| entry.unit);
    with_unit(&flag.given, unit.map_or("", Unit::symbol))
}

fn example_row(work: &Work, flag: &Flag) -> String {
    if flag.row.is_some() || flag.step.place() == Place::Sheet {
        return String::new();
    }
    first_row(work, flag).map_or_else(String::new, |row| work.assessment.rows[row].label.clone())
}
