//! Migrations and static files are embedded, so a change to them must rebuild.

fn main() {
    for folder in ["../migrations", "../static", "../templates"] {
        let mut instruction = String::from("cargo:rerun-if-changed=");
        instruction.push_str(folder);
        #[expect(clippy::print_stdout, reason = "this is how a build script speaks to cargo")]
        {
            println!("{instruction}");
        }
    }
}
