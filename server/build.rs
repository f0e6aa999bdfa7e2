//! Static files, templates and catalogues are embedded, so a change to them
//! must rebuild.

#![expect(clippy::panic, reason = "a build that cannot go on should stop")]

#[path = "build/catalogue.rs"]
mod catalogue;

fn main() {
    for folder in ["../static", "../templates", "src/words"] {
        println!("cargo:rerun-if-changed={folder}");
    }
    catalogue::write();
}
