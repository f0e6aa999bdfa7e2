//! Whether two markers agree, or two ways of measuring one thing.
//!
//! Pairs are (first, second), and every difference is second − first: above 0
//! where the second marker gives more. All statistics are of the pairs as a
//! set, so their order plays no part, except in [`drift()`].
//!
//! - [`differences()`]: how far apart, on the whole and at most.
//! - [`count_within`]: how many agree exactly, or within a tolerance.
//! - [`weighted_kappa`]: agreement beyond chance on a few levels of mark.
//! - [`intraclass_correlations`]: two or more markers of the same sheets.
//! - [`spearman`], [`concordance`]: the same order; the same marks.
//! - [`major_axis()`]: whether one marker bunches marks in the middle.
//! - [`drift()`]: whether a marker grew milder or more severe on the way.
//!
//! # What a correlation does not say
//! Two markers who are always three marks apart correlate perfectly. Only the
//! differences, [`concordance`] and the two-way random intraclass correlation
//! see a marker who is severe throughout.

mod correlation;
mod differences;
mod drift;
mod icc;
mod kappa;
mod major_axis;
mod moments;

pub use correlation::{concordance, mid_ranks, pearson, spearman};
pub use differences::{Differences, LimitsOfAgreement, count_within, differences};
pub use drift::{Drift, drift};
pub use icc::{Coefficient, Icc, IntraclassCorrelations, intraclass_correlations};
pub use kappa::{Kappa, linear, nominal, quadratic, weighted_kappa};
pub use major_axis::{MajorAxis, major_axis};
