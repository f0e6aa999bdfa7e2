//! What is said of a file before it is taken in: what it would do, what was
//! understood of it, and what is not for the class set.

use analysis::field::Field;
use analysis::sheet::Entry;
use analysis::unit::Unit;

use super::sheet::with_unit;
use super::{label, plural};

/// Returns that lines of other classes are left out; those of `ours` are taken
/// where there are any. A blank name is of lines without a class.
#[must_use]
pub fn other_classes(names: &[&str], ours: &str, is_any_ours: bool) -> String {
    let names = names.iter().map(|name| match *name {
        "" => "no class",
        name => name,
    });
    let names = names.collect::<Vec<_>>().join(", ");
    let then = if is_any_ours {
        format!("; those of {ours} are taken.")
    } else {
        format!(
            ": this class set is of {ours}. Write that name in the column class, or leave the column blank."
        )
    };
    format!("The file has lines of {names}. They are left out{then}")
}

/// Returns that so many sheets are of other methods than this one, by its code.
#[must_use]
pub fn other_methods(sheets: usize, ours: &str) -> String {
    format!("Sheets of another practical are left out ({sheets}): this class set is of {ours}.")
}

/// Returns that nothing was typed for a group.
#[must_use]
pub fn blank_group(label: &str) -> String {
    format!("Nothing stands in the lines of group {label}.")
}

/// Returns that groups stored something after the preview was made.
#[must_use]
pub fn met(labels: &[String]) -> String {
    format!(
        "Something else was stored since you opened this preview: by {} {}. Nothing was kept. Look at what differs now, and press the button again.",
        plural(labels.len(), "group", "groups"),
        labels.join(", ")
    )
}

/// What a file would do to the work of a group.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Does {
    /// It is the first.
    First,
    /// It takes the place of other work.
    Change,
    /// Nothing: it is there already.
    Same,
    /// It wants a bench.
    NewBench,
}

impl Does {
    /// In the order in which they are told.
    pub const ALL: [Self; 4] = [Self::First, Self::Change, Self::Same, Self::NewBench];
}

/// Returns to how many groups it would do that.
#[must_use]
pub fn groups(does: Does, count: usize) -> String {
    let said = |one, many| plural(count, one, many);
    let said = match does {
        Does::First => said(
            "group has stored nothing yet",
            "groups have stored nothing yet",
        ),
        Does::Change => said(
            "group has stored something else: the file’s readings would become its newest version",
            "groups have stored something else: the file’s readings would become their newest versions",
        ),
        Does::Same => said("group has stored just this", "groups have stored just this"),
        Does::NewBench => said(
            "group is none of the benches",
            "groups are none of the benches",
        ),
    };
    format!("{count} {said}.")
}

/// Said of a row that the group left out.
pub const LEFT_OUT: &str = "left out by the group as an anomaly";
/// Said of a line in which no row stands.
pub const NO_ROW: &str = "nothing: no row is made of it";

/// Returns what was understood of a figure, whose column is headed with this
/// unit: `distance between the crests: 5,60 cm (read as 5.6)`.
#[must_use]
pub fn figure(field: Field, entry: &Entry, heading: Option<Unit>) -> String {
    let text = entry.figure.text().trim();
    let typed = with_unit(text, entry.unit.map_or("", Unit::symbol));
    let mut words = format!("{}: {typed}", label(field));
    let has_its_own = entry.figure.unit().or(entry.unit).is_some();
    if !has_its_own && entry.reading_unit().is_some() {
        let heading = heading.map_or("", Unit::symbol);
        words.push_str(&format!(" (no unit given: read as {heading})"));
    }
    if !is_plain(text) {
        words.push_str(&format!(" (read as {})", entry.figure.value()));
    }
    words
}

/// Says whether a figure can be read in one way only: digits and a point.
fn is_plain(text: &str) -> bool {
    let mut number = text.trim_end_matches(|c: char| !c.is_ascii_digit()).chars();
    number.all(|c| c.is_ascii_digit() || c == '.' || c == '-')
}
