//! What the readings suggest, as the class summary tells it: benches worth a
//! visit, slips to reteach, kits that may be at fault.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use analysis::reading::Cause;

use crate::report::class_set::{ClassReport, GroupReport};
use crate::report::finding::{FindingLine, lines};
use crate::report::number::probability;
use crate::report::{capitalised, kit};

/// A cause, with the other where it can only be said that it is one of two.
type Causes = (Cause, Option<Cause>);

/// A bench worth a visit.
pub(super) struct Visit {
    pub(super) label: String,
    pub(super) kit: String,
    /// Most probable first.
    pub(super) findings: Vec<FindingLine>,
}

/// A slip at the bench and the groups that probably made it.
pub(super) struct SuggestedSlip {
    pub(super) sentence: String,
    pub(super) labels: Vec<String>,
}

/// A kit that may be at fault.
pub(super) struct KitFault {
    /// Blank where the group named none.
    pub(super) kit: String,
    /// The groups that worked with it.
    pub(super) labels: Vec<String>,
    pub(super) what: String,
    pub(super) probability: String,
    pub(super) invitation: String,
    pub(super) is_for_bench: bool,
    pub(super) is_confirmed: bool,
    share: f64,
}

/// What the readings of a group suggest of the group itself, from the
/// threshold of the summary on; dismissed ones included.
pub(super) fn of_group(report: &ClassReport, group: &GroupReport) -> Vec<FindingLine> {
    let mut lines = group.work.as_ref().map(lines).unwrap_or_default();
    lines.retain(|line| !line.is_apparatus() && report.class_set.is_for_summary(line.share));
    lines
}

/// The benches worth a visit, the one with the most probable slip first.
pub(super) fn visits(report: &ClassReport) -> Vec<Visit> {
    let visits = report.groups.iter().map(|group| {
        let mut findings = of_group(report, group);
        findings.retain(|line| !line.is_dismissed() && report.class_set.is_for_bench(line.share));
        Visit {
            label: group.bench.label.clone(),
            kit: kit(&group.bench, group.work.as_ref()).to_owned(),
            findings,
        }
    });
    let mut visits: Vec<_> = visits.filter(|visit| !visit.findings.is_empty()).collect();
    visits.sort_by(|one, other| other.most_probable().total_cmp(&one.most_probable()));
    visits
}

impl Visit {
    fn most_probable(&self) -> f64 {
        self.findings.first().map_or(0.0, |line| line.share)
    }
}

/// Slips at the bench by the number of groups that have handed in and
/// probably made them, commonest first.
pub(super) fn slips(report: &ClassReport) -> Vec<SuggestedSlip> {
    let mut makers: BTreeMap<Causes, Vec<String>> = BTreeMap::new();
    for group in report.groups.iter().filter(|g| g.standing.is_some()) {
        for line in of_group(report, group) {
            let labels = makers.entry(line.causes()).or_default();
            if !line.is_dismissed() && labels.last() != Some(&group.bench.label) {
                labels.push(group.bench.label.clone());
            }
        }
    }
    makers.retain(|_, labels| !labels.is_empty());
    let mut slips: Vec<_> = makers
        .into_iter()
        .map(|(causes, labels)| SuggestedSlip {
            sentence: either(causes),
            labels,
        })
        .collect();
    slips.sort_by_key(|slip| Reverse(slip.labels.len()));
    slips
}

/// A cause, or both of two, as a sentence of its own.
fn either((cause, twin): Causes) -> String {
    match twin {
        None => capitalised(cause.short()),
        Some(twin) => format!("One of these two: {}; or {}", cause.short(), twin.short()),
    }
}

/// Kits that may be at fault, the most probable first: each fault once for
/// all groups of its kit, unless it was dismissed on the sheet of one.
pub(super) fn kit_faults(report: &ClassReport) -> Vec<KitFault> {
    let mut faults: BTreeMap<(&str, &str, Causes), Vec<FindingLine>> = BTreeMap::new();
    for group in &report.groups {
        let Some(work) = &group.work else { continue };
        let kit = kit(&group.bench, Some(work));
        // Groups that named no kit may not have shared one.
        let alone = if kit.is_empty() {
            &group.bench.label
        } else {
            ""
        };
        for line in lines(work).into_iter().filter(FindingLine::is_apparatus) {
            faults
                .entry((kit, alone, line.causes()))
                .or_default()
                .push(line);
        }
    }
    let mut faults: Vec<_> = faults
        .into_iter()
        .filter(|(_, lines)| !lines.iter().any(FindingLine::is_dismissed))
        .filter_map(|((kit, alone, _), lines)| kit_fault(report, kit, alone, lines))
        .filter(|fault| report.class_set.is_for_summary(fault.share))
        .collect();
    faults.sort_by(|one, other| other.share.total_cmp(&one.share));
    faults
}

impl KitFault {
    /// What to look at: the kit, or that of a group that named none.
    pub(super) fn apparatus(&self) -> String {
        if self.kit.is_empty() {
            format!("the apparatus of group {}", self.labels.join(", "))
        } else {
            self.kit.clone()
        }
    }
}

/// The fault as the most certain of its groups' sheets tells it.
fn kit_fault(
    report: &ClassReport,
    kit: &str,
    alone: &str,
    lines: Vec<FindingLine>,
) -> Option<KitFault> {
    let surest = lines
        .into_iter()
        .max_by(|one, other| one.share.total_cmp(&other.share))?;
    let users = report.groups.iter().filter(|group| {
        let theirs = self::kit(&group.bench, group.work.as_ref());
        group.work.is_some() && theirs == kit && (alone.is_empty() || group.bench.label == alone)
    });
    Some(KitFault {
        kit: kit.to_owned(),
        labels: users.map(|group| group.bench.label.clone()).collect(),
        what: surest.headline(),
        probability: probability(surest.share),
        is_for_bench: report.class_set.is_for_bench(surest.share),
        is_confirmed: surest.decision.is_some(),
        share: surest.share,
        invitation: surest.invitation(report.class_set.is_open()).to_owned(),
    })
}
