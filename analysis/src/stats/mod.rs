//! Statistics: each formula with its source, checked against published data.

pub mod agreement;
pub mod interval;
pub mod line;
pub mod outlier;
pub mod precision;
pub mod robust;
pub mod spread;
