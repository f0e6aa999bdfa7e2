//! The server: what pupils type is kept, what teachers need is shown.
//!
//! It computes no statistic and judges no working; that is the `analysis`
//! crate's. Start with `pages/mod.rs`: its features say their routes.

pub mod access;
pub mod app;
pub mod assets;
pub mod attachment;
pub mod changes;
pub mod chart;
pub mod clock;
pub mod config;
pub mod error;
pub mod files;
pub mod form;
pub mod ids;
pub mod layout;
pub mod listener;
pub mod off_thread;
pub mod pages;
pub mod password;
pub mod rate;
pub mod report;
pub mod secret;
pub mod serve;
pub mod session;
pub mod state;
pub mod table;
pub mod upkeep;
pub mod words;

/// The data file. Its two halves share the writer, and nobody else sees it:
/// `db/` has the rows and queries, `acts/` what may be done to them.
#[path = "."]
mod data {
    pub mod acts;
    pub mod db;
}

pub use data::{acts, db};
