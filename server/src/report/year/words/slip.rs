//! Slips over a year, in words.

use analysis::year::Made;
use analysis::year::share::Change;

use super::{of, per_cent, per_cent_range};
use crate::words::Say;

/// A few words for a slip.
#[must_use]
pub fn short(slip: Made) -> &'static str {
    match slip {
        Made::Shown(slip) => Say::english().slip(slip),
        Made::Confirmed(cause) => crate::words::cause::short(cause),
    }
}

/// Where it is: in the working, or in the readings. The word of its address.
#[must_use]
pub fn place(slip: Made) -> &'static str {
    match slip {
        Made::Shown(_) => "working",
        Made::Confirmed(_) => "readings",
    }
}

/// Its code in addresses and files.
#[must_use]
pub fn code(slip: Made) -> &'static str {
    match slip {
        Made::Shown(slip) => slip.code(),
        Made::Confirmed(cause) => cause.code(),
    }
}

/// What changed, in a sentence: `12 of 30 before and 4 of 32 after: fewer, by
/// 28 percentage points (8 to 45).`
#[must_use]
pub fn change(change: Change, before: &str, after: &str) -> String {
    let Some(difference) = change.difference() else {
        return "There is nothing to compare yet.".to_owned();
    };
    let both = format!(
        "{} of the groups {before} ({}) and {} {after} ({})",
        per_cent(change.before),
        of(change.before),
        per_cent(change.after),
        of(change.after)
    );
    let size = 100.0 * difference.value.abs();
    let (near, far) = if difference.value < 0.0 {
        (-difference.high, -difference.low)
    } else {
        (difference.low, difference.high)
    };
    let range = format!("{:.0} to {:.0}", 100.0 * near, 100.0 * far).replace('-', "−");
    let verdict = if difference.excludes(0.0) {
        let word = if difference.value < 0.0 {
            "fewer"
        } else {
            "more"
        };
        format!("{word}, by {size:.0} percentage points ({range})")
    } else {
        "chance alone could make that difference".to_owned()
    };
    let few = if change.before.is_of_few() || change.after.is_of_few() {
        " These are small numbers."
    } else {
        ""
    };
    format!("{both}: {verdict}.{few}")
}

/// A share with its interval, for a sentence: `45 of 162 groups (21 to
/// 35 %)`; `No groups yet`.
#[must_use]
pub fn share(share: analysis::year::share::Share) -> String {
    if share.of == 0 {
        return "No groups yet".to_owned();
    }
    format!("{} groups ({})", of(share), per_cent_range(share))
}
