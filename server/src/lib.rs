//! The server: what pupils type is kept, what teachers need is shown.
//!
//! It computes no statistic and judges no working; that is the `analysis`
//! crate's. Start with `pages/mod.rs`: its features say their routes.

// Each module knows only those of the groups before its own; a test holds it.
pub mod clock;
pub mod ids;
pub mod off_thread;
pub mod secret;

pub mod changes;
pub mod rate;
pub mod words;

pub mod table;

pub mod chart;

pub use data::db;

pub mod report;

pub mod files;
pub use data::acts;

pub mod web;

pub mod pages;

pub mod app;
pub mod config;
pub mod listener;
pub mod upkeep;

pub mod serve;

/// The data file. Its two halves share the writer, and nobody else sees it:
/// `db/` has the rows and queries, `acts/` what may be done to them.
#[path = "."]
mod data {
    pub mod acts;
    pub mod db;
}
