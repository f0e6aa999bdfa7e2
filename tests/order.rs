//! The modules of a crate stand in one order: each knows only modules before
//! it. The order is that of `lib.rs`, group by group. The compiler lets modules
//! of a crate know each other both ways, so this test, alone of all, reads source
//! text. Both crates run it.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

fn source() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("src")
}

/// The group of each module.
fn groups() -> BTreeMap<String, usize> {
    let root = fs::read_to_string(source().join("lib.rs")).expect("there is a root");
    let mut groups = BTreeMap::new();
    for (group, lines) in root.split("\n\n").enumerate() {
        let modules = lines.lines().filter_map(|line| {
            let own = line.strip_prefix("pub mod ");
            let name = own.or_else(|| line.strip_prefix("pub use data::"))?;
            name.strip_suffix(';')
        });
        groups.extend(modules.map(|name| (name.to_owned(), group)));
    }
    groups
}

/// The files of a module.
fn files(path: &Path) -> Vec<PathBuf> {
    let Ok(folder) = fs::read_dir(path) else {
        return vec![path.with_extension("rs")];
    };
    let inside = folder.map(|entry| entry.expect("an entry").path());
    inside
        .flat_map(|path| {
            if path.is_dir() {
                files(&path)
            } else {
                vec![path]
            }
        })
        .collect()
}

/// The modules that a file names, comments and tests apart.
fn named(path: &Path) -> Vec<String> {
    let text = fs::read_to_string(path).expect("a file of the crate");
    let code = text.split("#[cfg(test)]").next().unwrap_or_default();
    let is_code = |line: &&str| !line.trim().starts_with("//");
    let code: Vec<_> = code.lines().filter(is_code).collect();
    // Who may see a thing is no knowledge of it.
    let code = code.join("\n").replace("pub(in crate::", "");
    let name = |rest: &str| -> String {
        let is_of_name = |c: &char| c.is_ascii_lowercase() || *c == '_';
        rest.chars().take_while(is_of_name).collect()
    };
    code.split("crate::").skip(1).map(name).collect()
}

#[test]
fn each_module_knows_only_those_before_it() {
    let groups = groups();
    assert!(groups.len() >= 20, "{groups:?}");
    let mut wrong = Vec::new();
    for (module, group) in &groups {
        for file in files(&source().join(module)) {
            if file.ends_with("tests.rs") {
                continue;
            }
            for other in named(&file) {
                let known = groups.get(&other);
                let known = known.unwrap_or_else(|| panic!("{}: crate::{other}", file.display()));
                if other != *module && known >= group {
                    wrong.push(format!("{module} knows {other} ({})", file.display()));
                }
            }
        }
    }
    assert_eq!(wrong, Vec::<String>::new());
}
