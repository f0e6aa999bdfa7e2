//! The slips of a year: one line for each share.

use analysis::year::share::Share;
use analysis::year::slips::{self, SlipYear};

use crate::report::year::{Frame, Sheets};
use crate::table::Table;

/// Months as they stand in the file, September first.
const MONTHS: [&str; slips::MONTHS] = [
    "09", "10", "11", "12", "01", "02", "03", "04", "05", "06", "07", "08",
];

/// Makes the table of slips: shares of the groups for every slip that any made.
///
/// In the year and the one before (`before`), by class, by month, and in each
/// class's first practical and its later ones.
#[must_use]
pub fn slips(frame: &Frame, sheets: &Sheets, before: Option<&[SlipYear]>) -> Table {
    let mut lines = Vec::new();
    for counted in slips::count(&sheets.year) {
        let mut earlier = before.into_iter().flatten();
        let earlier = earlier.find(|earlier| earlier.slip == counted.slip);
        let earlier = earlier.map_or_else(Share::default, |slip| slip.whole);
        if counted.whole.made + earlier.made == 0 {
            continue;
        }
        let shares = shares(frame, sheets, &counted, earlier).into_iter();
        lines.extend(shares.map(|(split, name, share)| (counted.slip, split, name, share)));
    }
    Table::of(&lines)
        .text("slip", |(made, ..)| made.code())
        .text("where", |(made, ..)| made.place())
        .text("split", |(_, split, ..)| split)
        .text("name", |(.., name, _)| name)
        .figure("groups", |(.., share)| share.made)
        .figure("of", |(.., share)| share.of)
        .number("share", |(.., share)| share.value())
        .ends("share", |(.., share)| share.interval())
        .table()
}

fn shares(
    frame: &Frame,
    sheets: &Sheets,
    counted: &SlipYear,
    before: Share,
) -> Vec<(&'static str, String, Share)> {
    let mut shares = vec![
        ("year", frame.school_year.to_string(), counted.whole),
        ("year", (frame.school_year - 1).to_string(), before),
    ];
    let classes = || frame.classes.iter().map(|class| class.name.clone());
    let by_class = classes().zip(&counted.by_class);
    shares.extend(by_class.map(|(name, share)| ("class", name, *share)));
    let by_month = MONTHS.iter().zip(&counted.by_month);
    shares.extend(by_month.map(|(month, share)| ("month", (*month).to_owned(), *share)));
    let changes = slips::since_first(&sheets.year, counted.slip);
    for (name, change) in classes().zip(changes) {
        if let Some(change) = change {
            shares.push(("first practical", name.clone(), change.before));
            shares.push(("later practicals", name, change.after));
        }
    }
    shares.retain(|(.., share)| share.of > 0);
    shares
}
