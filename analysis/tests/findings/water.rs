//! Slips on a sheet from a ripple tank, judged alone.

use analysis::assess::assess;
use analysis::field::Field;
use analysis::reading::Cause;
use analysis::sheet::TypedSheet;
use analysis::slip::{Kind, Slip};
use simulator::kit::Tank;

use super::{alone, cell, checked, first, more, retype, slips, tank, times, used_water};
use crate::pupil::number;

fn clean() -> TypedSheet {
    tank(used_water())
}

/// Works every wavelength out from the span and the last number called.
fn work_out(sheet: &mut TypedSheet, enlargement: f64) {
    for row in &mut sheet.rows {
        let waves = number(row, Field::LastCrest);
        let wavelength = number(row, Field::Span) / waves / enlargement;
        let wavelength = cell(&format!("{wavelength:.3}"), "cm");
        row.cells.insert(Field::Wavelength, wavelength);
    }
}

#[test]
fn a_clean_sheet_is_left_alone() {
    let inference = alone(&clean());
    assert!(inference.no_slip > 0.95, "{inference:?}");
    assert_eq!(slips(&inference).count(), 0, "{inference:?}");
}

#[test]
fn nothing_is_said_of_a_sheet_without_readings() {
    let mut sheet = clean();
    sheet.rows.clear();
    let inference = alone(&sheet);
    assert!(
        inference.no_slip >= 1.0 && inference.findings.is_empty(),
        "{inference:?}"
    );
}

#[test]
fn a_count_begun_at_one_is_told_from_dirt_by_its_shape() {
    let mut sheet = clean();
    retype(&mut sheet, None, Field::LastCrest, more(1));
    let inference = alone(&sheet);
    let found = first(&inference, Cause::CountedFromOne, None);
    assert!(found.probability > 0.8, "{found:?}");
    assert_eq!(
        (found.given.as_str(), found.expected.as_str()),
        ("0", "1"),
        "first line"
    );
    let mended = found.mended.expect("a slip can be mended");
    let right = assess(&checked(&clean())).speed.expect("six rows").value;
    assert!(
        mended.in_line && (mended.speed / right - 1.0).abs() < 1e-9,
        "{mended:?}"
    );
}

/// With both numbers recorded the group's own figures show it, and nothing is
/// left to infer.
#[test]
fn a_first_line_called_one_is_shown_not_inferred() {
    let mut sheet = clean();
    retype(&mut sheet, None, Field::FirstCrest, |_| "1".to_owned());
    retype(&mut sheet, None, Field::LastCrest, more(1));
    // λ from the last number alone: one wave too many.
    work_out(&mut sheet, 1.75);
    let inference = alone(&sheet);
    assert!(inference.no_slip > 0.95, "{inference:?}");
    let shown = assess(&checked(&sheet)).flags;
    assert!(
        shown.iter().any(|flag| flag.slip == Slip::CountedFromOne),
        "{shown:?}"
    );
}

#[test]
fn a_slip_in_the_readings_and_one_in_the_working_are_both_found() {
    let mut sheet = clean();
    retype(&mut sheet, Some(3), Field::LastCrest, more(1));
    work_out(&mut sheet, 1.0);
    let inference = alone(&sheet);
    assert!(
        first(&inference, Cause::CrestMiscount, Some(3)).probability > 0.8,
        "{inference:?}"
    );
    let shown = assess(&checked(&sheet)).flags;
    assert!(
        shown.iter().any(|flag| flag.slip == Slip::ScaleLeftOut),
        "{shown:?}"
    );
}

#[test]
fn a_row_out_by_a_wave_is_an_invitation_to_count_again() {
    let mut sheet = clean();
    retype(&mut sheet, Some(2), Field::LastCrest, more(1));
    let inference = alone(&sheet);
    let found = first(&inference, Cause::CrestMiscount, Some(2));
    assert!(found.probability > 0.8, "{found:?}");
    let counts = found.counts.map(|counts| (counts.fits, counts.written));
    assert_eq!(counts, Some((9.0, 10.0)), "{found:?}");
    assert_eq!(
        (found.given.as_str(), found.expected.as_str()),
        ("10", "9"),
        "last number"
    );
    assert!((found.misfit.before + 0.11).abs() < 0.01, "{found:?}");
}

#[test]
fn two_rows_out_are_both_told() {
    let mut sheet = clean();
    retype(&mut sheet, Some(1), Field::LastCrest, more(1));
    retype(&mut sheet, Some(4), Field::LastCrest, more(-1));
    let inference = alone(&sheet);
    let told: Vec<_> = inference
        .findings
        .iter()
        .filter(|found| found.probability > 0.5)
        .map(|found| (found.cause, found.row))
        .collect();
    assert!(
        told.contains(&(Cause::CrestMiscount, Some(1))),
        "{inference:?}"
    );
    assert!(
        told.contains(&(Cause::CrestMiscount, Some(4))),
        "{inference:?}"
    );
}

