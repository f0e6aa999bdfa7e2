//! Two neighbouring digits in each other's place.

use crate::field::Field;
use crate::figure::Figure;
use crate::method::Method;
use crate::sheet::{Entry, Sheet};

use super::super::cause::Cause;
use super::super::observe::Observed;
use super::super::prior::rate;
use super::{Change, Mend, Part, entries, everywhere, frequency_change, whole};

/// In a reading of one row.
pub(super) fn of_row(sheet: &Sheet, seen: &Observed, at: usize) -> Vec<Part> {
    let row = &seen.rows[at];
    let entries = entries(sheet, seen, at);
    let length = match seen.method {
        Method::RippleTank => Field::Span,
        Method::StringLoops => Field::Length,
    };
    // A length along the string is judged by the string's whole length; one
    // that several rows have to the last digit is not swapped in one of them.
    let measured = seen.total_of(at).map_or(Some(at), |total| total.residual);
    let mut parts = Vec::new();
    for field in [length, Field::Dial, Field::Seconds] {
        let Some(entry) = entries.get(field) else {
            continue;
        };
        for (text, ratio, share) in swaps(entry) {
            let (change, jacobian) = match field {
                Field::Dial => (frequency_change(seen, Some(at), ratio), 1.0),
                Field::Seconds => (frequency_change(seen, Some(at), ratio.recip()), 1.0),
                // The model's density is one of ln λ; digits are swapped in λ.
                _ => match measured {
                    Some(measured) => (Change::Shift(vec![(measured, ratio.ln())]), ratio.recip()),
                    None => continue,
                },
            };
            parts.push(Part {
                row: Some(row.row),
                ..whole(
                    Cause::DigitsSwapped,
                    field,
                    change,
                    Mend::Text(text, ratio),
                    rate::DIGITS_SWAPPED * share * jacobian,
                )
            });
        }
    }
    parts
}

/// In a length of the known object.
pub(super) fn of_scale(sheet: &Sheet, seen: &Observed) -> Vec<Part> {
    let mut parts = Vec::new();
    for (field, power) in [(Field::ScaleImage, -1.0), (Field::ScaleTrue, 1.0)] {
        let Some(entry) = sheet.whole.get(field) else {
            continue;
        };
        for (text, ratio, share) in swaps(entry) {
            parts.push(whole(
                Cause::DigitsSwapped,
                field,
                everywhere(seen, power * ratio.ln()),
                Mend::Text(text, ratio),
                rate::DIGITS_SWAPPED * share / ratio,
            ));
        }
    }
    parts
}

/// Every swap of two neighbouring, different digits: the text, how many times
/// as large it is, and its share among them.
fn swaps(entry: &Entry) -> Vec<(String, f64, f64)> {
    let text = entry.figure.text().trim();
    let digits: Vec<_> = text
        .char_indices()
        .take_while(|(_, c)| c.is_ascii_digit() || matches!(c, '.' | ','))
        .filter(|(_, c)| c.is_ascii_digit())
        .collect();
    let swapped = digits.windows(2).filter_map(|pair| {
        let [(i, a), (j, b)] = pair else { return None };
        // A nought before the point is no digit that was read.
        let is_nought = *i == 0 && *a == '0';
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
