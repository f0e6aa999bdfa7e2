//! Two neighbouring digits in each other's place.

use crate::cause::Cause;
use crate::entry::Entry;
use crate::field::Field;
use crate::figure::Figure;
use crate::method::prior::rate;

use super::observe::Seen;
use super::part::{Change, Mend, Part};

/// In a reading of one row.
pub(crate) fn of_row(sheet: &Seen<'_>, at: usize) -> Vec<Part> {
    let seen = sheet.seen;
    let measured = seen.of_length(at);
    let mut parts = Vec::new();
    for field in [seen.length, Field::Dial, Field::Seconds] {
        for (text, ratio, share) in swaps(sheet.entries(at).get(field)) {
            let (change, jacobian) = match field {
                Field::Dial => (Change::frequency(seen, Some(at), ratio), 1.0),
                Field::Seconds => (Change::frequency(seen, Some(at), ratio.recip()), 1.0),
                // The model's density is one of ln λ; digits are swapped in λ.
                _ => match measured {
                    Some(measured) => (Change::Shift(vec![(measured, ratio.ln())]), ratio.recip()),
                    None => continue,
                },
            };
            let prior = rate::DIGITS_SWAPPED * share * jacobian;
            let part = swapped(field, change, Mend::Text(text, ratio), prior);
            parts.push(part.of_row(seen.rows[at].row));
        }
    }
    parts
}

/// In a length of the whole sheet; the wavelength goes with so high a power
/// of it.
pub(crate) fn of_sheet(sheet: &Seen<'_>, field: Field, power: f64) -> Vec<Part> {
    let swaps = swaps(sheet.whole.get(field)).into_iter();
    let part = |(text, ratio, share): (String, f64, f64)| {
        let change = Change::everywhere(sheet.seen, power * ratio.ln());
        let prior = rate::DIGITS_SWAPPED * share / ratio;
        swapped(field, change, Mend::Text(text, ratio), prior)
    };
    swaps.map(part).collect()
}

fn swapped(field: Field, change: Change, mend: Mend, prior: f64) -> Part {
    Part::whole(Cause::DigitsSwapped, field, change, mend, prior)
}

/// Every swap of two neighbouring, different digits: the text, how many times
/// as large it is, and its share among them.
fn swaps(entry: Option<&Entry>) -> Vec<(String, f64, f64)> {
    let Some(entry) = entry else {
        return Vec::new();
    };
    let text = entry.figure.text().trim();
    let digits: Vec<_> = text
        .char_indices()
        .take_while(|(_, c)| c.is_ascii_digit() || matches!(c, '.' | ','))
        .filter(|(_, c)| c.is_ascii_digit())
        .collect();
    let swapped = digits.windows(2).filter_map(|pair| {
        let [(i, a), (j, b)] = pair else { return None };
        // A nought before the point is no digit that was read, and nobody
        // writes 10.0 as 01.0.
        let leads = text[..*i].chars().all(|c| !matches!(c, '1'..='9'));
        let is_nought = *i == 0 && *a == '0' || leads && *b == '0';
        if a == b || is_nought {
            return None;
        }
        let mut chars: Vec<_> = text.char_indices().collect();
        for (at, c) in &mut chars {
            if at == i {
                *c = *b;
            } else if at == j {
                *c = *a;
            }
        }
        let text: String = chars.into_iter().map(|(_, c)| c).collect();
        let figure = Figure::parse(&text).ok()??;
        let ratio = figure.value() / entry.figure.value();
        (ratio > 0.0).then_some((text, ratio))
    });
    let swapped: Vec<_> = swapped.collect();
    let shares = u32::try_from(swapped.len()).unwrap_or(u32::MAX);
    swapped
        .into_iter()
        .map(|(text, ratio)| (text, ratio, f64::from(shares).recip()))
        .collect()
}
