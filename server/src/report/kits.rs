//! Kits that may be at fault, as the readings of their groups suggest.

use std::collections::BTreeMap;

use analysis::reading::Cause;
use analysis::text::folded;

use super::class_set::{ClassReport, GroupReport};
use super::finding::{FindingLine, lines};
use super::kit;
use crate::words::number::probability;
use crate::words::room::apparatus;

/// A cause, with the other where it can only be said that it is one of two.
pub type Causes = (Cause, Option<Cause>);

/// A kit that may be at fault.
#[derive(Clone, Debug)]
pub struct KitFault {
    /// As the first of its groups wrote it; blank where they named none.
    pub kit: String,
    /// The groups that worked with it.
    pub labels: Vec<String>,
    /// What it is in a line: both where it is one of two.
    pub what: String,
    /// The same for whoever looks up what to do about it.
    pub causes: Causes,
    /// How probable, from 0 to 1.
    pub share: f64,
    /// The same for a page.
    pub probability: String,
    /// An invitation to look at the kit.
    pub invitation: String,
    /// Whether it is worth a visit while the apparatus is up.
    pub is_for_bench: bool,
    /// Whether somebody confirmed it.
    pub is_confirmed: bool,
}

impl KitFault {
    /// Says what to look at: the kit, or that of a group that named none.
    #[must_use]
    pub fn apparatus(&self) -> String {
        if self.kit.is_empty() {
            apparatus(&self.labels)
        } else {
            self.kit.clone()
        }
    }
}

/// Kits that may be at fault, from the threshold of the summary on, the most
/// probable first: each fault once for all groups of its kit, unless it was
/// dismissed on the sheet of one.
#[must_use]
pub fn faults(report: &ClassReport) -> Vec<KitFault> {
    let mut faults: BTreeMap<(String, &str, Causes), Vec<FindingLine>> = BTreeMap::new();
    for group in &report.groups {
        let Some(work) = &group.work else { continue };
        let kit = folded(kit(&group.bench, Some(work)));
        // Groups that named no kit may not have shared one.
        let alone = if kit.is_empty() {
            &group.bench.label
        } else {
            ""
        };
        for line in lines(work).into_iter().filter(FindingLine::is_apparatus) {
            faults
                .entry((kit.clone(), alone, line.causes()))
                .or_default()
                .push(line);
        }
    }
    let mut faults: Vec<_> = faults
        .into_iter()
        .filter(|(_, lines)| !lines.iter().any(FindingLine::is_dismissed))
        .filter_map(|((kit, alone, _), lines)| fault(report, &kit, alone, lines))
        .filter(|fault| report.class_set.is_for_summary(fault.share))
        .collect();
    faults.sort_by(|one, other| other.share.total_cmp(&one.share));
    faults
}

/// Returns the fault as the most certain of its groups' sheets tells it.
fn fault(
    report: &ClassReport,
    kit: &str,
    alone: &str,
    lines: Vec<FindingLine>,
) -> Option<KitFault> {
    let surest = lines
        .into_iter()
        .max_by(|one, other| one.share.total_cmp(&other.share))?;
    let written = |group: &GroupReport| self::kit(&group.bench, group.work.as_ref()).to_owned();
    let users = report.groups.iter().filter(|group| {
        let is_theirs = group.work.is_some() && folded(&written(group)) == kit;
        is_theirs && (alone.is_empty() || group.bench.label == alone)
    });
    let users: Vec<&GroupReport> = users.collect();
    Some(KitFault {
        kit: users
            .first()
            .map_or_else(String::new, |group| written(group)),
        labels: users
            .iter()
            .map(|group| group.bench.label.clone())
            .collect(),
        what: surest.headline(),
        causes: surest.causes(),
        probability: probability(surest.share),
        is_for_bench: report.class_set.is_for_bench(surest.share),
        is_confirmed: surest.decision.is_some(),
        share: surest.share,
        invitation: surest.invitation(report.class_set.is_open()).to_owned(),
    })
}
