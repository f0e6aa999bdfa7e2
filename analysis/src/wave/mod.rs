//! The physics of the waves, and nothing else: what speed water and string
//! lead one to expect.

pub mod string;
pub mod water;

/// The standard acceleration of free fall, m/s². Exact by definition: 3rd
/// General Conference on Weights and Measures (1901), 980.665 cm/s².
pub const G_STANDARD: f64 = 9.806_65;
