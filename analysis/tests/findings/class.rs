//! What groups of one class and kit tell of each other.

use analysis::field::Field;
use analysis::reading::{Cause, Inference, Placed, infer};
use analysis::sheet::{Sheet, TypedSheet};
use simulator::kit::Tank;

use super::{cell, checked, more, retype, slips, tank, times, used_water};

/// A group's own errors: one span a millimetre or two longer, another in each
/// of twelve groups.
fn own(sheet: &TypedSheet, group: usize) -> TypedSheet {
    let mut sheet = sheet.clone();
    let by = if group < 6 { 0.1 } else { 0.2 };
    retype(&mut sheet, Some(group % 6), Field::Span, |text| {
        format!("{:.1}", text.parse::<f64>().expect("a span") + by)
    });
    sheet
}

/// Twelve groups on three tanks, told by their sheets, each with errors of its
/// own.
fn class(sheets: &[TypedSheet]) -> Vec<Inference> {
    let groups = sheets.iter().enumerate();
    let sheets: Vec<Sheet> = groups.map(|(group, s)| checked(&own(s, group))).collect();
    on_three_tanks(&sheets)
}

fn on_three_tanks(sheets: &[Sheet]) -> Vec<Inference> {
    let kits = ["Tank 1", "Tank 2", "Tank 3"];
    let placed: Vec<_> = sheets
        .iter()
        .enumerate()
        .map(|(at, sheet)| Placed {
            sheet,
            kit: kits[at % 3],
        })
        .collect();
    infer(&placed)
}

fn probability(inference: &Inference, cause: Cause) -> f64 {
    let mut of_cause = inference
        .findings
        .iter()
        .filter(|found| found.cause == cause);
    of_cause.next().map_or(0.0, |found| found.probability)
}

/// The physics says which half is right.
#[test]
fn half_a_class_that_counted_from_one_is_told_from_the_other_half() {
    let mut counted = tank(used_water());
    retype(&mut counted, None, Field::LastCrest, more(1));
    let sheets: Vec<_> = (0..12)
        .map(|at| {
            if at < 6 {
                counted.clone()
            } else {
                tank(used_water())
            }
        })
        .collect();
    for (at, inference) in class(&sheets).iter().enumerate() {
        let p = probability(inference, Cause::CountedFromOne);
        assert!(
            if at < 6 { p > 0.95 } else { p < 0.05 },
            "{at}: {inference:?}"
        );
    }
}

/// So does it where all of them did.
#[test]
fn a_whole_class_that_counted_from_one_is_told() {
    let mut counted = tank(used_water());
    retype(&mut counted, None, Field::LastCrest, more(1));
    for inference in class(&vec![counted; 12]) {
        assert!(
            probability(&inference, Cause::CountedFromOne) > 0.9,
            "{inference:?}"
        );
    }
}

/// All groups of Tank 2 have wavelengths 9 % long; nobody else has.
#[test]
fn a_factor_common_to_a_kit_is_the_kits() {
    let sheets: Vec<_> = (0..12)
        .map(|at| {
            let mut sheet = tank(used_water());
            if at % 3 == 1 {
                retype(&mut sheet, None, Field::Span, times(1.09, 1));
            }
            sheet
        })
        .collect();
    for (at, inference) in class(&sheets).iter().enumerate() {
        let of_kit: f64 = inference
            .findings
            .iter()
            .filter(|found| matches!(found.cause, Cause::LampOff | Cause::DialOff))
            .map(|found| found.probability)
            .sum();
        assert!(
            if at % 3 == 1 {
                of_kit > 0.9
            } else {
                of_kit < 0.1
            },
            "{at}: {inference:?}"
        );
        assert!(
            slips(inference).all(|f| f.probability < 0.1),
            "{at}: {inference:?}"
        );
    }
}

/// A deeper tank than its card says shows in the slow waves of all its groups,
/// and hides no row's slip.
#[test]
fn a_kit_with_another_depth_does_not_hide_a_rows_slip() {
    let deep = Tank {
        depth: 9.0,
        ..used_water()
    };
    let sheets: Vec<_> = (0..12)
        .map(|at| {
            let mut sheet = tank(if at % 3 == 0 { deep } else { used_water() });
            if at == 3 {
                retype(&mut sheet, Some(4), Field::LastCrest, more(-1));
            }
            sheet
        })
        .collect();
    let inferences = class(&sheets);
    for (at, cause, is_told) in [
        (0, Cause::DepthOff, true),
        (3, Cause::DepthOff, true),
        (3, Cause::CrestMiscount, true),
        (1, Cause::DepthOff, false),
    ] {
        let (found, inference) = (probability(&inferences[at], cause), &inferences[at]);
        let is_right = if is_told { found > 0.8 } else { found < 0.05 };
        assert!(is_right, "{at}, {cause:?}: {inference:?}");
    }
}

/// Twelve sheets of one set of readings are one witness and not twelve.
#[test]
fn a_shared_set_of_readings_counts_once() {
    let mut odd = tank(used_water());
    retype(&mut odd, Some(2), Field::LastCrest, more(1));
    let of_class = on_three_tanks(&vec![checked(&odd); 12]);
    let alone = super::alone(&odd);
    assert!(
        of_class.iter().all(|inference| *inference == alone),
        "{of_class:?}"
    );
}

/// One sheet's answer does not hang on the order of the class, nor on sheets
/// of the other method.
#[test]
fn the_order_of_the_class_does_not_matter() {
    let mut odd = tank(used_water());
    retype(&mut odd, Some(2), Field::LastCrest, more(1));
    let mut small = tank(used_water());
    small.whole.insert(Field::Depth, cell("6.0", ""));
    let sheets = [odd, tank(used_water()), small, tank(used_water())].map(|s| checked(&s));
    let string = checked(&super::string(true));
    let place = |sheet, kit| Placed { sheet, kit };
    let forwards: Vec<_> = sheets.iter().map(|sheet| place(sheet, "Tank 1")).collect();
    let mut backwards: Vec<_> = forwards.iter().rev().copied().collect();
    backwards.push(place(&string, "String 1"));
    let (one, other) = (infer(&forwards), infer(&backwards));
    for (at, inference) in one.iter().enumerate() {
        let same = &other[3 - at];
        assert_eq!(inference.findings.len(), same.findings.len(), "{at}");
        // Products are taken in another order: a few roundings.
        for (a, b) in inference.findings.iter().zip(&same.findings) {
            assert_eq!((a.cause, a.row), (b.cause, b.row), "{at}");
            let scatter = (a.probability - b.probability).abs();
            // The string's sheet says a little of how the class scatters.
            assert!(scatter < 0.05, "{at}: {a:?} {b:?}");
        }
    }
}
