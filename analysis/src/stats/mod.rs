//! Statistics: each formula with its source, checked against published data.

pub mod agreement;
pub mod consistency;
pub mod interval;
pub mod line;
pub mod outlier;
pub mod robust;
pub mod spread;
