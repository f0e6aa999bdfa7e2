//! The evidence of a hypothesis in one state of the kit, in closed form.
//!
//! Within a cell (`cell.rs`) the residuals of ln λ are jointly normal: each
//! row has its own error, and up to four things move all rows together (the
//! enlargement, the dial, surface tension, depth). With D the rows' variances
//! and U the common directions, the covariance is D + U Uᵀ. Its inverse and
//! determinant follow from a 4 × 4 matrix (Woodbury; Golub and Van Loan,
//! *Matrix Computations*, 2.1.4), and a slip, which only shifts residuals, then
//! costs a few multiplications.

use crate::method::prior;

/// Directions in which all residuals move together.
pub(super) const DIRECTIONS: usize = 4;

/// One residual in one state: what is left of ln λ, its variance, and how it
/// moves along each direction, in standard deviations.
#[derive(Clone, Copy, Debug)]
pub(super) struct Residual {
    pub(super) value: f64,
    pub(super) variance: f64,
    pub(super) along: [f64; DIRECTIONS],
}

/// The joint normal distribution of a sheet's residuals.
#[derive(Clone, Debug, Default)]
pub(super) struct Joint {
    residuals: Vec<f64>,
    /// 1/Dᵢ.
    precision: Vec<f64>,
    /// W, with the inverse of the covariance D⁻¹ − W Wᵀ.
    common: Vec<[f64; DIRECTIONS]>,
    /// Wᵀ r.
    sums: [f64; DIRECTIONS],
    /// rᵀ D⁻¹ r.
    squares: f64,
    /// Of each residual, once the others are known: 1/variance.
    precision_given_others: Vec<f64>,
    /// −½ ln det of the covariance. The factor of 2π is the same for all
    /// hypotheses, and left out.
    ln_norm: f64,
}

