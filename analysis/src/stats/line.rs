//! Straight lines by least squares, with all the scatter in `y`.
//!
//! Source of the formulas: any text on regression; checked against NIST's
//! certified data sets Norris and `NoInt1`.

use super::interval::Estimate;
use super::spread::mean;

/// A line fitted to points.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    /// Rise over run, in the unit of y over that of x.
    pub slope: Estimate,
    /// Where the line meets the axis of y. `None` for a line made to pass
    /// through the origin.
    pub intercept: Option<Estimate>,
    /// The standard deviation of the points about the line, in the unit of y:
    /// √(squares left over / `df`). Zero where `df` is zero.
    pub residual_sd: f64,
    /// Points less fitted coefficients.
    pub df: usize,
    /// The share of the squares of y that the line explains: 1 − squares left
    /// over / squares of y. The squares of y are taken about their mean for a
    /// line with an intercept and about zero for a line through the origin
    /// (as NIST's certified values have it), so the two kinds must not be
    /// compared by it. 1 where y has no squares to explain.
    pub r_squared: f64,
}

/// The line y = slope × x that leaves the least squares of y over, through
/// points (x, y). `None` for no points, where every x is zero, and where
/// a figure is not finite.
///
/// One point gives a line on no degrees of freedom, with a standard error of
/// zero.
#[must_use]
pub fn through_origin(points: &[(f64, f64)]) -> Option<Line> {
    let sxx: f64 = points.iter().map(|(x, _)| x * x).sum();
    if !(sxx > 0.0 && sxx.is_finite()) {
        return None;
    }
    let rough = points.iter().map(|(x, y)| x * y).sum::<f64>() / sxx;
    // What rounding took from the first sum is in the residuals.
    let slope = rough + points.iter().map(|(x, y)| x * (y - rough * x)).sum::<f64>() / sxx;
    if !slope.is_finite() {
        return None;
    }
    let left_over: f64 = points.iter().map(|(x, y)| (y - slope * x).powi(2)).sum();
    let syy: f64 = points.iter().map(|(_, y)| y * y).sum();
    let df = points.len() - 1;
    let residual_sd = residual_sd(left_over, df);
    Some(Line {
        slope: Estimate {
            value: slope,
            se: residual_sd / sxx.sqrt(),
            df,
        },
        intercept: None,
        residual_sd,
        df,
        r_squared: share_explained(left_over, syy),
    })
}

/// The line y = intercept + slope × x that leaves the least squares of y
/// over, through points (x, y). `None` for fewer than two points, where every x
/// is the same, and where a figure is not finite.
///
/// Two points give a line on no degrees of freedom, with standard errors of
/// zero.
#[must_use]
pub fn with_intercept(points: &[(f64, f64)]) -> Option<Line> {
    let n = points.len();
    let (first_x, _) = *points.first()?;
    // Asked of the figures themselves: about their mean, rounding can make
    // equal figures differ.
    if !points.iter().any(|(x, _)| (x - first_x).abs() > 0.0) {
        return None;
    }
    let xs: Vec<f64> = points.iter().map(|(x, _)| *x).collect();
    let ys: Vec<f64> = points.iter().map(|(_, y)| *y).collect();
    let (x_mean, y_mean) = (mean(&xs)?, mean(&ys)?);
    // About its middle, the line passes through the origin; and the slope and
    // the level there are independent of each other.
    let centred: Vec<(f64, f64)> = points
        .iter()
        .map(|(x, y)| (x - x_mean, y - y_mean))
        .collect();
    let about_middle = through_origin(&centred)?;
    let slope = about_middle.slope.value;
    let sxx: f64 = centred.iter().map(|(x, _)| x * x).sum();
    let left_over: f64 = centred.iter().map(|(x, y)| (y - slope * x).powi(2)).sum();
    let df = n - 2;
    let residual_sd = residual_sd(left_over, df);
    Some(Line {
        slope: Estimate {
            value: slope,
            se: residual_sd / sxx.sqrt(),
            df,
        },
        intercept: Some(Estimate {
            value: y_mean - slope * x_mean,
            se: residual_sd * (1.0 / n as f64 + x_mean * x_mean / sxx).sqrt(),
            df,
        }),
        residual_sd,
        df,
        r_squared: about_middle.r_squared,
    })
}

fn residual_sd(left_over: f64, df: usize) -> f64 {
    if df == 0 {
        0.0
    } else {
        (left_over / df as f64).sqrt()
    }
}

fn share_explained(left_over: f64, syy: f64) -> f64 {
    if syy > 0.0 {
        1.0 - left_over / syy
    } else {
        1.0
    }
}
