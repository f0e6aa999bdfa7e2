//! What the figures come to, so that nobody has to read it off an interval.

use serde::{Deserialize, Serialize};

use super::FEWEST;
use super::agreement::Agreement;
use super::former::Former;
use crate::interval::Interval;

/// One thing that a line of figures says. First and second are whoever gave
/// those marks: that the second gives more is said of a severe first marker
/// and of a mild second one.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Verdict {
    /// Fewer than [`FEWEST`] sheets.
    TooFew {
        /// Half the width of the mean's interval, in marks; `None` of one
        /// sheet.
        reach: Option<f64>,
    },
    /// All totals are the same.
    Same,
    /// The interval of the mean holds 0.
    NoDifferenceShown {
        /// Half its width, in marks: a smaller difference would hardly show.
        reach: f64,
    },
    /// The interval of the mean lies above 0: the second marker gives more.
    SecondHigher {
        /// Its nearer end, in marks.
        at_least: f64,
    },
    /// The interval of the mean lies below 0: the second marker gives less.
    SecondLower {
        /// Its nearer end, in marks, without the sign.
        at_least: f64,
    },
    /// Differences up and down cancel in a mean that shows none, or is of too
    /// few sheets: their mean size is at least twice the mean, and it reaches
    /// the tolerance or more than a third of the sheets lie outside. Our choice
    /// of all three.
    Cancelling {
        /// Sheets outside the tolerance.
        outside: usize,
        /// Sheets with more from the second marker.
        above: usize,
        /// Sheets with less.
        below: usize,
    },
    /// The mean shows no difference, nothing much cancels, and yet more than a
    /// third of the sheets lie outside the tolerance.
    Scattered {
        /// Sheets outside the tolerance.
        outside: usize,
    },
    /// Said in a record of format 1 and never of a sample any more.
    #[serde(untagged)]
    Former(Former),
}

impl Verdict {
    /// What a line of figures says: at least one thing, the level first.
    #[must_use]
    pub fn of(agreement: &Agreement) -> Vec<Self> {
        let level = level(agreement);
        let mut verdicts = vec![level];
        verdicts.extend(hidden(agreement, level));
        verdicts
    }
}

fn level(agreement: &Agreement) -> Verdict {
    let reach = |interval: Interval| interval.width() / 2.0;
    match agreement.mean.interval95 {
        _ if agreement.n < FEWEST => Verdict::TooFew {
            reach: agreement.mean.interval95.map(reach),
        },
        _ if agreement.exact.count == agreement.n => Verdict::Same,
        Some(interval) if interval.low > 0.0 => Verdict::SecondHigher {
            at_least: interval.low,
        },
        Some(interval) if interval.high < 0.0 => Verdict::SecondLower {
            at_least: -interval.high,
        },
        Some(interval) => Verdict::NoDifferenceShown {
            reach: reach(interval),
        },
        None => Verdict::TooFew { reach: None },
    }
}

/// What a mean that shows no difference does not tell.
fn hidden(agreement: &Agreement, level: Verdict) -> Option<Verdict> {
    let is_few = matches!(level, Verdict::TooFew { .. });
    if !is_few && !matches!(level, Verdict::NoDifferenceShown { .. }) {
        return None;
    }
    let (size, outside) = (agreement.mean_absolute, agreement.outside());
    let is_apart = 3 * outside > agreement.n;
    let cancels = size > 0.0 && size >= 2.0 * agreement.mean.value.abs();
    if cancels && (is_apart || size >= agreement.tolerance as f64) {
        return Some(Verdict::Cancelling {
            outside,
            above: agreement.above,
            below: agreement.below,
        });
    }
    (is_apart && !is_few).then_some(Verdict::Scattered { outside })
}
