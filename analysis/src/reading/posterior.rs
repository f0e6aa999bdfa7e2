//! From evidence to findings: posterior probabilities of slips and of faults,
//! rivals, ties.

use std::collections::BTreeMap;

use crate::cause::Cause;
use crate::figure::significant;
use crate::method::model::part::Part;
use crate::method::model::state::{Fault, States};

use super::case::Case;
use super::curve::Curves;
use super::table::{NONE, SCATTERS, Table, UNEXPLAINED};
use super::tree::Weights;
use super::{Finding, Inference, LEAST_PROBABLE, Misfit, Rival};
use super::{given, mend};

/// A twin this probable, as a share of the other, makes a tie.
const TIE: f64 = 0.2;

/// A rival less probable than this is none.
const LEAST_RIVAL: f64 = 0.01;

/// A cause and its row.
pub(super) type What = (Cause, Option<usize>);

/// The posterior of one sheet.
pub(super) struct Posterior<'c> {
    pub(super) case: &'c Case<'c>,
    pub(super) states: &'c States,
    pub(super) curves: &'c Curves,
    table: &'c Table,
    weights: &'c Weights,
}

/// Where a part is most probable.
#[derive(Clone, Copy, Debug)]
pub(super) struct Peak {
    pub(super) cell: usize,
    pub(super) scatter: usize,
    pub(super) column: usize,
}

impl<'c> Posterior<'c> {
    pub(super) fn new(
        case: &'c Case<'c>,
        states: &'c States,
        curves: &'c Curves,
        table: &'c Table,
        weights: &'c Weights,
    ) -> Self {
        Self {
            case,
            states,
            curves,
            table,
            weights,
        }
    }

    /// Where the joint posterior of a column is largest.
    pub(super) fn peak(&self, is_meant: impl Fn(usize, usize) -> bool) -> Peak {
        let mut best = (
            0.0,
            Peak {
                cell: 0,
                scatter: 0,
                column: NONE,
            },
        );
        for cell in 0..self.states.cells.len() {
            for scatter in 0..SCATTERS {
                let weight = self.weights[cell][scatter];
                for (column, e) in self.table.at(cell, scatter).iter().enumerate() {
                    if e * weight > best.0 && is_meant(cell, column) {
                        best = (
                            e * weight,
                            Peak {
                                cell,
                                scatter,
                                column,
                            },
                        );
                    }
                }
            }
        }
        best.1
    }

    /// The joint posterior of faults and columns: rows are kinds of cell.
    fn joint(&self) -> Joint {
        let mut kinds: Vec<&'static [Fault]> = Vec::new();
        let mut sums: Vec<Vec<f64>> = Vec::new();
        for (at, cell) in self.states.cells.iter().enumerate() {
            let kind = kinds.iter().position(|kind| *kind == cell.faults);
            let kind = kind.unwrap_or_else(|| {
                kinds.push(cell.faults);
                sums.push(vec![0.0; self.table.columns]);
                kinds.len() - 1
            });
            for scatter in 0..SCATTERS {
                let weight = self.weights[at][scatter];
                for (sum, e) in sums[kind].iter_mut().zip(self.table.at(at, scatter)) {
                    *sum += e * weight;
                }
            }
        }
        let all: f64 = sums.iter().flatten().sum();
        sums.iter_mut().flatten().for_each(|sum| *sum /= all);
        Joint { kinds, sums }
    }
}

/// Probability by kind of cell (its faults) and column.
struct Joint {
    kinds: Vec<&'static [Fault]>,
    sums: Vec<Vec<f64>>,
}

impl Joint {
    /// What each kind and column says, with its probability.
    fn each(&self) -> impl Iterator<Item = (&'static [Fault], usize, f64)> {
        self.kinds
            .iter()
            .zip(&self.sums)
            .flat_map(|(kind, columns)| {
                let columns = columns.iter().enumerate();
                columns.map(move |(column, p)| (*kind, column, *p))
            })
    }

    /// The probability of one or the other, or both.
    fn either(&self, case: &Case<'_>, one: What, other: What) -> f64 {
        let shares = |(faults, column, p): (&'static [Fault], usize, f64)| {
            let said = said(case, faults, column).filter(|(what, _)| [one, other].contains(what));
            p * said.map(|(_, share)| share).sum::<f64>().min(1.0)
        };
        self.each().map(shares).sum::<f64>().min(1.0)
    }
}

/// Everything that a kind of cell and a column say happened; faults that are
/// alike share their probability.
fn said<'h>(
    case: &'h Case<'_>,
    faults: &'static [Fault],
    column: usize,
) -> impl Iterator<Item = (What, f64)> + use<'h> {
    let of_kit = faults
        .iter()
        .map(|fault| ((fault.cause, None), fault.share));
    let parts = case.hypotheses.parts(column);
    let of_group = parts.into_iter().map(|part| ((part.cause, part.row), 1.0));
    let unexplained = (column == UNEXPLAINED).then_some(((Cause::Unexplained, None), 1.0));
    of_kit.chain(of_group).chain(unexplained)
}

