//! A finding in words: what may have happened at the bench, how sure that is,
//! and what people said of it.

use analysis::field::Place;
use analysis::reading::{Cause, Finding, Rival};
use analysis::slip::Kind;

use super::Work;
use super::class_set::{ClassReport, GroupReport};
use super::heard::{Heard, Named, is_of};
use crate::db::decision::{Decision, FlagKey};
use crate::words::number::probability;
use crate::words::{cause, finding as words};

/// A finding as a page shows it.
#[derive(Clone, Debug)]
pub struct FindingLine {
    pub cause: Cause,
    /// Where and what: `row 3: two digits swapped`.
    pub what: String,
    /// How probable, from 0 to 1; of the two together where it is a tie.
    pub share: f64,
    /// The same for a page: `92 %`.
    pub probability: String,
    /// The next best explanation.
    pub rival: Option<RivalLine>,
    /// The other of the two, where it can only be said that it is one of them.
    pub twin: Option<Cause>,
    /// The invitation to look again, while the apparatus is up and after.
    invitations: [String; 2],
    /// Why it is thought so.
    pub why: String,
    /// What mending the reading would do; `None` for the apparatus.
    pub mended: Option<String>,
    /// What forms call it.
    pub key: FlagKey,
    /// What was decided on it, if anything.
    pub decision: Option<Decision>,
    /// Where that was, if not on this version of this sheet: ` on an earlier
    /// version of the sheet`.
    pub decided_where: String,
}

/// Another explanation as a page shows it.
#[derive(Clone, Debug)]
pub struct RivalLine {
    pub what: String,
    /// How probable.
    pub probability: String,
}

/// Lists what the readings suggest, most probable first. Returns no line for
/// an earlier version.
#[must_use]
pub fn lines(work: &Work) -> Vec<FindingLine> {
    let findings = work.inference.iter().flat_map(|i| &i.findings);
    findings.map(|finding| line(work, finding)).collect()
}

/// Lists what the readings of a group suggest of the group itself, from the
/// threshold of the summary on; dismissed ones included.
#[must_use]
pub fn of_group(report: &ClassReport, group: &GroupReport) -> Vec<FindingLine> {
    let mut lines = group.work.as_ref().map(lines).unwrap_or_default();
    lines.retain(|line| !line.is_apparatus() && report.class_set.is_for_summary(line.share));
    lines
}

impl FindingLine {
    /// Says whether somebody dismissed it.
    #[must_use]
    pub fn is_dismissed(&self) -> bool {
        self.decision.as_ref().is_some_and(Decision::is_dismissal)
    }

    /// Says whether it is about the apparatus, not about the group. One of two
    /// of which the other is a slip is still the group's to be asked about.
    #[must_use]
    pub fn is_apparatus(&self) -> bool {
        is_apparatus(self.cause) && self.twin.is_none_or(is_apparatus)
    }

    /// Says whether it may be the apparatus and may be the group.
    #[must_use]
    pub fn is_either(&self) -> bool {
        let may_be = is_apparatus(self.cause) || self.twin.is_some_and(is_apparatus);
        may_be && !self.is_apparatus()
    }

    /// Returns the invitation to look again. When the apparatus is packed
    /// away, what it invites to do while it is up is left out.
    #[must_use]
    pub fn invitation(&self, is_up: bool) -> &str {
        &self.invitations[usize::from(!is_up)]
    }

    /// Says whether it is one of two that cannot be told apart.
    #[must_use]
    pub fn is_tie(&self) -> bool {
        self.twin.is_some()
    }

    /// Returns its cause, and the other of the two where it may be either; in
    /// one order, whichever of them is the likelier on this sheet.
    #[must_use]
    pub fn causes(&self) -> (Cause, Option<Cause>) {
        match self.twin {
            Some(twin) if twin < self.cause => (twin, Some(self.cause)),
            twin => (self.cause, twin),
        }
    }

    /// Says in a line what it is. Where it is one of two, it names both.
    #[must_use]
    pub fn headline(&self) -> String {
        match &self.rival {
            Some(rival) if self.is_tie() => words::either(&self.what, &rival.what),
            _ => self.what.clone(),
        }
    }
}

fn is_apparatus(cause: Cause) -> bool {
    cause.kind() == Kind::Apparatus
}

fn line(work: &Work, finding: &Finding) -> FindingLine {
    let key = key(work, finding);
    let heard = work.heard_of(&key, first(work, finding), twin(work, finding));
    let decided_where = heard.map_or_else(String::new, |heard| said_where(work, heard));
    let decision = heard.map(|heard| heard.decision.clone());
    let (method, row) = (work.sheet.method, label(work, finding.row));
    FindingLine {
        cause: finding.cause,
        what: words::what(finding.cause, row, finding.step.place() == Place::Row),
        share: finding.probability,
        probability: probability(finding.probability),
        rival: finding.rival.as_ref().map(|r| rival(work, r)),
        twin: twin(work, finding).map(|(cause, _)| cause),
        invitations: [true, false].map(|is_up| cause::invitation(finding, method, row, is_up)),
        why: cause::why(finding, method, row),
        mended: (finding.mended).map(|then| words::mended(then.speed, then.in_line)),
        decided_where,
        decision,
        key,
    }
}

/// Finds what a form means, and returns its place and its key. The form may
/// have named the other of two that cannot be told apart, when that one was
/// still the likelier.
#[must_use]
pub fn find(work: &Work, named: &FlagKey) -> Option<(usize, FlagKey)> {
    let findings = work.inference.iter().flat_map(|i| &i.findings);
    let findings: Vec<&Finding> = findings.collect();
    let is_named = |finding: &&Finding| key(work, finding) == *named;
    let is_twin = |finding: &&Finding| twin(work, finding).is_some_and(|t| is_of(named, t));
    let at = findings
        .iter()
        .position(is_named)
        .or_else(|| findings.iter().position(is_twin))?;
    Some((at, key(work, findings[at])))
}

fn first<'w>(work: &'w Work, finding: &Finding) -> Named<'w> {
    (finding.cause, label(work, finding.row).unwrap_or_default())
}

/// Returns the other explanation, where the two cannot be told apart.
fn twin<'w>(work: &'w Work, finding: &Finding) -> Option<Named<'w>> {
    let rival = finding.rival.as_ref().filter(|_| finding.is_tie)?;
    Some((rival.cause, label(work, rival.row).unwrap_or_default()))
}

fn said_where(work: &Work, heard: &Heard) -> String {
    match &heard.on_sheet_of {
        Some(label) => words::on_sheet_of(label),
        None if heard.decision.revision_id != work.revision.id => words::ON_EARLIER.to_owned(),
        None => String::new(),
    }
}

/// Returns the key by which forms and decisions name a finding, as they name a
/// slip. The box is a reading's, so it is none of those that the working
/// shows.
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
        what: words::what(rival.cause, label(work, rival.row), false),
        probability: probability(rival.probability),
    }
}
