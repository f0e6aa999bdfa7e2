//! A stretch of the number line, and arithmetic on such stretches.
//!
//! A figure rounded to two places stands for every number that rounds to it.
//! Carrying the whole stretch through a chain of sums says which answers a
//! careful pupil could have reached, whatever was rounded on the way.
//!
//! # Simplifications
//! Ends are not rounded outwards after each operation, as strict interval
//! arithmetic would ask; the slack of [`Interval::overlaps`] stands for that.
//! Each operand is taken to be free of the others, so `x - x` is not zero
//! and a formula that uses a figure twice gives an interval that is too wide,
//! never one that is too narrow.

use std::ops::{Add, Div, Mul, Sub};

use serde::{Deserialize, Serialize};

/// How far apart, as a share of the larger, two ends may be and still count
/// as touching. A chain of a dozen operations errs by about 1e-15 of the
/// figures in it, and a subtraction can magnify that some thousandfold; half
/// a unit in the last place of any figure that a pupil writes is above 1e-7.
/// This sits between the two.
const SLACK: f64 = 1e-9;

/// All numbers from `low` to `high`, both ends included. `low <= high`
/// always, no end is NaN, and either end may be infinite. Stored as its two
/// ends, which JSON can only have finite.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(from = "(f64, f64)", into = "(f64, f64)")]
pub struct Interval {
    /// The lower end.
    pub low: f64,
    /// The upper end; never below `low`.
    pub high: f64,
}

impl Interval {
    /// Every number: what is known when nothing is.
    pub const EVERYTHING: Self = Self {
        low: f64::NEG_INFINITY,
        high: f64::INFINITY,
    };

    /// One number, known exactly. NaN gives [`Interval::EVERYTHING`].
    #[must_use]
    pub fn exact(x: f64) -> Self {
        Self::new(x, x)
    }

    /// The interval between two numbers, given in either order. An end that
    /// is NaN gives [`Interval::EVERYTHING`].
    #[must_use]
    pub fn new(one: f64, other: f64) -> Self {
        if one.is_nan() || other.is_nan() {
            return Self::EVERYTHING;
        }
        Self {
            low: one.min(other),
            high: one.max(other),
        }
    }

    /// Whether a number lies in the interval, to within a share of 1e-9 (see
    /// [`Interval::overlaps`]). False for NaN.
    #[must_use]
    pub fn contains(self, x: f64) -> bool {
        at_most(self.low, x) && at_most(x, self.high)
    }

    /// Whether two intervals share a number. Ends that differ by less than a
    /// share of 1e-9 of the larger count as touching, since floating point
    /// writes 0.245 + 0.005 and 0.25 differently.
    #[must_use]
    pub fn overlaps(self, other: Self) -> bool {
        at_most(self.low, other.high) && at_most(other.low, self.high)
    }

    /// From end to end; zero for one number, infinite for an unbounded
    /// interval.
    #[must_use]
    pub fn width(self) -> f64 {
        if self.low < self.high {
            self.high - self.low
        } else {
            0.0
        }
    }

    /// Halfway between the ends. Zero for [`Interval::EVERYTHING`], and the
    /// infinite end where only one end is infinite.
    #[must_use]
    pub fn mid(self) -> f64 {
        if self.low.is_infinite() && self.high.is_infinite() && self.low < self.high {
            0.0
        } else {
            // Halved before the sum, which could overflow.
            0.5 * self.low + 0.5 * self.high
        }
    }

    /// Every number of the interval times `factor`.
    #[must_use]
    pub fn scale(self, factor: f64) -> Self {
        self * Self::exact(factor)
    }

    /// One over every number of the interval. [`Interval::EVERYTHING`] where
    /// the interval holds zero, at an end or within.
    #[must_use]
    pub fn recip(self) -> Self {
        if self.low <= 0.0 && self.high >= 0.0 {
            Self::EVERYTHING
        } else {
            Self::new(self.low.recip(), self.high.recip())
        }
    }
}

/// `a <= b`, or above it by no more than the slack.
fn at_most(a: f64, b: f64) -> bool {
    let slack = SLACK * a.abs().max(b.abs());
    a <= b || (slack.is_finite() && a - b <= slack)
}

/// A product of two ends. Zero times an end that is infinite is zero: the end
/// stands for numbers beyond all bounds, each of them finite.
fn product(a: f64, b: f64) -> f64 {
    let ab = a * b;
    if ab.is_nan() { 0.0 } else { ab }
}

impl From<(f64, f64)> for Interval {
    fn from((one, other): (f64, f64)) -> Self {
        Self::new(one, other)
    }
}

