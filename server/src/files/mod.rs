//! Readings in and flags out as CSV, without a server; and what stands in each
//! table that goes out.
//!
//! [`readings`] reads a file class by class, [`assess`] judges each class
//! ([`judge`](crate::report::judge): what its readings suggest) and writes what [`flags`] and
//! [`groups`] say of it, and [`command`] is the command line round it.

pub mod assess;
pub mod assumed;
mod class_readings;
mod column;
pub mod command;
pub mod comparison;
mod csv_lines;
pub mod export;
pub mod fault;
pub mod flags;
pub mod groups;
mod line;
pub mod marks;
pub mod readings;
pub mod record;
pub mod register;
mod sheet_lines;
pub mod year;

pub use column::Column;
pub use sheet_lines::SheetReadings;
