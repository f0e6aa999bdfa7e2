//! Sheets without a slip in every row: none at all, one row's, or two rows'.

use analysis::reading::Cause;
use simulator::slip::{ROWS_FOR_TWO_SLIPS, Rates};

use super::super::classes::Event;
use super::{Evidence, no_slip};

/// A slip that may have been made in a row: its prior given that one row has
/// a slip and that it is this one, and the row's likelihood under it.
pub(super) struct Alternative {
    pub(super) cause: Cause,
    pub(super) weight: f64,
    pub(super) likelihood: f64,
}

/// How common it is that one row slips, a given one, and that two given rows
/// do. On fewer than four rows nobody is made to slip twice.
fn row_priors(rates: &Rates, rows: usize) -> (f64, f64) {
    let count = f64::from(u32::try_from(rows).expect("a few rows"));
    if rows < ROWS_FOR_TWO_SLIPS {
        return ((rates.single() + rates.two_rows) / count, 0.0);
    }
    let pairs = count * (count - 1.0) / 2.0;
    (rates.single() / count, rates.two_rows / pairs)
}

/// The rows of a sheet without slips in every one.
pub(super) struct Rows<'r> {
    pub(super) rates: &'r Rates,
    /// The likelihood of each without a slip.
    pub(super) fine: &'r [f64],
    /// The slips that each may have.
    pub(super) alternatives: &'r [Vec<Alternative>],
    pub(super) faults: &'r [Event],
}

impl Rows<'_> {
    /// The likelihood of all rows without a slip but those skipped.
    fn without(&self, skipped: &[usize]) -> f64 {
        let kept = (0..self.fine.len()).filter(|at| !skipped.contains(at));
        kept.map(|at| self.fine[at]).product()
    }

    fn slipped(&self, at: usize) -> f64 {
        let each = self.alternatives[at].iter();
        each.map(|a| a.weight * a.likelihood).sum()
    }

    /// Adds the evidence of no slip, of one row's and of two rows'.
    pub(super) fn add(&self, evidence: &mut Evidence, weight: f64) {
        let (single, pair) = row_priors(self.rates, self.fine.len());
        let slipped: Vec<f64> = (0..self.fine.len()).map(|at| self.slipped(at)).collect();
        evidence.add(
            weight * no_slip(self.rates) * self.without(&[]),
            self.faults,
        );
        for (at, alternatives) in self.alternatives.iter().enumerate() {
            let alone = single * self.without(&[at]);
            let (mut beside, mut counted_here) = (0.0, 0.0);
            for other in (0..self.fine.len()).filter(|other| *other != at) {
                let both = pair * slipped[other] * self.without(&[at, other]);
                beside += both;
                if other > at {
                    counted_here += both;
                }
            }
            for alternative in alternatives {
                let chance = weight * alternative.weight * alternative.likelihood;
                let event = (alternative.cause, Some(at));
                evidence.mark(chance * (alone + beside), &[event]);
            }
            let all = weight * slipped[at] * (alone + counted_here);
            evidence.add(all, self.faults);
        }
    }

    /// Adds the evidence of a slip that is not among the alternatives and
    /// leaves its row's likelihood as it is (`weight` has all else), alone or
    /// beside another row's.
    pub(super) fn add_beside(&self, evidence: &mut Evidence, weight: f64, event: Event) {
        let (single, pair) = row_priors(self.rates, self.fine.len());
        let mut events = vec![event];
        events.extend(self.faults);
        evidence.add(weight * single * self.without(&[]), &events);
        for (at, alternatives) in self.alternatives.iter().enumerate() {
            if event.1 == Some(at) {
                continue;
            }
            let rest = weight * pair * self.without(&[at]);
            for alternative in alternatives {
                let chance = rest * alternative.weight * alternative.likelihood;
                evidence.add(chance, &events);
                evidence.mark(chance, &[(alternative.cause, Some(at))]);
            }
        }
    }
}