impl From<Interval> for (f64, f64) {
    fn from(interval: Interval) -> Self {
        (interval.low, interval.high)
    }
}

impl Add for Interval {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self::new(self.low + other.low, self.high + other.high)
    }
}

impl Sub for Interval {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        Self::new(self.low - other.high, self.high - other.low)
    }
}

impl Mul for Interval {
    type Output = Self;

    fn mul(self, other: Self) -> Self {
        let ends = [
            product(self.low, other.low),
            product(self.low, other.high),
            product(self.high, other.low),
            product(self.high, other.high),
        ];
        Self {
            low: ends.into_iter().fold(f64::INFINITY, f64::min),
            high: ends.into_iter().fold(f64::NEG_INFINITY, f64::max),
        }
    }
}

/// Division by an interval that holds zero, at an end or within, gives
/// [`Interval::EVERYTHING`]: no quotient is ruled out that can be told from
/// one that is.
impl Div for Interval {
    type Output = Self;

    fn div(self, other: Self) -> Self {
        if other.low <= 0.0 && other.high >= 0.0 {
            return Self::EVERYTHING;
        }
        // Divided end by end, not multiplied by a reciprocal: one rounding
        // instead of two, so 3 / 3 is exactly 1.
        let ends = [
            self.low / other.low,
            self.low / other.high,
            self.high / other.low,
            self.high / other.high,
        ];
        if ends.into_iter().any(f64::is_nan) {
            return Self::EVERYTHING;
        }
        Self {
            low: ends.into_iter().fold(f64::INFINITY, f64::min),
            high: ends.into_iter().fold(f64::NEG_INFINITY, f64::max),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Interval;

    #[test]
    fn ends_are_put_in_order_and_nan_says_nothing() {
        assert_eq!(Interval::new(3.0, 1.0), Interval::new(1.0, 3.0));
        assert_eq!(Interval::exact(f64::NAN), Interval::EVERYTHING);
        assert_eq!(Interval::new(1.0, f64::NAN), Interval::EVERYTHING);
    }

    #[test]
    fn touching_ends_overlap_in_spite_of_floating_point() {
        // 0.1 + 0.2 is written 0.30000000000000004.
        let sum = Interval::exact(0.1) + Interval::exact(0.2);
        assert!(Interval::exact(0.3).overlaps(sum));
        assert!(Interval::new(0.0, 0.3).contains(0.1 + 0.2));
        assert!(!Interval::new(0.0, 0.3).contains(0.300_000_1));
        assert!(!Interval::new(-1.0, 0.0).contains(1e-12));
    }

    #[test]
    fn infinite_ends_do_not_swallow_everything() {
        let above = Interval::new(5.0, f64::INFINITY);
        assert!(above.contains(1e300) && !above.contains(4.0));
        assert!(!Interval::exact(f64::INFINITY).overlaps(Interval::exact(5.0)));
        assert!(!Interval::EVERYTHING.contains(f64::NAN));
        assert!(Interval::EVERYTHING.overlaps(Interval::EVERYTHING));
        assert!(Interval::EVERYTHING.width().is_infinite());
        assert!(Interval::EVERYTHING.mid().abs() < f64::MIN_POSITIVE);
    }

    #[test]
    fn products_and_quotients_mind_signs() {
        let a = Interval::new(-2.0, 3.0);
        let b = Interval::new(-5.0, 4.0);
        assert_eq!(a * b, Interval::new(-15.0, 12.0));
        assert_eq!(a - b, Interval::new(-6.0, 8.0));
        assert_eq!(
            a / Interval::new(-4.0, -2.0),
            Interval::new(-1.5, 1.0),
            "a negative divisor turns the interval round"
        );
        assert_eq!(a.scale(-2.0), Interval::new(-6.0, 4.0));
        assert_eq!(
            Interval::new(2.0, 4.0).recip(),
            Interval::new(0.25, 0.5),
            "one over the ends, in order"
        );
    }

    #[test]
    fn dividing_by_zero_gives_everything() {
        let one = Interval::exact(1.0);
        assert_eq!(one / Interval::new(-1.0, 1.0), Interval::EVERYTHING);
        assert_eq!(one / Interval::new(0.0, 1.0), Interval::EVERYTHING);
        assert_eq!(Interval::new(-1.0, 0.0).recip(), Interval::EVERYTHING);
        assert_eq!(
            Interval::exact(0.0) * Interval::EVERYTHING,
            Interval::exact(0.0)
        );
        assert_eq!(
            Interval::EVERYTHING / Interval::new(1.0, f64::INFINITY),
            Interval::EVERYTHING
        );
    }
}
