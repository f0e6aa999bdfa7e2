//! Readings in, flags and groups out.

mod command;
mod copied;
mod download;
mod faults;
mod import;
mod inferred;
mod keep;
mod known;
mod lines;
mod marks;
mod parts;
mod properties;
mod round_trip;
mod variants;
mod with_several;

use std::sync::LazyLock;

use server::files::assess::{AssessError, Report, assess};

use crate::support::{Lesson, Reply};

impl Lesson {
    /// The teacher chooses a file of readings; what is said of it.
    async fn previews(&mut self, file: &str) -> Reply {
        let path = self.url("/import");
        self.teacher.upload(&path, &[], Some(file.as_bytes())).await
    }
}

/// The two results as text, with the report.
pub(crate) struct Results {
    pub(crate) flags: String,
    pub(crate) groups: String,
    pub(crate) report: Report,
}

pub(crate) fn assessed(readings: &[u8]) -> Result<Results, AssessError> {
    let (mut flags, mut groups) = (Vec::new(), Vec::new());
    let report = assess(readings, &mut flags, &mut groups, 2)?;
    let text = |bytes| String::from_utf8(bytes).expect("UTF-8 is written");
    Ok(Results {
        flags: text(flags),
        groups: text(groups),
        report,
    })
}

pub(crate) const TWO_CLASSES: &str = include_str!("two_classes.csv");
pub(crate) const THEIR_FLAGS: &str = include_str!("two_classes.flags.csv");
pub(crate) const THEIR_GROUPS: &str = include_str!("two_classes.groups.csv");

/// The results of [`TWO_CLASSES`], what its readings suggest among them.
pub(crate) fn plainly() -> &'static Results {
    static PLAINLY: LazyLock<Results> =
        LazyLock::new(|| assessed(TWO_CLASSES.as_bytes()).expect("a good file"));
    &PLAINLY
}

/// The lines of a flags file whose basis is another than this.
pub(crate) fn without(basis: &str, flags: &str) -> String {
    let is_other = |line: &&str| !line.contains(&format!(",{basis},"));
    let lines = flags.lines().filter(is_other);
    lines.map(|line| line.to_owned() + "\n").collect()
}

/// The cells of a file without quotation marks, by line.
pub(crate) fn cells(file: &str) -> Vec<Vec<&str>> {
    file.lines().map(|line| line.split(',').collect()).collect()
}

/// The same cells as a file again.
pub(crate) fn joined(cells: &[Vec<&str>], separator: &str) -> String {
    cells
        .iter()
        .map(|line| line.join(separator) + "\n")
        .collect()
}
