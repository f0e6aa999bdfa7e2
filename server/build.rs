//! Static files and templates are embedded, so a change to them
//! must rebuild.

fn main() {
    for folder in ["../static", "../templates"] {
        println!("cargo:rerun-if-changed={folder}");
    }
}