/// Swapped digits, a multiplier that was not written down for the sheet or for
/// a row, and lengths in each other's box: with what stands there and what
/// would fit.
#[test]
fn slips_of_the_pencil_are_told_with_both_figures() {
    type Change = fn(&mut TypedSheet);
    let swapped: Change = |sheet| {
        let span = sheet.rows[4].cells[&Field::Span].text.clone();
        assert_eq!(span, "17.0", "the figure below is this one, swapped");
        retype(sheet, Some(4), Field::Span, |_| "71.0".to_owned());
    };
    let no_multiplier: Change = |sheet| {
        for row in &mut sheet.rows {
            row.cells.remove(&Field::DialTimes);
        }
    };
    let one_multiplier: Change =
        |sheet| retype(sheet, Some(5), Field::DialTimes, |_| "1".to_owned());
    let lengths: Change = |sheet| {
        sheet.whole.insert(Field::ScaleImage, cell("10.0", "cm"));
        sheet.whole.insert(Field::ScaleTrue, cell("17.5", "cm"));
    };
    let multiplier = Cause::DialMultiplierLeftOut;
    for (change, event, least, figures) in [
        (
            swapped,
            (Cause::DigitsSwapped, Some(4)),
            0.5,
            ["71.0 cm", "17.0 cm"],
        ),
        (no_multiplier, (multiplier, None), 0.95, ["", "10"]),
        (one_multiplier, (multiplier, Some(5)), 0.95, ["1", "10"]),
        (
            lengths,
            (Cause::ScaleUpsideDown, None),
            0.95,
            ["10.0 cm", "17.5 cm"],
        ),
    ] {
        let mut sheet = clean();
        change(&mut sheet);
        let inference = alone(&sheet);
        let found = first(&inference, event.0, event.1);
        assert!(found.probability > least, "{found:?}");
        assert_eq!([&*found.given, &*found.expected], figures);
    }
}

/// They worked with the right figure and wrote another down: the next column
/// gives it away, though the swap is small.
#[test]
fn a_rows_own_wavelength_speaks_for_the_reading_that_gives_it() {
    let written = |worked: bool| {
        let mut sheet = clean();
        if worked {
            work_out(&mut sheet, 1.75);
        }
        retype(&mut sheet, Some(5), Field::Span, swapped_end);
        let inference = alone(&sheet);
        let mut found = inference.findings.into_iter();
        let found = found.find(|f| f.cause == Cause::DigitsSwapped && f.row == Some(5));
        found.map_or(0.0, |found| found.probability)
    };
    let (alone, with_working) = (written(false), written(true));
    assert!(
        with_working > 0.5 && with_working > alone,
        "{alone} {with_working}"
    );
}

/// The last two digits the other way round.
fn swapped_end(text: &str) -> String {
    let (head, tail) = text.split_once('.').expect("a decimal");
    let (front, last) = head.split_at(head.len() - 1);
    format!("{front}{tail}.{last}")
}

#[test]
fn half_waves_and_a_strobe_at_half_the_rate_are_parted_or_named_together() {
    let mut sheet = clean();
    retype(&mut sheet, None, Field::LastCrest, times(2.0, 0));
    let inference = alone(&sheet);
    assert!(
        first(&inference, Cause::CrestToTrough, None).probability > 0.9,
        "{inference:?}"
    );
    let mut sheet = clean();
    retype(&mut sheet, None, Field::Dial, times(0.5, 2));
    let inference = alone(&sheet);
    let found = &inference.findings[0];
    let rival = found.rival.map(|rival| rival.cause);
    assert!(found.probability > 0.9, "{inference:?}");
    assert!(
        found.cause == Cause::StrobeAtHalf || rival == Some(Cause::StrobeAtHalf),
        "{inference:?}"
    );
}

#[test]
fn dirty_water_is_the_tanks_and_not_a_slip() {
    let soapy = Tank {
        tension: 0.030,
        ..used_water()
    };
    let inference = alone(&tank(soapy));
    let found = first(&inference, Cause::DirtyWater, None);
    assert!(
        found.probability > 0.5 && found.cause.kind() == Kind::Apparatus,
        "{found:?}"
    );
    assert!(found.mended.is_none(), "nothing of theirs to mend");
    assert!(inference.no_slip > 0.5, "{inference:?}");
}

#[test]
fn a_row_that_nothing_explains_is_not_explained() {
    let mut sheet = clean();
    retype(&mut sheet, Some(2), Field::Span, times(1.35, 1));
    let inference = alone(&sheet);
    assert!(
        inference.findings.iter().all(|f| f.probability < 0.5),
        "{inference:?}"
    );
}

/// Spans of a picture whose enlargement was never measured, in a unit of their
/// own: far from anything.
#[test]
fn a_sheet_that_nothing_explains_is_accused_of_no_slip_and_not_called_clean() {
    let mut sheet = clean();
    retype(&mut sheet, None, Field::Span, times(3.3, 1));
    let inference = alone(&sheet);
    assert_eq!(slips(&inference).count(), 0, "{inference:?}");
    assert!(inference.no_slip < 0.1, "{inference:?}");
}
