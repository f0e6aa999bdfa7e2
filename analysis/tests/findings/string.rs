//! Slips on a sheet from a stretched string, judged alone.

use analysis::field::Field;
use analysis::reading::Cause;
use analysis::slip::Kind;

use super::{alone, cell, first, more, retype, string, times};
use crate::pupil::number;

#[test]
fn a_clean_sheet_is_left_alone_with_and_without_masses() {
    for masses in [false, true] {
        let inference = alone(&string(masses));
        assert!(inference.no_slip > 0.95, "{inference:?}");
        assert!(inference.findings.is_empty(), "{inference:?}");
    }
}

#[test]
fn a_row_out_by_a_loop_is_told() {
    let mut sheet = string(false);
    for field in [Field::Loops, Field::LengthLoops] {
        retype(&mut sheet, Some(3), field, more(1));
    }
    let inference = alone(&sheet);
    let found = first(&inference, Cause::LoopMiscount, Some(3));
    assert!(found.probability > 0.8, "{found:?}");
    let counts = found.counts.map(|counts| (counts.fits, counts.written));
    assert_eq!(counts, Some((4.0, 5.0)), "{found:?}");
}

/// The rows then miss the origin by one loop: no speed is needed to see it.
#[test]
fn nodes_counted_in_every_row_are_told_without_masses() {
    let mut sheet = string(false);
    for field in [Field::Loops, Field::LengthLoops] {
        retype(&mut sheet, None, field, more(1));
    }
    let inference = alone(&sheet);
    let found = first(&inference, Cause::NodesCountedAsLoops, None);
    assert!(found.probability > 0.9, "{found:?}");
}

/// One loop was measured, and the loops seen were written: the speed is right
/// whatever was counted, but the whole string's length is not.
#[test]
fn loops_seen_are_judged_by_the_strings_whole_length() {
    let mut sheet = string(false);
    for row in &mut sheet.rows {
        let loops = number(row, Field::Loops);
        row.cells
            .insert(Field::Length, cell(&format!("{:.3}", 1.2 / loops), "m"));
        row.cells.insert(Field::LengthLoops, cell("1", ""));
    }
    assert!(alone(&sheet).no_slip > 0.95, "clean");
    retype(&mut sheet, Some(2), Field::Loops, more(1));
    let inference = alone(&sheet);
    let found = first(&inference, Cause::LoopMiscount, Some(2));
    assert!(
        found.probability > 0.8 && found.step == Field::Loops,
        "{found:?}"
    );
}

#[test]
fn a_string_that_is_not_the_one_weighed_is_the_apparatus() {
    let mut sheet = string(true);
    sheet.whole.insert(Field::StringMass, cell("2.18", ""));
    let inference = alone(&sheet);
    let found = first(&inference, Cause::StringStretched, None);
    assert!(
        found.is_tie && found.cause.kind() == Kind::Apparatus,
        "{found:?}"
    );
    assert_eq!(
        found.rival.map(|r| r.cause),
        Some(Cause::DialOff),
        "one of these two"
    );
    assert!(inference.no_slip > 0.8, "{inference:?}");
}

/// No school's string runs at 3 m/s, weighed or not.
#[test]
fn a_multiplier_that_was_not_written_down_is_told_by_the_speed() {
    for masses in [true, false] {
        let mut sheet = string(masses);
        retype(&mut sheet, None, Field::Dial, times(0.1, 2));
        let inference = alone(&sheet);
        let found = first(&inference, Cause::DialMultiplierLeftOut, None);
        assert!(found.probability > 0.8, "{found:?}");
    }
}
