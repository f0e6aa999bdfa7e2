//! What is said of slips, classes and graphs of a year.

use analysis::year::Made;
use analysis::year::share::Change;

use super::share::{of, per_cent};
use super::{Say, cause};

sentences! {
    MEANS_SHOWN: "The mean of each, with its interval. The table says the same in numbers.";
    CROSSES_AND_PHYSICS: "Crosses: this year, with 95 % intervals. The dashed line is what physics expects.";
    MARKS_SHOWN: "The mean mark of each, with its interval. The table says the same in numbers.";
    CROSSES_ARE_MARKS: "Crosses: the mean mark of its groups, with 95 % intervals.";
    CROSSES: "Crosses: this year, with 95 % intervals.";
    COUNTED_IF_CONFIRMED: "It is in the readings: counted here where a teacher confirmed it.";
    MONTHS_SHOWN: "One line for each month with a practical. The table says the same in numbers.";
    BARS_95: "Bars are 95 % intervals.";
    SLIPS_SHOWN: "One line for each slip, commonest first. The table says the same in numbers.";
    NO_KIT_YET: "No kit has been used in enough lessons yet to say how it reads.";
    NO_WORKING_SLIPS: "No group’s working shows a slip.";
    TOO_FEW_GROUPS: "There are too few groups yet to compare classes.";
    CLASSES_ALIKE: "The classes’ speeds differ no more than chance explains.";
}

/// Returns a few words for a slip.
#[must_use]
pub fn short(slip: Made) -> &'static str {
    match slip {
        Made::Shown(slip) => Say::english().slip(slip),
        Made::Confirmed(cause) => cause::short(cause),
    }
}

/// Returns what changed, in a sentence: `12 of 30 before and 4 of 32 after: fewer, by
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