/// What a sheet's posterior tells.
pub(super) fn inference(posterior: &Posterior<'_>) -> Inference {
    let joint = posterior.joint();
    let mut by_what: BTreeMap<What, f64> = BTreeMap::new();
    let mut no_slip = 0.0;
    for (faults, column, p) in joint.each() {
        if column == NONE {
            no_slip += p;
        }
        for (what, share) in said(posterior.case, faults, column) {
            *by_what.entry(what).or_default() += p * share;
        }
    }
    // Sums of parts that add up to 1 may be rounded to a little more.
    let ranked = by_what.into_iter().map(|(what, p)| (what, p.min(1.0)));
    let mut ranked: Vec<_> = ranked.collect();
    ranked.sort_by(|(_, one), (_, other)| other.total_cmp(one));
    let mut told: Vec<What> = Vec::new();
    let mut findings = Vec::new();
    for (what, probability) in &ranked {
        if told.contains(what) {
            continue;
        }
        let alike = posterior.case.model().look_alike();
        let twin = twin(alike, *what, *probability, &ranked, &told);
        let together = twin.map_or(*probability, |(twin, _)| {
            joint.either(posterior.case, *what, twin)
        });
        if together < LEAST_PROBABLE {
            continue;
        }
        told.push(*what);
        told.extend(twin.map(|(twin, _)| twin));
        let rival = twin.or_else(|| next_best(posterior.case, &joint, *what));
        findings.push(finding(posterior, *what, together, rival, twin.is_some()));
    }
    findings.sort_by(|one, other| other.probability.total_cmp(&one.probability));
    Inference {
        no_slip: no_slip.min(1.0),
        findings,
    }
}

/// The look-alike that makes a tie, where there is one.
fn twin(
    look_alike: &[(Cause, Cause)],
    what: What,
    p: f64,
    ranked: &[(What, f64)],
    told: &[What],
) -> Option<(What, f64)> {
    let alike = |other: Cause| {
        look_alike.contains(&(what.0, other)) || look_alike.contains(&(other, what.0))
    };
    ranked
        .iter()
        .copied()
        .filter(|(other, q)| alike(other.0) && !told.contains(other) && *q >= TIE * p)
        .max_by(|(_, one), (_, other)| one.total_cmp(other))
}

/// The most probable of the explanations that do without this one.
fn next_best(case: &Case<'_>, joint: &Joint, what: What) -> Option<(What, f64)> {
    let mut without: BTreeMap<What, f64> = BTreeMap::new();
    for (faults, column, p) in joint.each() {
        let all: Vec<_> = said(case, faults, column).collect();
        if all.iter().any(|(other, _)| *other == what) {
            continue;
        }
        for (other, share) in all {
            *without.entry(other).or_default() += p * share;
        }
    }
    without
        .into_iter()
        .filter(|(_, p)| *p >= LEAST_RIVAL)
        .max_by(|(_, one), (_, other)| one.total_cmp(other))
}

fn finding(
    posterior: &Posterior<'_>,
    what: What,
    probability: f64,
    rival: Option<(What, f64)>,
    is_tie: bool,
) -> Finding {
    let case = posterior.case;
    let has = |cell: usize, column: usize| {
        let faults = posterior.states.cells[cell].faults;
        said(case, faults, column).any(|(said, _)| said == what)
    };
    let peak = posterior.peak(has);
    let parts = case.hypotheses.parts(peak.column);
    let part = parts
        .into_iter()
        .find(|part| (part.cause, part.row) == what);
    let fit = mend::fit(posterior, peak, part);
    let (given, expected) = match (part, what.0) {
        (Some(part), _) => given::readings(case, part),
        // No one reading is meant: how many times too long all of them are.
        (None, Cause::Unexplained) => (significant(1.0 + fit.before, 3), "1".to_owned()),
        (None, _) => Default::default(),
    };
    let mended = part.and_then(|part| mend::mended(posterior, part, &fit));
    let step_of_fault =
        || fault(posterior, peak.cell, what).map_or(case.seen.length, |fault| fault.step);
    Finding {
        cause: what.0,
        row: what.1,
        step: part.map_or_else(step_of_fault, |part: &Part| part.step),
        probability,
        rival: rival.map(|((cause, row), probability)| Rival {
            cause,
            row,
            probability,
        }),
        is_tie,
        counts: part.and_then(|part| given::counts(case, part)),
        misfit: Misfit {
            before: fit.before,
            mended: mended.map(|_| fit.after),
        },
        mended,
        given,
        expected,
    }
}

/// The fault of the apparatus that a cell stands for, if it is the one meant.
fn fault(posterior: &Posterior<'_>, cell: usize, what: What) -> Option<&'static Fault> {
    let mut faults = posterior.states.cells[cell].faults.iter();
    faults.find(|fault| (fault.cause, None) == what)
}
