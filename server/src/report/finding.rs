//! A finding in words: what may have happened at the bench, how sure that is,
//! and what people said of it.

use analysis::field::Place;
use analysis::reading::{Cause, Finding, Rival};
use analysis::slip::Kind;

use super::Work;
use super::number::{decimals, fixed, probability};
use crate::db::decision::{Decision, FlagKey};

/// A finding as a page shows it.
#[derive(Clone, Debug)]
pub struct FindingLine {
    /// Which.
    pub cause: Cause,
    /// Where and what: `row 3: two digits swapped`.
    pub what: String,
    /// How probable, from 0 to 1; of the two together where it is a tie.
    pub share: f64,
    /// The same for a page: `92 %`.
    pub probability: String,
    /// The next best explanation.
    pub rival: Option<RivalLine>,
    /// Whether it can only be said that it is one of the two.
    pub is_tie: bool,
    /// An invitation to look again.
    pub invitation: String,
    /// Why it is thought so.
    pub why: String,
    /// What mending the reading would do; `None` for the apparatus.
    pub mended: Option<String>,
    /// What forms call it.
    pub key: FlagKey,
    /// What was decided on it, if anything.
    pub decision: Option<Decision>,
    /// Whether that was on an earlier version of the sheet.
    pub is_decided_before: bool,
}

/// Another explanation as a page shows it.
#[derive(Clone, Debug)]
pub struct RivalLine {
    /// Where and what.
    pub what: String,
    /// How probable.
    pub probability: String,
}

/// What the readings suggest, most probable first; nothing for an earlier
/// version.
#[must_use]
pub fn lines(work: &Work) -> Vec<FindingLine> {
    let findings = work.inference.iter().flat_map(|i| &i.findings);
    findings.map(|finding| line(work, finding)).collect()
}

impl FindingLine {
    /// Whether somebody said that it is none.
    #[must_use]
    pub fn is_dismissed(&self) -> bool {
        self.decision.as_ref().is_some_and(Decision::is_dismissal)
    }

    /// Whether it is about the apparatus, not about the group.
    #[must_use]
    pub fn is_apparatus(&self) -> bool {
        self.cause.kind() == Kind::Apparatus
    }

    /// What it is in a line: both where it is one of two.
    #[must_use]
    pub fn headline(&self) -> String {
        match &self.rival {
            Some(rival) if self.is_tie => {
                format!("one of these two: {}, or {}", self.what, rival.what)
            }
            _ => self.what.clone(),
        }
    }
}

fn line(work: &Work, finding: &Finding) -> FindingLine {
    let key = key(work, finding);
    let decision = work.decisions.iter().find(|d| d.flag == key).cloned();
    FindingLine {
        cause: finding.cause,
        what: what(work, finding.cause, finding.row, finding.step.place()),
        share: finding.probability,
        probability: probability(finding.probability),
        rival: finding.rival.as_ref().map(|r| rival(work, r)),
        is_tie: finding.is_tie,
        invitation: finding.invitation.clone(),
        why: finding.why.clone(),
        mended: finding.mended.map(|mended| {
            let speed = fixed(Some(mended.speed), decimals([mended.speed]));
            let then = if mended.in_line {
                "and its rows would agree with the others and with the class"
            } else {
                "but its rows would still not agree with the others and with the class"
            };
            format!("Mended, the sheet would give {speed} m/s, {then}.")
        }),
        is_decided_before: decision
            .as_ref()
            .is_some_and(|d| d.revision_id != work.revision.id),
        decision,
        key,
    }
}

/// How forms and decisions name a finding: as they name a slip. The box is a
/// reading's, so it is none of those that the working shows.
fn key(work: &Work, finding: &Finding) -> FlagKey {
    FlagKey {
        step: finding.step.name().to_owned(),
        slip: finding.cause.code().to_owned(),
        row_label: label(work, finding.row).unwrap_or_default().to_owned(),
    }
}

fn label(work: &Work, row: Option<usize>) -> Option<&str> {
    let row = work.assessment.rows.get(row?)?;
    Some(&row.label)
}

fn rival(work: &Work, rival: &Rival) -> RivalLine {
    RivalLine {
        what: what(work, rival.cause, rival.row, Place::Sheet),
        probability: probability(rival.probability),
    }
}

fn what(work: &Work, cause: Cause, row: Option<usize>, place: Place) -> String {
    let short = cause.short();
    match (label(work, row), place) {
        (Some(label), _) => format!("row {label}: {short}"),
        (None, Place::Row) if cause.kind() == Kind::Slip => format!("every row: {short}"),
        (None, _) => short.to_owned(),
    }
}
