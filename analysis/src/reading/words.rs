//! A finding in words: what was read and what would fit, an invitation to look
//! again, and why.

use crate::cause::Cause;
use crate::field::Field;
use crate::figure::significant;
use crate::method::model::part::{Mend, Part};
use crate::sheet::{Entries, Entry};

use super::case::Case;
use super::mend::Fit;
use super::posterior::What;

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

fn apparatus(case: &Case<'_>) -> &'static str {
    case.sheet.method.spec().nouns.apparatus
}

fn label<'c>(case: &'c Case<'_>, row: Option<usize>) -> &'c str {
    row.map_or("", |row| case.sheet.rows[row].label.trim())
}

/// An invitation to look again, never a verdict.
pub(super) fn invitation(case: &Case<'_>, (cause, row): What, part: Option<&Part>) -> String {
    let (given, expected) = part.map_or_else(Default::default, |part| readings(case, part));
    let (row, up) = (label(case, row), apparatus(case));
    match cause {
        Cause::CountedFromOne => format!(
            "Every row would fit with one wave fewer than was written. Was the first line called nought, or one? Worth counting one span again while the {up} is up."
        ),
        Cause::CrestMiscount | Cause::LoopMiscount => miscount(case, row, part),
        Cause::NodesCountedAsLoops => format!(
            "Every row would fit with one loop fewer than was written. Were the bulges counted, or the still points? Worth counting again while the {up} is up."
        ),
        Cause::DialMultiplierLeftOut if row.is_empty() => format!(
            "The rows would fit with the dial’s multiplier at {expected}. Worth a look at the range switch while the {up} is up."
        ),
        Cause::DialMultiplierLeftOut => format!(
            "Row {row} would fit the others with the dial’s multiplier at {expected}. Worth a look at the range switch while the {up} is up."
        ),
        Cause::ScaleUpsideDown => "The rows would fit if the length on the screen and the true length were each in the other’s box. Worth asking which was which.".to_owned(),
        Cause::DigitsSwapped if row.is_empty() => format!(
            "The rows would fit if {given} were {expected}, two digits the other way round. Worth a look at what was first written down."
        ),
        Cause::DigitsSwapped => format!(
            "Row {row} would fit the others if {given} were {expected}, two digits the other way round. Worth a look at what was first written down."
        ),
        Cause::CrestToTrough => format!(
            "Every row would fit with half as many waves. Was it counted from bright to dark, or from bright to bright? Worth counting one span again while the {up} is up."
        ),
        Cause::ZeroError => format!(
            "The rows would fit with the same few millimetres more or less on every span, as when the ruler’s end is taken for its nought. Worth measuring one span again from a whole number while the {up} is up."
        ),
        Cause::StrobeAtHalf => format!(
            "The rows would fit with twice the frequency. A lamp flashing at half the dipper’s rate shows the same still picture. Worth raising the rate once more while the {up} is up."
        ),
        Cause::DirtyWater => "These waves are slow, those of high frequency most, as on greasy or soapy water. Worth rinsing the tank and filling it afresh.".to_owned(),
        Cause::DepthOff => "The waves of low frequency do not fit the depth that is written down. Worth measuring the depth again.".to_owned(),
        Cause::LampOff => "All wavelengths here seem to be out by one factor, as when the lamp or the screen has moved since the enlargement was measured. Worth measuring the known object again.".to_owned(),
        Cause::DialOff => "All frequencies here seem to be out by one factor, as when a dial reads high or low. Worth counting one frequency by hand.".to_owned(),
        Cause::StringStretched => "The speed does not fit the masses that are written down, as when a string has stretched or is another one. Worth weighing the string again, and the mass on it, hanger included.".to_owned(),
    }
}

fn miscount(case: &Case<'_>, row: &str, part: Option<&Part>) -> String {
    let Some(part) = part else {
        return String::new();
    };
    let Mend::Count(by) = part.mend else {
        return String::new();
    };
    let at = case
        .seen
        .rows
        .iter()
        .position(|seen| Some(seen.row) == part.row);
    let at = at.unwrap_or(0);
    let count = match (part.step, case.seen.total_of(at)) {
        (Field::Loops, Some(total)) => total.loops,
        _ => case.seen.rows[at].waves,
    };
    let (one, many) = case.sheet.method.spec().nouns.counted;
    let fits = (count + by).round();
    let (what, were) = if fits > 1.5 {
        (many, "were")
    } else {
        (one, "was")
    };
    format!(
        "Row {row} would fit the others if {fits} {what} {were} counted, not {count}. Worth counting again while the {} is up.",
        apparatus(case)
    )
}

/// `7 % short`; to a whole per cent from 2 % up, and `as expected` where nothing is left to tell.
fn off(share: f64) -> String {
    let per_cent = 100.0 * share.abs();
    if per_cent < 0.05 {
        return "as expected".to_owned();
    }
    let size = if per_cent >= 1.5 {
        format!("{per_cent:.0}")
    } else {
        format!("{per_cent:.1}")
    };
    let way = if share < 0.0 { "short" } else { "long" };
    format!("{size} % {way}")
}

/// Why it is thought so.
pub(super) fn why(case: &Case<'_>, what: What, part: Option<&Part>, fit: &Fit) -> String {
    let lengths = case.sheet.method.spec().nouns.against;
    match (part, what.1) {
        (Some(_), Some(row)) => format!(
            "As written, the wavelength of row {} is {} beside the other rows; mended, {}.",
            label(case, Some(row)),
            off(fit.before),
            off(fit.after),
        ),
        (Some(_), None) if what.0 == Cause::ZeroError => {
            "A constant on every span puts the shortest spans out most, and these rows look like that.".to_owned()
        }
        (Some(_), None) if what.0 == Cause::NodesCountedAsLoops => format!(
            "As written, the rows do not lie on one line through the origin; mended, they do. The middle row moves from {} to {}.",
            off(fit.before),
            off(fit.after),
        ),
        (Some(_), None) => format!(
            "As written, wavelengths are typically {} {lengths}; mended, {}.",
            off(fit.before),
            off(fit.after),
        ),
        (None, _) => format!("Wavelengths are typically {} {lengths}.", off(fit.before)),
    }
}
