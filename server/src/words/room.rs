//! What is said of the benches of a lesson: how far each has come, why it
//! stands where it does, and whose something odd is.

use analysis::room::{LATE_AFTER, Need, Stage};

use super::time::minutes;
use super::{capitalised, plural};
use crate::clock::MINUTE;

/// Returns how far the sheet of a bench has come, by when it was handed in and
/// saved since: `handed in at 10:42, changed at 10:50`. Returns `None` where
/// nothing is stored.
#[must_use]
pub fn progress(
    handed_in: Option<i64>,
    saved: Option<i64>,
    when: &dyn Fn(i64) -> String,
) -> Option<String> {
    Some(match (handed_in, saved) {
        (Some(handed_in), Some(changed)) => {
            format!("handed in {}, changed {}", when(handed_in), when(changed))
        }
        (Some(handed_in), None) => format!("handed in {}", when(handed_in)),
        (None, Some(saved)) => format!("saved {}, not handed in", when(saved)),
        (None, None) => return None,
    })
}

/// Returns the same for a tile, where a bench may have been chosen only:
/// `heard` is when it was last heard of, and `None` where its browsers left.
#[must_use]
pub fn state(
    stage: Stage,
    heard: Option<i64>,
    progress: Option<String>,
    ago: &dyn Fn(i64) -> String,
) -> String {
    match (stage, heard) {
        (Stage::NotBegun, _) => "Not begun".to_owned(),
        (Stage::Writing, Some(at)) => format!("Writing: chosen {}, nothing saved yet", ago(at)),
        (Stage::Writing, None) => "Chosen and left again, nothing saved".to_owned(),
        (Stage::Saved, _) => format!("Writing: {}", progress.unwrap_or_default()),
        (Stage::HandedIn, _) => capitalised(&progress.unwrap_or_default()),
    }
}

/// Returns what has happened at a bench, to be read out.
#[must_use]
pub fn news(label: &str, stage: Stage, is_changed: bool) -> String {
    let happened = match stage {
        Stage::NotBegun => "has not begun",
        Stage::Writing => "has begun",
        Stage::Saved => "saved its sheet",
        Stage::HandedIn if is_changed => "changed its sheet",
        Stage::HandedIn => "handed in",
    };
    format!("Bench {label} {happened}.")
}

/// Returns why a bench stands where it does, after so many ms without news.
#[must_use]
pub fn why(need: Need, is_open: bool, silent: i64) -> String {
    let why = match need {
        Need::Reading if is_open => "A reading to take again while the apparatus is up.",
        Need::Reading => "Something to ask about: a reading does not fit.",
        Need::Kit if is_open => "A kit to check while it is up.",
        Need::Kit => "Something to check: the kit may be out.",
        Need::Stuck => {
            let silent = minutes(silent / MINUTE);
            return format!("Stuck, it seems: nothing new for {silent}.");
        }
        Need::Late => {
            let late = minutes(LATE_AFTER / MINUTE);
            return format!("Nothing entered, though half the benches began over {late} ago.");
        }
        Need::Working => "A slip in the working: it can wait for the readings.",
        Need::Nothing => "Nothing that calls for a visit.",
    };
    why.to_owned()
}

/// Returns what a teacher's tick says: whose it is, where not the reader's own,
/// when it was set, and whether it still holds.
#[must_use]
pub fn seen(by: Option<&str>, at: &str, still_holds: bool) -> String {
    match (still_holds, by) {
        (true, None) => format!("Seen {at}, so it comes after others like it."),
        (true, Some(by)) => format!("Seen by {by} {at}, so it comes after others like it."),
        (false, None) => format!("Changed since you were there {at}."),
        (false, Some(by)) => format!("Changed since {by} was there {at}."),
    }
}

/// Returns how many of the benches have come how far: `3 of 8 handed in, 4
/// writing, 1 not begun`.
#[must_use]
pub fn count(handed_in: usize, writing: usize, all: usize) -> String {
    let not_begun = all - handed_in - writing;
    format!("{handed_in} of {all} handed in, {writing} writing, {not_begun} not begun")
}

/// What the group's own figures show.
pub const SHOWN: &str = "shown by their figures";

/// Returns how sure it is of what is inferred.
#[must_use]
pub fn inferred(probability: &str, is_confirmed: bool) -> String {
    let confirmed = if is_confirmed { ", confirmed" } else { "" };
    format!("inferred, {probability}{confirmed}")
}

/// Returns what may be wrong at a bench whose kit has no name.
#[must_use]
pub fn at_bench(label: &str, what: &str) -> String {
    format!("bench {label}: {what}")
}

/// Returns what to look at where a kit has no name.
#[must_use]
pub fn apparatus(labels: &[String]) -> String {
    format!("the apparatus of group {}", labels.join(", "))
}

/// Returns that something is the kit's: of which benches that is told. A kit
/// that `is_named` may be that of several.
#[must_use]
pub fn kits_own(is_named: bool, users: &[&String]) -> String {
    match users {
        // Each of those that named no kit has one of its own.
        _ if !is_named => "The apparatus’s fault and not the group’s, it seems: told from one bench alone, since no kit is named.".to_owned(),
        [one] => format!("The kit’s and not the group’s, it seems: told from bench {one} alone."),
        _ => "The kit’s and not one group’s, it seems: told from all its benches together.".to_owned(),
    }
}

/// Returns that something is the group's or the kit's.
#[must_use]
pub fn either(labels: &[String]) -> String {
    let benches = benches(labels);
    format!("{benches}: the group’s or the kit’s, the readings cannot tell.")
}

/// Returns that something is the groups' own; `others` use the same kit and
/// show nothing of it.
#[must_use]
pub fn groups_own(own: &[String], others: &[String]) -> String {
    let who = match own {
        [one] => format!("Bench {one}: the group’s own"),
        several => format!("{}: something of each group’s own", benches(several)),
    };
    if others.is_empty() {
        return format!("{who}, it seems.");
    }
    let show = plural(others.len(), "shows", "show");
    let others = others.join(", ");
    format!("{who} and not the kit’s, it seems: {others} {show} nothing of the kind.")
}

/// `Bench A`, `Benches A, C`.
fn benches(labels: &[String]) -> String {
    let benches = plural(labels.len(), "Bench", "Benches");
    format!("{benches} {}", labels.join(", "))
}
