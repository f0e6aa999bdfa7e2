//! The questions in words. They ask; they do not accuse.

use crate::figure::significant;

pub(super) fn agreeing(rows: usize, of: usize, one_declares: bool) -> String {
    let agree = format!(
        "These groups’ readings agree to the last digit in {} of {of}.",
        counted(rows, "row")
    );
    if one_declares {
        format!("{agree} Not all of them say that they used a shared set. Did they?")
    } else {
        format!("{agree} Did they share one set of readings?")
    }
}

pub(super) fn by_chance(sheets: usize, chance: f64, pairs: usize) -> String {
    let groups = if sheets == 2 {
        "two groups"
    } else {
        "so many groups"
    };
    let class = if pairs == 1 {
        String::new()
    } else {
        format!(" There are {pairs} pairs of groups here.")
    };
    format!(
        "Where {groups} measure for themselves, as much agrees by chance about {}.{class}",
        once_in(chance)
    )
}

pub(super) fn without_spread(repeats: usize) -> String {
    let show = if repeats == 1 { "shows" } else { "show" };
    format!(
        "{} in this sheet {show} no spread at all. Was each measured afresh?",
        counted(repeats, "repeat")
    )
}

pub(super) fn repeats_by_chance(chance: f64) -> String {
    format!(
        "Repeats that are measured agree so well about {}.",
        once_in(chance)
    )
}

fn counted(number: usize, what: &str) -> String {
    let plural = if number == 1 { "" } else { "s" };
    format!("{number} {what}{plural}")
}

/// `once in 4000`, to one figure; nobody counts beyond a million.
fn once_in(chance: f64) -> String {
    let times = 1.0 / chance;
    if times >= 1e6 {
        "less than once in a million times".to_owned()
    } else {
        format!("once in {} times", significant(times.max(1.0), 1))
    }
}
