//! λ at every frequency that the sheets of a kit need, worked out once.

use crate::wave::water::{LnWavelength, Water};

use super::case::Case;
use super::cell::States;

/// λ of every frequency that some hypothesis of a kit's sheets needs, in each
/// of its waters.
#[derive(Clone, Debug, Default)]
pub(super) struct Curves {
    frequencies: Vec<f64>,
    /// By water, then frequency.
    ln_wavelengths: Vec<Vec<LnWavelength>>,
}

impl Curves {
    /// For the sheets of one kit.
    pub(super) fn of(states: &States, cases: &[&Case<'_>]) -> Self {
        if states.waters.is_empty() {
            return Self::default();
        }
        let mut frequencies: Vec<_> = cases.iter().flat_map(|case| case.frequencies()).collect();
        frequencies.sort_by(f64::total_cmp);
        frequencies.dedup_by(|one, other| one.total_cmp(other).is_eq());
        let curve = |water: &Water| {
            let at = frequencies.iter().map(|f| water.ln_wavelength(*f));
            at.collect()
        };
        Self {
            ln_wavelengths: states.waters.iter().map(curve).collect(),
            frequencies,
        }
    }

    /// In one of the waters, at one of those frequencies (Hz).
    pub(super) fn at(&self, water: usize, frequency: f64) -> LnWavelength {
        let at = self.frequencies.partition_point(|f| *f < frequency);
        self.ln_wavelengths[water][at]
    }
}
