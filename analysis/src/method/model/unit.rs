//! A length in another unit than the one that stands beside it: 504 cm for
//! 504 mm.

use crate::cause::Cause;
use crate::entry::{Entries, Entry};
use crate::field::Field;
use crate::figure::significant;
use crate::method::prior::rate;
use crate::method::spec::Spec;
use crate::unit::Unit;

use super::observe::Seen;
use super::part::{Change, Mend, Part};

/// The units of a ruler.
const LENGTHS: [Unit; 3] = [Unit::Millimetre, Unit::Centimetre, Unit::Metre];

/// In the lengths of every row, or in one length of the sheet. The wavelength
/// goes with so high a power of it.
pub(crate) fn of_sheet(sheet: &Seen<'_>, spec: &Spec, field: Field, power: f64) -> Vec<Part> {
    let rows = 0..sheet.seen.rows.len();
    let mut of_rows = rows.filter_map(|at| sheet.entries(at).get(field));
    let Some(first) = of_rows.next().or_else(|| sheet.whole.get(field)) else {
        return Vec::new();
    };
    let part = |ratio: f64| {
        let change = Change::everywhere(sheet.seen, power * ratio.ln());
        let odds = odds(sheet, spec, (field, None), ratio);
        written(first, field, change, ratio, rate::UNIT_MIXED * odds)
    };
    others(first).map(part).collect()
}

/// In the length of one row.
pub(crate) fn of_row(sheet: &Seen<'_>, spec: &Spec, at: usize) -> Vec<Part> {
    let seen = sheet.seen;
    let entry = sheet.entries(at).get(seen.length);
    let (Some(entry), Some(measured)) = (entry, seen.of_length(at)) else {
        return Vec::new();
    };
    let part = |ratio: f64| {
        let change = Change::Shift(vec![(measured, ratio.ln())]);
        let odds = odds(sheet, spec, (seen.length, Some(at)), ratio);
        let rate = rate::UNIT_MIXED_ROW * odds;
        written(entry, seen.length, change, ratio, rate).of_row(seen.rows[at].row)
    };
    others(entry).map(part).collect()
}

/// How many times as large a figure would be in each of the other units.
fn others(entry: &Entry) -> impl Iterator<Item = f64> + use<> {
    let own = entry.reading_unit().unwrap_or(Unit::Metre);
    let others = LENGTHS.into_iter().filter(move |unit| *unit != own);
    others.map(move |unit| unit.si() / own.si())
}

/// 1 where every reading of the sheet is a usual one once the field, of one row
/// or wherever it stands, is so many times as large: of two lengths that may be
/// in another unit, it is the one that leaves a bench as benches are.
fn odds(sheet: &Seen<'_>, spec: &Spec, changed: (Field, Option<usize>), ratio: f64) -> f64 {
    let is_usual = |entries: &Entries, at: Option<usize>| {
        spec.usual.iter().all(|(field, least, most)| {
            let is_changed = *field == changed.0 && (changed.1.is_none() || changed.1 == at);
            let times = if is_changed { ratio } else { 1.0 };
            let value = entries.si(*field).map(|value| value * times);
            value.is_none_or(|value| (*least..=*most).contains(&value))
        })
    };
    let mut rows = 0..sheet.seen.rows.len();
    if is_usual(sheet.whole, None) && rows.all(|at| is_usual(sheet.entries(at), Some(at))) {
        1.0
    } else {
        rate::UNUSUAL_LENGTH
    }
}

fn written(entry: &Entry, field: Field, change: Change, ratio: f64, rate: f64) -> Part {
    let text = significant(entry.figure.value() * ratio, entry.figure.figures());
    let mend = Mend::Text(text, ratio);
    Part::whole(Cause::UnitPowerOfTen, field, change, mend, rate / 2.0)
}
