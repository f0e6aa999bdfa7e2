//! So many of so many, and how sure that makes us.

use serde::{Deserialize, Serialize};

use crate::interval::Interval;
use crate::stats::interval::{newcombe95, wilson95};

use super::Estimated;

/// Below so many, a share says little: half of ten is anything from a quarter
/// to three quarters. Our choice.
pub const FEW: usize = 10;

/// So many groups of so many.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(from = "[usize; 2]", into = "[usize; 2]")]
pub struct Share {
    /// Those that did it.
    pub made: usize,
    /// Those that could have.
    pub of: usize,
}

impl From<[usize; 2]> for Share {
    fn from([made, of]: [usize; 2]) -> Self {
        Self { made, of }
    }
}

impl From<Share> for [usize; 2] {
    fn from(share: Share) -> Self {
        [share.made, share.of]
    }
}

impl Share {
    /// Counts one more that could have.
    pub fn add(&mut self, did: bool) {
        self.of += 1;
        self.made += usize::from(did);
    }

    /// Both together.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        Self {
            made: self.made + other.made,
            of: self.of + other.of,
        }
    }

    /// The share itself, 0 to 1; `None` of none.
    #[must_use]
    pub fn value(self) -> Option<f64> {
        (self.of > 0).then(|| self.made as f64 / self.of as f64)
    }

    /// Wilson's 95 % interval; `None` of none.
    #[must_use]
    pub fn interval(self) -> Option<Interval> {
        wilson95(self.made, self.of)
    }

    /// Whether it rests on so few that it says little.
    #[must_use]
    pub fn is_of_few(self) -> bool {
        self.of < FEW
    }
}

/// A share before and after something.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Change {
    /// Before.
    pub before: Share,
    /// After.
    pub after: Share,
}

impl Change {
    /// Both together.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        Self {
            before: self.before.and(other.before),
            after: self.after.and(other.after),
        }
    }

    /// After less before, with Newcombe's 95 % interval for different groups:
    /// above 0 where there are more now. `None` where either is of none.
    #[must_use]
    pub fn difference(self) -> Option<Estimated> {
        let pair = |share: Share| (share.made, share.of);
        let interval = newcombe95(pair(self.before), pair(self.after))?;
        Some(Estimated {
            value: self.after.value()? - self.before.value()?,
            low: interval.low,
            high: interval.high,
        })
    }
}
