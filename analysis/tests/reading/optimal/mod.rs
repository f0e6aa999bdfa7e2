//! The Bayes-optimal classifier for one sheet by itself: it knows the
//! simulator's own figures and the noise level, and integrates over all that
//! it cannot see on dense grids. Nothing of the engine is used but its names.
//!
//! Two things that the simulator's figures would give away are left unused,
//! since they are its quirks and not the bench's: its bounds on the number of
//! waves in a span and on frequencies.

mod cord;
mod density;
mod rows;
mod single;
mod tank;
mod water;

use std::collections::BTreeMap;

use analysis::method::Method;
use analysis::reading::Cause;
use analysis::sheet::Sheet;
use simulator::school::School;
use simulator::slip::{Rates, swaps};

use super::classes::Event;
use super::score::Told;

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
    let found = rates.whole.iter().find(|rate| rate.slip == cause.code());
    found.map_or(0.0, |rate| rate.share)
}

/// The share of a cause among slips in one row.
fn row_share(rates: &Rates, cause: Cause) -> f64 {
    let found = rates.row.iter().find(|rate| rate.slip == cause.code());
    found.map_or(0.0, |rate| rate.share)
}

/// The share of sheets without a slip.
fn no_slip(rates: &Rates) -> f64 {
    let whole: f64 = rates.whole.iter().map(|rate| rate.share).sum();
    1.0 - whole - rates.single() - rates.two_rows
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
