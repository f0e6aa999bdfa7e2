//! What is said of slips, classes and graphs of a year.

use analysis::year::Made;
use analysis::year::cells::Cell;
use analysis::year::share::{Change, Share};

use super::number::{fixed, percent, to};
use super::share::{of, per_cent, per_cent_range, ratio};
use super::{Say, capitalised, cause, counted, plural, spelt};

sentences! {
    MEANS_SHOWN: "The mean of each, with its interval. The table says the same in numbers.";
    CROSSES_AND_PHYSICS: "Crosses: this year, with 95 % intervals. The dashed line is what physics expects.";
    MARKS_SHOWN: "The mean mark of each, with its interval. The table says the same in numbers.";
    CROSSES_ARE_MARKS: "Crosses: the mean mark of its groups, with 95 % intervals.";
    CROSSES: "Crosses: this year, with 95 % intervals.";
    FEW: "so few groups say little";
    SLIPPED: "left aside: a slip in its readings was confirmed";
    TAKEN_OUT: "taken out: a slip in its readings was confirmed";
    DIAL_OUT: "left aside: the dial of its generator seems out";
    TWO_ERRORS: "beyond two standard errors";
    THREE_ERRORS: "beyond three standard errors";
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
    let end = |share: f64| fixed(Some(100.0 * share), 0);
    let range = to(end(near), end(far));
    let verdict = if difference.excludes(0.0) {
        let word = fewer_or_more(difference.value);
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

/// Returns how much there is: `12 class sets; 102 of 108 groups have handed in`.
#[must_use]
pub fn counts(class_sets: usize, handed_in: Share) -> String {
    if handed_in.of == 0 {
        return "No group has handed in yet".to_owned();
    }
    let class_sets = counted(class_sets, "class set", "class sets");
    format!("{class_sets}; {} groups have handed in", of(handed_in))
}

/// Returns that none of so many kits is off.
#[must_use]
pub fn no_kit_off(judged: usize) -> String {
    let judged = spelt(judged);
    format!("None of the {judged} kits with enough lessons reads high or low.")
}

/// Returns that so many kits are off besides the one that is told of.
#[must_use]
pub fn other_kits_off(count: usize) -> String {
    let reads = plural(count, "kit reads", "kits read");
    format!(
        "{} other {reads} high or low too.",
        capitalised(&spelt(count))
    )
}

/// Returns the slip that most groups made, and how that has changed since the
/// year with this name.
#[must_use]
pub fn commonest(slip: Made, change: Change, name_before: &str) -> String {
    let difference = change.difference().filter(|found| found.excludes(0.0));
    let changed = difference.map_or_else(String::new, |difference| {
        let word = fewer_or_more(difference.value);
        let before = per_cent(change.before);
        format!(", {word} than in {name_before} ({before})")
    });
    let what = match slip {
        Made::Shown(_) => "The commonest slip is",
        Made::Confirmed(_) => "The commonest slip is one in the readings,",
    };
    format!(
        "{what} “{}”: {} groups made it ({}){changed}.",
        short(slip),
        of(change.after),
        per_cent_range(change.after),
    )
}

fn fewer_or_more(change: f64) -> &'static str {
    if change < 0.0 { "fewer" } else { "more" }
}

/// Returns that the speeds of these classes stand apart.
#[must_use]
pub fn apart(classes: &[&str]) -> String {
    format!(
        "The speeds of {} differ from the others’ by more than chance explains, as one practical in twenty does though its classes are alike: look at {} kits and sheets before you make anything of it.",
        classes.join(", "),
        plural(classes.len(), "its", "their")
    )
}

/// Returns how groups of one class or teacher scatter, and how those of
/// different ones do.
#[must_use]
pub fn scatter(one: &str, repeatability: f64, reproducibility: f64) -> String {
    format!(
        "Groups of one {one} scatter with a standard deviation of {} (repeatability); groups of different ones with {} (reproducibility).",
        percent(repeatability),
        percent(reproducibility)
    )
}

/// Returns what is to be said of a class or a teacher; blank for nothing. Up to
/// `few` groups say little.
#[must_use]
pub fn remark(cell: &Cell, few: usize) -> String {
    let aside = |count: usize, why: &str| {
        let groups = counted(count, "group", "groups");
        (count > 0).then(|| format!("{groups} left aside {why}"))
    };
    let apart = "its mean is further from the others’ than chance explains: look at its kits and its sheets";
    let remarks = [
        (cell.counted <= few).then(|| FEW.to_owned()),
        (cell.stands_apart == Some(true)).then(|| apart.to_owned()),
        aside(
            cell.left_aside,
            "as not belonging with the rest of the lesson",
        ),
        aside(cell.slipped, "for a confirmed slip in the readings"),
    ];
    let remarks: Vec<_> = remarks.into_iter().flatten().collect();
    remarks.join("; ")
}

/// Returns how many sheets a graph shows in the order of their dates.
#[must_use]
pub fn dated(sheets: usize) -> String {
    let sheets = counted(sheets, "sheet", "sheets");
    format!("{sheets} from September to August. The tables say the same in numbers.")
}

/// Returns where the lines of that graph are, outermost ones outside, with what
/// the kit is compared with.
#[must_use]
pub fn sigma_lines(lines: [f64; 4], reference: f64) -> String {
    let [low3, low2, high2, high3] = lines.map(|line| ratio(Some(line)));
    let reference = ratio(Some(reference));
    format!(
        "The graph has {reference} for its middle line; single sheets are marked beyond two standard deviations ({low2} and {high2}) and beyond three ({low3} and {high3})."
    )
}

/// Returns that a graph has a line for each of so many things.
#[must_use]
pub fn lines(count: usize, many: &str) -> String {
    format!("One line for each of {count} {many}. The table says the same in numbers.")
}

/// Returns what open circles stand for: the year with this name.
#[must_use]
pub fn open_circles(year: &str) -> String {
    format!("Open circles: {year}.")
}

/// Returns the same where pupils are others.
#[must_use]
pub fn open_circles_of_others(year: &str) -> String {
    format!("Open circles: the same name in {year}, other pupils.")
}

/// Returns what crosses stand for: the year with this name.
#[must_use]
pub fn crosses(year: &str) -> String {
    format!("Crosses: {year}, with 95 % intervals.")
}

/// Returns the months of a school year.
#[must_use]
pub fn months() -> Vec<String> {
    let months = (9..=12).chain(1..=8);
    months.map(|month| Say::english().month(month)).collect()
}
