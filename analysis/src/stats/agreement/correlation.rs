//! Correlations of pairs: of the figures, of their ranks, and about the line
//! of equality.

use super::moments::moments;

/// Fewer pairs than this have no correlation: two points are always on a
/// line.
const FEWEST: usize = 3;

/// Pearson's product-moment correlation, from −1 to 1. `None` for fewer than
/// three pairs, where all firsts agree or all seconds do, and where a figure
/// is not finite.
#[must_use]
pub fn pearson(pairs: &[(f64, f64)]) -> Option<f64> {
    let m = moments(pairs)?;
    if m.n < FEWEST || m.sxx <= 0.0 || m.syy <= 0.0 {
        return None;
    }
    // Rounding may carry a perfect correlation past 1.
    Some((m.sxy / (m.sxx.sqrt() * m.syy.sqrt())).clamp(-1.0, 1.0))
}

/// Spearman's rank correlation, from −1 to 1: Pearson's correlation of the
/// ranks, those that tie sharing the mean of their ranks. 1 says that both
/// markers put the sheets in the same order.
///
/// Spearman (1904), *American Journal of Psychology* 15, 72-101; for ties,
/// Kendall and Gibbons (1990), *Rank Correlation Methods*, 5th ed.,
/// chapter 3. `None` as for [`pearson`].
#[must_use]
pub fn spearman(pairs: &[(f64, f64)]) -> Option<f64> {
    if pairs.iter().any(|(x, y)| !(x.is_finite() && y.is_finite())) {
        return None;
    }
    let firsts: Vec<f64> = pairs.iter().map(|(first, _)| *first).collect();
    let seconds: Vec<f64> = pairs.iter().map(|(_, second)| *second).collect();
    let ranks: Vec<(f64, f64)> = mid_ranks(&firsts)
        .into_iter()
        .zip(mid_ranks(&seconds))
        .collect();
    pearson(&ranks)
}

/// The rank of each value, the lowest being 1; values that tie share the mean
/// of the ranks that they take up.
#[must_use]
pub fn mid_ranks(values: &[f64]) -> Vec<f64> {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    values
        .iter()
        .map(|value| {
            let below = sorted.partition_point(|other| other < value);
            let not_above = sorted.partition_point(|other| other <= value);
            // Ranks below + 1 to not_above.
            (below + 1 + not_above) as f64 / 2.0
        })
        .collect()
}

/// Lin's concordance correlation, from −1 to 1: how closely the pairs lie to
/// the line on which both figures are the same.
///
/// `2 s_xy/(s_x² + s_y² + (x̄ − ȳ)²)`, with moments over n as Lin has them. It
/// never exceeds Pearson's correlation, and falls short of it by as much as
/// one marker is more severe or spreads marks more. Lin (1989), *Biometrics*
/// 45, 255-268.
///
/// `None` for fewer than three pairs, where all figures agree, and where one
/// is not finite; 0 where only one marker's figures all agree.
#[must_use]
pub fn concordance(pairs: &[(f64, f64)]) -> Option<f64> {
    let m = moments(pairs)?;
    let shift = m.n as f64 * (m.x_mean - m.y_mean).powi(2);
    let whole = m.sxx + m.syy + shift;
    let varies = m.sxx > 0.0 || m.syy > 0.0;
    (m.n >= FEWEST && varies && whole.is_finite()).then(|| 2.0 * m.sxy / whole)
}
