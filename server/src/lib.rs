//! The server.

pub mod files;
