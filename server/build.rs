//! Static files, templates and catalogues are embedded, so a change to them
//! must rebuild.

#[path = "build/catalogue.rs"]
mod catalogue;

fn main() {
    for folder in ["../static", "../templates", "src/words"] {
        println!("cargo:rerun-if-changed={folder}");
    }
    catalogue::write();
}