fn dot(a: &[f64; DIRECTIONS], b: &[f64; DIRECTIONS]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

/// A lower triangle, with the reciprocals of its diagonal: they are divided by
/// often.
struct Lower {
    rows: [[f64; DIRECTIONS]; DIRECTIONS],
    inverse_diagonal: [f64; DIRECTIONS],
}

/// Cholesky's factor of I + Σ u uᵀ/D, which is positive definite.
fn factor(residuals: &[Residual]) -> Lower {
    let mut m = [[0.0; DIRECTIONS]; DIRECTIONS];
    for residual in residuals {
        let precision = residual.variance.recip();
        for (row, along) in m.iter_mut().zip(residual.along) {
            let scaled = along * precision;
            // The upper half is worked out too, and not used.
            for (sum, other) in row.iter_mut().zip(residual.along) {
                *sum += scaled * other;
            }
        }
    }
    let mut inverse_diagonal = [0.0; DIRECTIONS];
    for i in 0..DIRECTIONS {
        m[i][i] += 1.0;
        for j in 0..i {
            let known: f64 = (0..j).map(|k| m[i][k] * m[j][k]).sum();
            m[i][j] = (m[i][j] - known) * inverse_diagonal[j];
        }
        let known: f64 = m[i][..i].iter().map(|x| x * x).sum();
        m[i][i] = (m[i][i] - known).sqrt();
        inverse_diagonal[i] = m[i][i].recip();
    }
    Lower {
        rows: m,
        inverse_diagonal,
    }
}

/// L⁻¹ b.
fn solve(lower: &Lower, b: [f64; DIRECTIONS]) -> [f64; DIRECTIONS] {
    let mut x = b;
    for i in 0..DIRECTIONS {
        let known: f64 = (0..i).map(|k| lower.rows[i][k] * x[k]).sum();
        x[i] = (x[i] - known) * lower.inverse_diagonal[i];
    }
    x
}

impl Joint {
    /// Takes on other residuals, keeping its room.
    pub(super) fn set(&mut self, residuals: &[Residual]) {
        let lower = factor(residuals);
        self.residuals.clear();
        self.precision.clear();
        self.common.clear();
        self.precision_given_others.clear();
        self.sums = [0.0; DIRECTIONS];
        self.squares = 0.0;
        // One logarithm for all: variances lie between 1e-6 and 1000, so that
        // the product of a dozen is a number, and longer tables are cut up.
        let (mut ln_det, mut product) = (0.0, 1.0);
        for residual in residuals {
            let precision = residual.variance.recip();
            let common = solve(&lower, residual.along.map(|u| u * precision));
            for (sum, w) in self.sums.iter_mut().zip(common) {
                *sum += w * residual.value;
            }
            self.squares += residual.value * residual.value * precision;
            product *= residual.variance;
            if !(1e-200..1e200).contains(&product) {
                ln_det += f64::ln(product);
                product = 1.0;
            }
            self.residuals.push(residual.value);
            self.precision.push(precision);
            let given_others = precision - dot(&common, &common);
            self.precision_given_others.push(given_others);
            self.common.push(common);
        }
        for (i, row) in lower.rows.iter().enumerate() {
            product *= row[i] * row[i];
        }
        self.ln_norm = -0.5 * (ln_det + product.ln());
    }

    /// The quadratic form with these added to residuals: χ² with as many
    /// degrees of freedom as residuals, if the model holds.
    pub(super) fn chi_squared(&self, shifts: &[(usize, f64)]) -> f64 {
        let sums = self.shifted_sums(shifts);
        let added =
            |(at, by): &(usize, f64)| by * (by + 2.0 * self.residuals[*at]) * self.precision[*at];
        self.squares + shifts.iter().map(added).sum::<f64>() - dot(&sums, &sums)
    }

    /// Wᵀ r with these added to residuals.
    fn shifted_sums(&self, shifts: &[(usize, f64)]) -> [f64; DIRECTIONS] {
        let mut sums = self.sums;
        for (at, by) in shifts {
            for (sum, w) in sums.iter_mut().zip(self.common[*at]) {
                *sum += w * by;
            }
        }
        sums
    }

    /// ln of the density with these added to residuals.
    pub(super) fn ln_density(&self, shifts: &[(usize, f64)]) -> f64 {
        self.ln_norm - 0.5 * self.chi_squared(shifts)
    }

    /// ln of the density with these added to residuals, if one of the first
    /// `rows` may besides be stray. What is sure to stay below `least` need not
    /// be exact.
    pub(super) fn ln_density_or_stray(
        &self,
        shifts: &[(usize, f64)],
        is_whole: bool,
        rows: usize,
        least: f64,
    ) -> f64 {
        let chi_squared = self.chi_squared(shifts);
        let ln_density = self.ln_norm - 0.5 * chi_squared;
        // No row lies further from what the others lead one to expect than
        // all of them together do.
        if chi_squared < LEAST_STRAY || self.ln_norm < least {
            return ln_density;
        }
        ln_density + self.ln_stray_gain(shifts, is_whole, rows, least - ln_density)
    }

    /// ln of the density with a further direction along which the residuals may
    /// lie, in standard deviations, and its mean.
    pub(super) fn ln_density_along(&self, shifts: &[(usize, f64)], along: &[f64]) -> f64 {
        let (mut sums, mut squares) = (self.sums, self.squares);
        let (mut z_sums, mut z_squares, mut z_r) = ([0.0; DIRECTIONS], 0.0, 0.0);
        let mut shifts = shifts.iter().peekable();
        for (at, z) in along.iter().enumerate() {
            let by = shifts.next_if(|(shifted, _)| *shifted == at);
            let by = by.map_or(0.0, |(_, by)| *by);
            let mended = self.residuals[at] + by;
            squares += by * (by + 2.0 * self.residuals[at]) * self.precision[at];
            z_squares += z * z * self.precision[at];
            z_r += z * mended * self.precision[at];
            for d in 0..DIRECTIONS {
                sums[d] += self.common[at][d] * by;
                z_sums[d] += self.common[at][d] * z;
            }
        }
        let quadratic = squares - dot(&sums, &sums);
        let along_z = z_r - dot(&z_sums, &sums);
        let width = 1.0 + z_squares - dot(&z_sums, &z_sums);
        self.ln_norm - 0.5 * (quadratic - along_z * along_z / width + width.ln())
    }

    /// ln of how many times as likely the shifted residuals are if one of the
    /// first `rows` may be stray (each in turn). A slip of one row says what
    /// that row did (it is not asked); one of the whole sheet does not. Rows
    /// that would gain less than `least` are passed over.
    fn ln_stray_gain(
        &self,
        shifts: &[(usize, f64)],
        is_whole: bool,
        rows: usize,
        least: f64,
    ) -> f64 {
        let sums = self.shifted_sums(shifts);
        let by = |at: usize| shifts.iter().find(|(a, _)| *a == at).map(|(_, by)| *by);
        let mut gain = Stray::default();
        for at in 0..rows {
            let shifted = by(at);
            if shifted.is_some() && !is_whole {
                continue;
            }
            let value = self.residuals[at] + shifted.unwrap_or(0.0);
            let off = self.off(at, value, &sums);
            let precision = self.precision_given_others[at];
            let z_squared = off * off * precision;
            if z_squared >= LEAST_STRAY.max(2.0 * least) {
                gain.add(off, precision);
            }
        }
        gain.ln_odds()
    }

    /// A residual's distance from what the others lead one to expect.
    fn off(&self, at: usize, value: f64, sums: &[f64; DIRECTIONS]) -> f64 {
        let pulled = value * self.precision[at] - dot(&self.common[at], sums);
        pulled / self.precision_given_others[at]
    }

    /// How far each residual lies from what the others lead one to expect
    /// (ln λ), with these shifts.
    pub(super) fn deviations(&self, shifts: &[(usize, f64)]) -> Vec<f64> {
        let sums = self.shifted_sums(shifts);
        let mut values = self.residuals.clone();
        for (at, by) in shifts {
            values[*at] += by;
        }
        let each = values.iter().enumerate();
        each.map(|(at, value)| self.off(at, *value, &sums))
            .collect()
    }
}

/// Within three and a half standard deviations no row is called stray: the odds
/// of that are below a hundredth.
const LEAST_STRAY: f64 = 12.0;

/// e to a power, nought where it could not matter: what is near the smallest
/// number there is takes a processor long.
pub(super) fn exp(power: f64) -> f64 {
    if power < -600.0 { 0.0 } else { power.exp() }
}

/// Odds that one of some rows is stray, as a factor of e to a power: a row far
/// off makes them larger than any number there is.
#[derive(Clone, Copy, Debug, Default)]
struct Stray {
    factor: f64,
    power: f64,
}

impl Stray {
    /// A row that may be stray rather than one of the others, by how far it
    /// lies from them.
    fn add(&mut self, off: f64, precision: f64) {
        let wide = (prior::STRAY_SD * prior::STRAY_SD + precision.recip()).recip();
        let power = 0.5 * off * off * (precision - wide);
        let odds = prior::STRAY_ROW / (1.0 - prior::STRAY_ROW);
        let factor = odds * (wide / precision).sqrt();
        if power > self.power {
            self.factor = self.factor * exp(self.power - power) + factor;
            self.power = power;
        } else {
            self.factor += factor * exp(power - self.power);
        }
    }

    /// ln of one more than the odds.
    fn ln_odds(self) -> f64 {
        self.power + (self.factor + exp(-self.power)).ln()
    }
}
