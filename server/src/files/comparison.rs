//! The comparison of a round: a line for all sheets, for each marker as first
//! and as second, and for each point.

use analysis::moderation::comparison::{Coefficients, Estimated};

use crate::report::moderation::line::{About, ComparisonLine};
use crate::table::Table;
use crate::words::verdict::Whose;

fn about(line: &ComparisonLine<'_>) -> &'static str {
    match line.about {
        About::Whole => "whole",
        About::Marker(_, Whose::Second) => "second_marker",
        About::Marker(..) => "first_marker",
        About::Point(_) => "point",
    }
}

/// Makes the table of some lines of a comparison, with the coefficients of the
/// whole. `name` says what the sheet of this number is called, and is blank
/// when that is not told.
#[must_use]
pub fn table(
    lines: &[ComparisonLine<'_>],
    coefficients: Coefficients,
    name: &dyn Fn(i64) -> String,
) -> Table {
    let of_whole = |line: &ComparisonLine<'_>| match line.about {
        About::Whole => coefficients,
        _ => Coefficients::default(),
    };
    Table::of(lines)
        .text("about", about)
        .text("name", |line| &line.name)
        .figure("sheets", |line| line.agreement.n)
        .estimate("mean_difference", |l| Some(known(l.agreement.mean)))
        .number("mean_size", |line| Some(line.agreement.mean_absolute))
        .number("sd", |line| line.agreement.sd)
        .estimate("lower_limit", |l| Some(known(l.agreement.limits?.lower)))
        .estimate("upper_limit", |l| Some(known(l.agreement.limits?.upper)))
        .figure("same", |line| line.agreement.exact.count)
        .ends("same", |line| line.agreement.exact.interval95)
        .figure("tolerance", |line| line.agreement.tolerance)
        .figure("within", |line| line.agreement.within.count)
        .ends("within", |line| line.agreement.within.interval95)
        .figure("largest", |line| {
            format!("{:.0}", line.agreement.largest.difference)
        })
        .text("largest_sheet", |line| name(line.agreement.largest.sheet))
        .estimate("weighted_kappa", |line| of_whole(line).kappa.map(known))
        .estimate("icc", |line| of_whole(line).icc.map(known))
        .number("part", |line| line.point()?.part)
        .text("colleagues", |line| line.colleagues.join("; "))
        .text("says", |line| line.verdicts.join(" "))
        .table()
}

/// Returns a figure and the ends of its interval: NaN where it has none.
fn known(figure: Estimated) -> [f64; 3] {
    let interval = figure.interval95;
    let [low, high] = interval.map_or([f64::NAN; 2], |ends| [ends.low, ends.high]);
    [figure.value, low, high]
}
