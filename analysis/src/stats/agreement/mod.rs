//! Whether two markers agree, or two ways of measuring one thing.
//!
//! Pairs are (first, second), and every difference is second − first: above 0
//! where the second marker gives more. All statistics are of the pairs as a
//! set: their order plays no part.
//!
//! - [`differences()`]: how far apart, on the whole and at most.
//! - [`count_within`]: how many agree exactly, or within a tolerance.
//! - [`weighted_kappa`]: agreement beyond chance on a few levels of mark.
//! - [`intraclass_correlation`]: two or more markers of the same sheets.

mod differences;
mod icc;
mod kappa;

pub use differences::{Differences, LimitsOfAgreement, count_within, differences};
pub use icc::{Coefficient, intraclass_correlation};
pub use kappa::{Kappa, linear, weighted_kappa};
