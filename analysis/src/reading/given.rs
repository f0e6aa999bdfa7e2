//! What was read, and what would fit.

use crate::field::Field;
use crate::figure::significant;
use crate::method::model::part::{Mend, Part};
use crate::sheet::{Entries, Entry};

use super::Counts;
use super::case::Case;

/// The first row that a slip concerns.
fn entries<'c>(case: &'c Case<'_>, part: &Part) -> &'c Entries {
    let row = part.row.unwrap_or(case.seen.rows[0].row);
    &case.sheet.rows[row].entries
}

/// The reading as typed, and as it would fit; blank where there is none.
pub(super) fn readings(case: &Case<'_>, part: &Part) -> (String, String) {
    let row = entries(case, part);
    let whole = &case.sheet.whole;
    let entry = row.get(part.step).or_else(|| whole.get(part.step));
    let given = entry.map_or_else(String::new, Entry::typed);
    let expected = match &part.mend {
        Mend::Count(_) if part.step == Field::FirstCrest => "1".to_owned(),
        Mend::Count(by) => {
            entry.map_or_else(String::new, |entry| (entry.si() + by).round().to_string())
        }
        Mend::HalfCount => {
            let first = row.si(Field::FirstCrest).unwrap_or(0.0);
            let last = row.si(Field::LastCrest).unwrap_or(0.0);
            significant(f64::midpoint(first, last), 3)
        }
        Mend::Text(text, _) => entry.map_or_else(String::new, |entry| entry.with_unit(text)),
        Mend::Multiplier(times) => times.to_string(),
        Mend::Swap => whole
            .get(Field::ScaleTrue)
            .map_or_else(String::new, Entry::typed),
        Mend::Nothing => String::new(),
    };
    (given, tidy(expected))
}

/// 5.50 as 5.5: halves of counts need no noughts.
fn tidy(text: String) -> String {
    match text.strip_suffix(".0").or_else(|| text.strip_suffix(".00")) {
        Some(whole) => whole.to_owned(),
        None => text,
    }
}

/// The count of a row as it was written, and as it would fit. `None` where no
/// count is meant.
pub(super) fn counts(case: &Case<'_>, part: &Part) -> Option<Counts> {
    let Mend::Count(by) = part.mend else {
        return None;
    };
    let mut rows = case.seen.rows.iter();
    let at = rows.position(|seen| Some(seen.row) == part.row)?;
    let written = match (part.step, case.seen.total_of(at)) {
        (Field::Loops, Some(total)) => total.loops,
        _ => case.seen.rows[at].waves,
    };
    let fits = (written + by).round();
    Some(Counts { written, fits })
}
