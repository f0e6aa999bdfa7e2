//! The Bayes-optimal classifier for one sheet by itself: it knows the
//! simulator's own figures and the noise level, and integrates over all that
//! it cannot see on dense grids. Nothing of the engine is used but its names.
//!
//! Two things that the simulator's figures would give away are left unused,
//! since they are its quirks and not the bench's: its bounds on the number of
//! waves in a span and on frequencies.

mod cord;
mod density;
mod tank;

use std::collections::BTreeMap;

use analysis::method::Method;
use analysis::reading::Cause;
use analysis::sheet::Sheet;

use super::score::Told;
use super::simulator::Event;
use super::simulator::school::{Rates, School};
use super::simulator::slip::{ROWS_FOR_TWO_SLIPS, swaps};

/// Nothing less probable is told.
const LEAST: f64 = 0.05;

/// Half waves and half rates are told as one of two where the less probable
/// has this share of both.
const TIE: f64 = 0.1;

/// Evidence for each event, and all there is.
#[derive(Default)]
struct Evidence {
    all: f64,
    by_event: BTreeMap<Event, f64>,
}

impl Evidence {
    /// Adds evidence for a hypothesis, in which all these events happened.
    fn add(&mut self, amount: f64, events: &[Event]) {
        self.all += amount;
        self.mark(amount, events);
    }

    /// The same, where it has been counted in all there is.
    fn mark(&mut self, amount: f64, events: &[Event]) {
        for event in events {
            *self.by_event.entry(*event).or_default() += amount;
        }
    }

    fn told(self) -> Vec<Told> {
        let told = |(event, evidence): (&Event, &f64)| Told {
            event: *event,
            probability: evidence / self.all,
            tied_with: None,
        };
        let mut all: Vec<_> = self.by_event.iter().map(told).collect();
        join_halves(&mut all);
        all.retain(|told| told.probability >= LEAST);
        all.sort_by(|one, other| other.probability.total_cmp(&one.probability));
        all
    }
}

/// Half waves counted and a strobe at half the rate look alike.
fn join_halves(all: &mut Vec<Told>) {
    let find = |cause| all.iter().position(|told| told.event == (cause, None));
    let (Some(waves), Some(rate)) = (find(Cause::CrestToTrough), find(Cause::StrobeAtHalf)) else {
        return;
    };
    let (more, less) = if all[waves].probability >= all[rate].probability {
        (waves, rate)
    } else {
        (rate, waves)
    };
    let both = all[more].probability + all[less].probability;
    if all[less].probability >= TIE * both {
        all[more].probability = both;
        all[more].tied_with = Some(all[less].event);
        all.remove(less);
    }
}

/// What the classifier says of a sheet.
pub(crate) fn classify(school: &School, noise: f64, sheet: &Sheet) -> Vec<Told> {
    match sheet.method {
        Method::RippleTank => tank::evidence(school, noise, sheet).told(),
        Method::StringLoops => cord::evidence(school, noise, sheet).told(),
    }
}

/// The share of a cause among slips in every row.
fn whole_share(rates: &Rates, cause: Cause) -> f64 {
    let found = rates.whole.iter().find(|rate| rate.cause == cause);
    found.map_or(0.0, |rate| rate.share)
}

/// The share of a cause among slips in one row.
fn row_share(rates: &Rates, cause: Cause) -> f64 {
    let found = rates.row.iter().find(|rate| rate.cause == cause);
    found.map_or(0.0, |rate| rate.share)
}

fn all_row_slips(rates: &Rates) -> f64 {
    rates.row.iter().map(|rate| rate.share).sum()
}

/// The share of sheets without a slip.
fn no_slip(rates: &Rates) -> f64 {
    let whole: f64 = rates.whole.iter().map(|rate| rate.share).sum();
    1.0 - whole - all_row_slips(rates) - rates.two_rows
}

/// What may have been read where `text` was written with two digits swapped,
/// each with the probability that just this swap was made.
fn unswapped(text: &str) -> Vec<(f64, f64)> {
    swaps(text)
        .into_iter()
        .map(|original| {
            let ways = swaps(&original).len();
            let ways = u32::try_from(ways).expect("a few digits");
            let value = original.parse().expect("digits");
            (value, 1.0 / f64::from(ways.max(1)))
        })
        .collect()
}

/// A slip that may have been made in a row: its prior given that one row has
/// a slip and that it is this one, and the row's likelihood under it.
struct Alternative {
    cause: Cause,
    weight: f64,
    likelihood: f64,
}

/// How common it is that one row slips, a given one, and that two given rows
/// do. On fewer than four rows nobody is made to slip twice.
fn row_priors(rates: &Rates, rows: usize) -> (f64, f64) {
    let count = f64::from(u32::try_from(rows).expect("a few rows"));
    if rows < ROWS_FOR_TWO_SLIPS {
        return ((all_row_slips(rates) + rates.two_rows) / count, 0.0);
    }
    let pairs = count * (count - 1.0) / 2.0;
    (all_row_slips(rates) / count, rates.two_rows / pairs)
}

/// The rows of a sheet without slips in every one.
struct Rows<'r> {
    rates: &'r Rates,
    /// The likelihood of each without a slip.
    fine: &'r [f64],
    /// The slips that each may have.
    alternatives: &'r [Vec<Alternative>],
    faults: &'r [Event],
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
    fn add(&self, evidence: &mut Evidence, weight: f64) {
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
    fn add_beside(&self, evidence: &mut Evidence, weight: f64, event: Event) {
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
