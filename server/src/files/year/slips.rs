//! The slips of a year: one line for each share.

use analysis::year::share::Share;
use analysis::year::slips::{self, SlipYear};

use super::{share, table, typed};
use crate::report::year::words::slip;
use crate::report::year::{Frame, Sheets};

/// Months as they stand in the file, September first.
const MONTHS: [&str; slips::MONTHS] = [
    "09", "10", "11", "12", "01", "02", "03", "04", "05", "06", "07", "08",
];

/// The slips file: shares of the groups for every slip that any made.
///
/// In the year and the one before (`before`), by class, by month, and in each
/// class's first practical and its later ones.
///
/// # Errors
/// When the table cannot be written.
pub fn slips(frame: &Frame, sheets: &Sheets, before: Option<&[SlipYear]>) -> csv::Result<Vec<u8>> {
    let columns = [
        "slip",
        "where",
        "split",
        "name",
        "groups",
        "of",
        "share",
        "share_low",
        "share_high",
    ];
    let mut lines = Vec::new();
    for counted in slips::count(&sheets.year) {
        let earlier = before
            .into_iter()
            .flatten()
            .find(|s| s.slip == counted.slip);
        let earlier = earlier.map_or_else(Share::default, |slip| slip.whole);
        if counted.whole.made + earlier.made == 0 {
            continue;
        }
        for (split, name, share) in shares(frame, sheets, &counted, earlier) {
            lines.push(line(&counted, split, &name, share));
        }
    }
    table(columns, lines)
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

fn line(counted: &SlipYear, split: &str, name: &str, of: Share) -> [String; 9] {
    let [groups, of, value, low, high] = share(of);
    [
        slip::code(counted.slip).to_owned(),
        slip::place(counted.slip).to_owned(),
        split.to_owned(),
        typed(name),
        groups,
        of,
        value,
        low,
        high,
    ]
}
