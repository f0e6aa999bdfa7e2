//! Checks of the working: what follows from the group's own figures.

use super::Suggestion;
use super::charge::count;
use super::evidence::{Work, counted, for_rows, number_of, shown};
use crate::assess::Standing;
use crate::field::Field;
use crate::slip::Slip;
use crate::working::{Comparison, Flag, Verdict};

/// One mark less for each slip, with the first of them written out; `None`
/// where there is none.
fn less(work: &Work<'_>, marks: u32, slips: &[&Flag]) -> Option<Suggestion> {
    let first = slips.first()?;
    let lost = u32::try_from(count(slips)).unwrap_or(marks);
    let mut reason = format!("{}: {}", place(work, first), first.slip.short());
    if !first.arithmetic.is_empty() {
        reason.push_str(&format!(
            " ({}; they have {})",
            first.arithmetic, first.given
        ));
    }
    if lost > 1 {
        reason.push_str(&format!("; and {} more", lost - 1));
    }
    reason.push_str(&format!(
        ". That costs {} here; what follows from it costs nothing.",
        number_of(count(slips).min(marks as usize), "mark", "marks")
    ));
    Some(shown(marks.saturating_sub(lost), reason))
}

/// Where a slip is: `Wavelength, row 2`.
fn place(work: &Work<'_>, flag: &Flag) -> String {
    let row = flag.row.and_then(|row| work.assessment.rows.get(row));
    let label = flag.step.label();
    let mut letters = label.chars();
    let first = letters.next().map(|c| c.to_uppercase().to_string());
    let label = format!("{}{}", first.unwrap_or_default(), letters.as_str());
    match row {
        Some(row) => format!("{label}, row {}", row.label),
        None => label,
    }
}

/// A figure of each row.
pub(super) fn column(
    work: &Work<'_>,
    marks: u32,
    slips: &[&Flag],
    fields: &[Field],
    one: &str,
    many: &str,
) -> Suggestion {
    if let Some(suggestion) = less(work, marks, slips) {
        return suggestion;
    }
    let rows = work.rows().len();
    match work.worked(fields) {
        0 => counted(0, format!("No {one} is worked out.")),
        worked if worked == rows => shown(
            marks,
            format!(
                "{}, each following from the group’s own figures.",
                number_of(rows, one, many)
            ),
        ),
        worked => shown(
            for_rows(marks, worked, rows),
            format!(
                "{} worked out for {rows} rows, each following from the group’s own figures.",
                number_of(worked, one, many)
            ),
        ),
    }
}

/// A figure of the whole sheet.
pub(super) fn whole(work: &Work<'_>, marks: u32, slips: &[&Flag], field: Field) -> Suggestion {
    if let Some(suggestion) = less(work, marks, slips) {
        return suggestion;
    }
    let label = field.label();
    match comparison(work, field) {
        Some(found) if found.given.is_none() => counted(0, format!("There is no {label}.")),
        Some(found) if found.verdict == Verdict::Unjudged => {
            counted(0, format!("Nothing is known to judge the {label} by."))
        }
        Some(_) => shown(
            marks,
            format!("The {label} follows from the group’s own figures."),
        ),
        None => counted(0, format!("There is no {label}.")),
    }
}

fn comparison<'w>(work: &'w Work<'_>, field: Field) -> Option<&'w Comparison> {
    let mut comparisons = work.assessment.comparisons.iter();
    comparisons.find(|comparison| comparison.field == field)
}

pub(super) fn enlargement_found(work: &Work<'_>, marks: u32, slips: &[&Flag]) -> Suggestion {
    if work.assessment.magnification.is_none() && !work.has_whole(Field::Magnification) {
        return no_enlargement(work, marks, slips);
    }
    let is_used = work.worked(&[Field::Wavelength, Field::Reciprocal, Field::Speed]) > 0;
    if slips.is_empty() && !work.has_whole(Field::Magnification) && is_used {
        let lost = work
            .assessment
            .flags
            .iter()
            .any(|flag| flag.slip == Slip::ScaleLeftOut);
        if lost {
            return counted(
                0,
                "The enlargement is neither written down nor used.".to_owned(),
            );
        }
        return shown(
            marks,
            "Not written down, but the wavelengths were worked out with it.".to_owned(),
        );
    }
    whole(work, marks, slips, Field::Magnification)
}

