//! A school year's figures for a spreadsheet: one table a file.
//!
//! Numbers are written to six significant figures, ratios as ratios and
//! shares as shares (0 to 1); what is not known is blank.

mod cells;
mod kits;
mod sheets;
mod slips;

pub use cells::cells;
pub use kits::{kit_lessons, kits};
pub use sheets::sheets;
pub use slips::slips;
