//! Checks of the working: what follows from the group's own figures.

use super::Suggestion;
use super::charge::count;
use super::evidence::{Work, counted, for_rows, shown};
use super::{Place, Why};
use crate::assess::Standing;
use crate::field::Field;
use crate::slip::Slip;
use crate::working::{Comparison, Flag, Verdict};

/// One mark less for each slip, with the first of them written out; `None`
/// where there is none.
fn less(work: &Work<'_>, marks: u32, slips: &[&Flag]) -> Option<Suggestion> {
    let first = slips.first()?;
    let lost = u32::try_from(count(slips)).unwrap_or(marks);
    let why = Why::Slips {
        place: place(work, first),
        slip: first.slip,
        sum: first.arithmetic.clone(),
        given: first.given.clone(),
        more: count(slips).saturating_sub(1),
        cost: count(slips).min(marks as usize),
    };
    Some(shown(marks.saturating_sub(lost), why))
}

fn place(work: &Work<'_>, flag: &Flag) -> Place {
    let row = flag.row.and_then(|row| work.assessment.rows.get(row));
    Place {
        field: flag.step,
        row: row.map(|row| row.label.clone()),
    }
}

/// A figure of each row: itself, or a later one that needs it.
pub(super) fn column(work: &Work<'_>, marks: u32, slips: &[&Flag], fields: &[Field]) -> Suggestion {
    if let Some(suggestion) = less(work, marks, slips) {
        return suggestion;
    }
    let (rows, figure) = (work.rows().len(), fields[0]);
    match work.worked(fields) {
        0 => counted(0, Why::NoneWorked(figure)),
        worked if worked == rows => shown(marks, Why::AllWorked(figure, rows)),
        worked => shown(
            for_rows(marks, worked, rows),
            Why::SomeWorked(figure, worked, rows),
        ),
    }
}

/// A figure of the whole sheet.
pub(super) fn whole(work: &Work<'_>, marks: u32, slips: &[&Flag], field: Field) -> Suggestion {
    if let Some(suggestion) = less(work, marks, slips) {
        return suggestion;
    }
    match comparison(work, field) {
        Some(found) if found.given.is_none() => counted(0, Why::Missing(field)),
        Some(found) if found.verdict == Verdict::Unjudged => counted(0, Why::Unjudged(field)),
        Some(_) => shown(marks, Why::Follows(field)),
        None => counted(0, Why::Missing(field)),
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
            return counted(0, Why::EnlargementUnused);
        }
        return shown(marks, Why::EnlargementUsed);
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
        return counted(0, Why::OneLength);
    }
    if work.rows().is_empty() {
        return counted(0, Why::NoReadings);
    }
    counted(marks, Why::NoObject)
}

pub(super) fn unit(work: &Work<'_>, marks: u32, slips: &[&Flag]) -> Suggestion {
    let results = [Field::Speed, Field::MeanSpeed, Field::Gradient];
    let has_speed = work.worked(&[Field::Speed]) > 0
        || work.has_whole(Field::MeanSpeed)
        || work.has_whole(Field::Gradient);
    if !has_speed && slips.is_empty() {
        return counted(0, Why::NoSpeed);
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
        Some(flag) => shown(marks - 1, Why::NoUnit(place(work, flag))),
        None => shown(marks, Why::UnitsKept),
    }
}

pub(super) fn mean(work: &Work<'_>, marks: u32, slips: &[&Flag]) -> Suggestion {
    let mut suggestion = whole(work, marks, slips, Field::MeanSpeed);
    let flags = &work.assessment.flags;
    if flags.iter().any(|f| f.slip == Slip::RowLeftOutUnsaid) {
        suggestion.why = Why::UnsaidRow;
    }
    let rows = work.assessment.rows.iter();
    let odd = rows.filter(|row| row.standing == Standing::Anomalous && !row.left_out);
    let odd: Vec<String> = odd.map(|row| row.label.clone()).collect();
    if suggestion.marks > 0 && !odd.is_empty() {
        suggestion.why = Why::WithOddRows(Box::new(suggestion.why), odd);
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
        return counted(0, Why::NothingWorked);
    }
    let mut flags = work.assessment.flags.iter();
    let remark = flags.find(|f| matches!(f.slip, Slip::TooFewFigures | Slip::TooManyFigures));
    match remark {
        Some(flag) => shown(
            marks - 1,
            Why::Figures(place(work, flag), flag.given.clone(), flag.slip),
        ),
        None => shown(marks, Why::FiguresCarried),
    }
}

pub(super) fn uncertainty(work: &Work<'_>, marks: u32) -> Suggestion {
    match comparison(work, Field::Uncertainty) {
        Some(Comparison {
            given: Some(given),
            verdict: Verdict::Wrong,
            arithmetic,
            ..
        }) => {
            let why = Why::Uncertainty(arithmetic.clone(), given.clone());
            shown(marks - 1, why)
        }
        _ => whole(work, marks, &[], Field::Uncertainty),
    }
}
