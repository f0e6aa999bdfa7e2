//! A flag in words: where, what, the arithmetic, and what people said of it.

use analysis::assess::Assessment;
use analysis::field::Place;
use analysis::slip::{Kind, Slip};
use analysis::working::Flag;

use super::Work;
use crate::db::decision::{Decision, FlagKey, Verdict};

/// A slip or remark as a page shows it.
#[derive(Clone, Debug)]
pub struct FlagLine {
    /// Where: `wavelength, every row`.
    pub place: String,
    /// A few words: `enlargement left out`.
    pub short: &'static str,
    /// One sentence.
    pub sentence: &'static str,
    /// The right turn written out; blank for a remark.
    pub arithmetic: String,
    /// Theirs.
    pub given: String,
    /// What follows; blank for a remark.
    pub expected: String,
    /// The other explanation that fits as well.
    pub rival: Option<&'static str>,
    /// What forms call it.
    pub key: FlagKey,
    /// What was decided on it, if anything.
    pub decision: Option<Decision>,
    /// Whether that was on an earlier version of the sheet.
    pub is_decided_before: bool,
}

/// How forms and decisions name a flag.
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

/// The flags of one kind, in the order of the work.
#[must_use]
pub fn lines(work: &Work, kind: Kind) -> Vec<FlagLine> {
    let flags = work
        .assessment
        .flags
        .iter()
        .filter(|flag| flag.slip.kind() == kind);
    flags.map(|flag| line(work, flag)).collect()
}

/// The slips that nobody dismissed.
#[must_use]
pub fn upheld_slips(work: &Work) -> Vec<FlagLine> {
    let dismissed = |line: &FlagLine| {
        line.decision
            .as_ref()
            .is_some_and(|d| d.verdict == Verdict::Dismissed)
    };
    lines(work, Kind::Slip)
        .into_iter()
        .filter(|line| !dismissed(line))
        .collect()
}

fn line(work: &Work, flag: &Flag) -> FlagLine {
    let key = key(&work.assessment, flag);
    let decision = work.decisions.iter().find(|d| d.flag == key).cloned();
    FlagLine {
        is_decided_before: decision
            .as_ref()
            .is_some_and(|d| d.revision_id != work.revision.id),
        place: place(flag, &key),
        short: flag.slip.short(),
        sentence: flag.slip.sentence(),
        arithmetic: flag.arithmetic.clone(),
        given: flag.given.clone(),
        expected: flag.expected.clone(),
        rival: flag.rival.map(Slip::sentence),
        decision,
        key,
    }
}

fn place(flag: &Flag, key: &FlagKey) -> String {
    let label = flag.step.label();
    match (flag.step.place(), flag.row) {
        (_, Some(_)) => format!("{label}, row {}", key.row_label),
        (Place::Row, None) => format!("{label}, every row"),
        (Place::Sheet, None) => label.to_owned(),
    }
}