/// Where no object of known size was measured.
pub(super) fn no_enlargement(work: &Work<'_>, marks: u32, slips: &[&Flag]) -> Suggestion {
    if let Some(suggestion) = less(work, marks, slips) {
        return suggestion;
    }
    let one = [Field::ScaleImage, Field::ScaleTrue].map(|field| work.has_whole(field));
    if one.contains(&true) {
        return counted(
            0,
            "Only one of the object’s two lengths was measured.".to_owned(),
        );
    }
    if work.rows().is_empty() {
        return counted(0, "There are no complete readings yet.".to_owned());
    }
    counted(
        marks,
        "No object of known size was measured: right where the waves were measured in the water itself.".to_owned(),
    )
}

pub(super) fn unit(work: &Work<'_>, marks: u32, slips: &[&Flag]) -> Suggestion {
    let results = [Field::Speed, Field::MeanSpeed, Field::Gradient];
    let has_speed = work.worked(&[Field::Speed]) > 0
        || work.has_whole(Field::MeanSpeed)
        || work.has_whole(Field::Gradient);
    if !has_speed && slips.is_empty() {
        return counted(0, "There is no speed to give a unit to.".to_owned());
    }
    if let Some(suggestion) = less(work, marks, slips) {
        return suggestion;
    }
    let missing = work
        .assessment
        .flags
        .iter()
        .find(|flag| flag.slip == Slip::UnitMissing && results.contains(&flag.step));
    match missing {
        Some(flag) => shown(
            marks - 1,
            format!("{}: there is no unit.", place(work, flag)),
        ),
        None => shown(
            marks,
            "Speeds have a unit, and no length was mixed up with another unit’s.".to_owned(),
        ),
    }
}

pub(super) fn mean(work: &Work<'_>, marks: u32, slips: &[&Flag]) -> Suggestion {
    let mut suggestion = whole(work, marks, slips, Field::MeanSpeed);
    let flags = &work.assessment.flags;
    if flags.iter().any(|f| f.slip == Slip::RowLeftOutUnsaid) {
        suggestion.reason =
            "It is the mean without one reading that was not marked as left out.".to_owned();
    }
    let rows = work.assessment.rows.iter();
    let odd = rows.filter(|row| row.standing == Standing::Anomalous && !row.left_out);
    let odd: Vec<&str> = odd.map(|row| row.label.as_str()).collect();
    if suggestion.marks > 0 && !odd.is_empty() {
        suggestion.reason.push_str(&format!(
            " Row {} does not belong with the others and was not marked as an anomaly: judge it by eye.",
            odd.join(", ")
        ));
    }
    suggestion
}

pub(super) fn figures(work: &Work<'_>, marks: u32) -> Suggestion {
    let has_working = work
        .assessment
        .comparisons
        .iter()
        .any(|c| c.given.is_some());
    if !has_working {
        return counted(0, "Nothing is worked out.".to_owned());
    }
    let mut flags = work.assessment.flags.iter();
    let remark = flags.find(|f| matches!(f.slip, Slip::TooFewFigures | Slip::TooManyFigures));
    match remark {
        Some(flag) => shown(
            marks - 1,
            format!(
                "{}, {}: {}.",
                place(work, flag),
                flag.given,
                flag.slip.short()
            ),
        ),
        None => shown(
            marks,
            "Worked figures carry what the readings carry.".to_owned(),
        ),
    }
}

pub(super) fn uncertainty(work: &Work<'_>, marks: u32) -> Suggestion {
    match comparison(work, Field::Uncertainty) {
        Some(Comparison {
            given: Some(given),
            verdict: Verdict::Wrong,
            arithmetic,
            ..
        }) => shown(marks - 1, format!("{arithmetic}; they have {given}.")),
        _ => whole(work, marks, &[], Field::Uncertainty),
    }
}
