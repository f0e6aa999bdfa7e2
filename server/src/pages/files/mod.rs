//! The files of a class set: everything to download, and readings to take in.

mod choose;
pub mod download;
pub mod import;
pub mod keep;
mod limits;
mod marks;
mod plan;
mod preview;
mod refused;
pub mod show;
mod stored;
mod understood;
mod upload;
