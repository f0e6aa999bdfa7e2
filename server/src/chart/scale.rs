//! The numbers along an axis: in steps of 1, 2 or 5 of some power of ten, as a
//! pupil is taught to choose them.

use crate::words::graph::power_of_ten;

/// Room kept between the largest value and the end of the axis, as a share.
const HEADROOM: f64 = 1.02;

/// Below 10 to this power the labels of an axis would need too many noughts.
const LEAST_PLAIN: i32 = -2;

/// From 10 to this power on, too.
const LEAST_LARGE: i32 = 5;

/// What can be drawn: values so far beyond any apparatus that twice or half
/// of them would leave the range of a double are not.
const DRAWABLE: std::ops::RangeInclusive<f64> = 1e-290..=1e290;

/// One numbered line of an axis.
#[derive(Clone, Debug, PartialEq)]
pub struct Tick {
    /// Where it is, as a share of the axis (0 to 1).
    pub share: f64,
    /// Its number, in units of 10 to the axis's [`Scale::exponent`].
    pub text: String,
}

/// An axis from a multiple of its step, which may be 0, to [`Scale::end`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scale {
    /// Steps from 0 to its start, a whole number.
    first: f64,
    /// Steps from its start to its end.
    pub intervals: u32,
    /// 1, 2 or 5: a step in units of 10 to the `power`.
    pub mantissa: u32,
    /// The power of ten of a step.
    pub power: i32,
    /// The power of ten taken out of the labels and put into the unit:
    /// a multiple of 3, and 0 for values of everyday size.
    pub exponent: i32,
}

impl Scale {
    /// Finds the axis with the smallest step that reaches from 0 to `largest`
    /// (above 0) in at most `most` steps (above 1). Returns `None` for a value
    /// that cannot be drawn.
    #[must_use]
    pub fn to_cover(largest: f64, most: u32) -> Option<Self> {
        if !drawable(largest) {
            return None;
        }
        let reach = largest * HEADROOM;
        let first = power_of_ten(reach / f64::from(most));
        for power in first..=first + 1 {
            for mantissa in [1, 2, 5] {
                let step = f64::from(mantissa) * 10_f64.powi(power);
                let reaches = |steps: &u32| f64::from(*steps) * step >= reach;
                if let Some(intervals) = (1..=most).find(reaches) {
                    let exponent = exponent(power_of_ten(f64::from(intervals) * step));
                    return Some(Self {
                        first: 0.0,
                        intervals,
                        mantissa,
                        power,
                        exponent,
                    });
                }
            }
        }
        None
    }

    /// Finds the axis with the smallest step that reaches from `low` to `high`
    /// in at most `most` steps. Returns `None` where either is not finite, or
    /// where they are farther apart, or closer, than anything that is compared.
    #[must_use]
    pub fn around(low: f64, high: f64, most: u32) -> Option<Self> {
        // Before `min` and `max`, which pass a NaN over.
        if !(low.abs() < 1e6 && high.abs() < 1e6) {
            return None;
        }
        let (low, high) = (low.min(high), low.max(high));
        let steps = (-4_i32..=6).flat_map(|power| [1, 2, 5].map(|mantissa| (power, mantissa)));
        steps.into_iter().find_map(|(power, mantissa)| {
            let step = f64::from(mantissa) * 10_f64.powi(power);
            let (first, last) = ((low / step).floor(), (high / step).ceil());
            let reaches = |steps: &u32| last > first && f64::from(*steps) >= last - first;
            Some(Self {
                first,
                intervals: (1..=most).find(reaches)?,
                mantissa,
                power,
                exponent: 0,
            })
        })
    }

    /// Returns the value at the start of the axis.
    #[must_use]
    pub fn start(&self) -> f64 {
        self.first * f64::from(self.mantissa) * 10_f64.powi(self.power)
    }

    /// Returns the value at the end of the axis.
    #[must_use]
    pub fn end(&self) -> f64 {
        (self.first + f64::from(self.intervals))
            * f64::from(self.mantissa)
            * 10_f64.powi(self.power)
    }

    /// Returns where a value is, as a share of the axis; one beyond it, at its
    /// end.
    #[must_use]
    pub fn share(&self, value: f64) -> f64 {
        let start = self.start();
        ((value - start) / (self.end() - start)).clamp(0.0, 1.0)
    }

    /// Returns whether a value is on the axis.
    #[must_use]
    pub fn holds(&self, value: f64) -> bool {
        (self.start()..=self.end()).contains(&value)
    }

    /// Lists the numbered lines, both ends among them.
    #[must_use]
    pub fn ticks(&self) -> Vec<Tick> {
        let tick = |at: u32| {
            let steps = self.first + f64::from(at);
            let value = steps * f64::from(self.mantissa) * 10_f64.powi(self.power - self.exponent);
            let decimals = if steps == 0.0 { 0 } else { self.decimals() };
            Tick {
                share: f64::from(at) / f64::from(self.intervals),
                text: format!("{value:.decimals$}").replace('-', "−"),
            }
        };
        (0..=self.intervals).map(tick).collect()
    }

    /// Lists where the fine lines of the graph paper are, as shares of the
    /// axis: four in a step of 2 and five in the others, so that a small
    /// square is an easy number.
    #[must_use]
    pub fn fine_lines(&self) -> Vec<f64> {
        let squares = if self.mantissa == 2 { 4 } else { 5 };
        (0..=self.intervals * squares)
            .filter(|at| at % squares != 0)
            .map(|at| f64::from(at) / f64::from(self.intervals * squares))
            .collect()
    }

    /// Returns a value in the units of the labels, with one decimal place more
    /// than they have or enough for three figures of the largest: what a table
    /// beside the graph shows.
    #[must_use]
    pub fn figure(&self, value: f64) -> String {
        let of_end = 2 - (power_of_ten(self.end()) - self.exponent);
        let decimals = usize::try_from(of_end)
            .unwrap_or(0)
            .max(self.decimals() + 1);
        let value = value / 10_f64.powi(self.exponent);
        format!("{value:.decimals$}")
    }

    /// Decimal places of the labels.
    fn decimals(&self) -> usize {
        usize::try_from(self.exponent - self.power).unwrap_or(0)
    }
}

/// Says whether a value has a place on an axis.
#[must_use]
pub fn drawable(value: f64) -> bool {
    DRAWABLE.contains(&value)
}

fn exponent(power: i32) -> i32 {
    if (LEAST_PLAIN..LEAST_LARGE).contains(&power) {
        0
    } else {
        3 * power.div_euclid(3)
    }
}
