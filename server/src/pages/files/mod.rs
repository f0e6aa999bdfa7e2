//! The files of a class set: everything to download, and readings to take in.

mod choose;
mod download;
mod import;
mod keep;
mod limits;
mod plan;
mod preview;
mod refused;
mod show;
mod stored;
mod understood;
mod upload;

use crate::pages::access::Access::{NotBlind, Staff};
use crate::pages::access::Routes;

/// Longest body of a form with a file in it, in bytes: twice the longest file,
/// since a preview carries it with every quotation mark doubled.
const LONGEST_UPLOAD: usize = 4 * 1024 * 1024;

pub(super) fn routes() -> Routes {
    Routes::default()
        .get("/class-sets/{id}/import", Staff, import::get)
        .post("/class-sets/{id}/import", Staff, import::post)
        .post("/class-sets/{id}/import/keep", Staff, keep::post)
        .with_longest_body(LONGEST_UPLOAD)
        .get("/class-sets/{id}/files", Staff, show::get)
        .get("/class-sets/{id}/files/{name}", NotBlind, download::get)
}
