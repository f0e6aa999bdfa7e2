//! Whether differences change over the order in which sheets were marked.

use crate::stats::interval::Estimate;
use crate::stats::line::with_intercept;
use crate::stats::spread::difference_of_means;

/// How a marker's differences move along the pile.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Drift {
    /// Slope of the least-squares line of difference against place, in marks
    /// a place. The place is known exactly, so that ordinary least squares is
    /// the right line.
    pub slope: Estimate,
    /// Mean difference of the last third of the sheets less that of the first
    /// third, in marks, by Student's two-sample t.
    pub last_less_first_third: Estimate,
}

/// The drift of differences, each given with the place of its sheet in the
/// marking order: (place, difference).
///
/// They may come in any order; places
/// should be different, and may leave gaps where only a sample was marked
/// again. With n sheets a third is n/3 of them, rounded down.
///
/// `None` for fewer than three sheets, where all places are the same, and
/// where a figure is not finite. Below six sheets a third is one, and its
/// change has no degrees of freedom.
#[must_use]
pub fn drift(differences: &[(f64, f64)]) -> Option<Drift> {
    let mut in_order = differences.to_vec();
    in_order.sort_by(|(a, _), (b, _)| a.total_cmp(b));
    let third = in_order.len() / 3;
    let each: Vec<f64> = in_order.iter().map(|(_, difference)| *difference).collect();
    let last = each.len() - third;
    Some(Drift {
        last_less_first_third: difference_of_means(each.get(..third)?, each.get(last..)?)?,
        slope: with_intercept(&in_order)?.slope,
    })
}
