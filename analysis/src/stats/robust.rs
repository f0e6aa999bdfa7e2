//! A mean and standard deviation that wild values hardly move.
//!
//! ISO 13528:2022, annex C.3 (Algorithm A).

use super::spread::{is_no_spread, mean, median, median_absolute_deviation, sample_sd};

/// From the median absolute deviation to the standard deviation of normal
/// values, as the standard rounds it.
const MAD_TO_START: f64 = 1.483;

/// How many robust standard deviations away a value is pulled in.
const PULLED_IN_AT: f64 = 1.5;

/// Makes good what pulling in takes from the scatter of normal values.
const MADE_GOOD_BY: f64 = 1.134;

/// How much wider a robust mean scatters than a mean: the standard's factor.
const WIDENED_BY: f64 = 1.25;

/// Rounds after which an algorithm that has not settled is given up. It takes
/// some 30 to 150 as a rule, and some 400 where nearly a quarter is wild.
const MOST_ROUNDS: usize = 1000;

/// What Algorithm A settles on, in the unit of the values.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Robust {
    /// How many values.
    pub n: usize,
    /// The robust mean, x*.
    pub mean: f64,
    /// The robust standard deviation, s*. 0 where more than half of the
    /// values agree exactly: they then say nothing about the scatter.
    pub sd: f64,
}

impl Robust {
    /// The standard uncertainty of the robust mean, 1.25 s*/√n.
    #[must_use]
    pub fn standard_uncertainty(&self) -> f64 {
        WIDENED_BY * self.sd / (self.n as f64).sqrt()
    }
}

/// Algorithm A: Huber's mean and standard deviation.
///
/// From the median and 1.483 MAD, every value farther than 1.5 s* from x* is
/// pulled in to that distance; x* is the mean of what results, s* 1.134 times
/// its standard deviation; and so on. The standard stops when the third
/// figure stays; here the rounds go on to full precision, so that the third
/// figure may differ by one from an example worked by hand.
///
/// # How much it bears
/// Fewer than a quarter of the values may be wild on one side. From a quarter
/// up (one of four, say) the wild ones carry it away, and only now and then
/// does it fail to settle; the median bears up to half.
///
/// `None` for fewer than two values, where one is not finite, and where the
/// rounds do not settle.
#[must_use]
pub fn algorithm_a(values: &[f64]) -> Option<Robust> {
    let n = values.len();
    if n < 2 || values.iter().any(|x| !x.is_finite()) {
        return None;
    }
    let mut centre = median(values)?;
    let mut sd = MAD_TO_START * median_absolute_deviation(values)?;
    for _ in 0..MOST_ROUNDS {
        if is_no_spread(sd, values) {
            return Some(Robust {
                n,
                mean: centre,
                sd: 0.0,
            });
        }
        let reach = PULLED_IN_AT * sd;
        let pulled_in: Vec<f64> = values
            .iter()
            .map(|x| x.clamp(centre - reach, centre + reach))
            .collect();
        let (new_centre, new_sd) = (mean(&pulled_in)?, MADE_GOOD_BY * sample_sd(&pulled_in)?);
        let moved = (new_centre - centre).abs().max((new_sd - sd).abs());
        (centre, sd) = (new_centre, new_sd);
        if moved <= 1e-12 * sd {
            return Some(Robust {
                n,
                mean: centre,
                sd,
            });
        }
    }
    None
}
