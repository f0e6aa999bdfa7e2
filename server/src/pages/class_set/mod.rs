//! The teacher's class sets.

mod advice;
pub mod create;
pub mod help;
pub mod list;
pub mod new_number;
mod qr;
pub mod show;
pub mod state;
pub mod summary;
pub mod thresholds;
