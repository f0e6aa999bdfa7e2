//! A round of twelve sheets and three markers.
//!
//! Worked out by hand from the formulas, with t = 4.302653, 2.776445, 2.570582
//! and 2.200985 for 2, 4, 5 and 11 degrees of freedom and z = 1.959964.

use analysis::moderation::comparison::{Coefficients, Comparison, Sheet, Verdict, compare};

use super::{TOLERANCE, near, person, sheet};

/// Marker 1 is severe; colleagues 2 and 3 mark those again. Where marker 1 marks
/// again what marker 2 gave, their differences cancel.
fn round() -> Vec<Sheet> {
    let of_first = [
        (1, [4, 0, 2], [4, 0, 3]),
        (2, [4, 1, 3], [4, 1, 5]),
        (3, [5, 2, 3], [5, 2, 4]),
        (4, [7, 0, 5], [7, 0, 7]),
        (5, [7, 1, 6], [7, 1, 7]),
        (6, [7, 2, 7], [7, 2, 9]),
    ];
    let of_second = [
        (7, [3, 0, 2], [3, 1, 4]),
        (8, [7, 2, 6], [7, 1, 4]),
        (9, [3, 1, 2], [3, 2, 5]),
        (10, [7, 1, 6], [7, 0, 3]),
        (11, [4, 0, 3], [4, 1, 4]),
        (12, [6, 2, 5], [6, 1, 4]),
    ];
    let mut sheets = Vec::new();
    for row in of_first {
        sheets.push(sheet(1, if row.0 <= 3 { 2 } else { 3 }, row));
    }
    sheets.extend(of_second.map(|row| sheet(2, 1, row)));
    sheets
}

fn compared() -> Comparison {
    compare(&round(), TOLERANCE)
}

#[test]
fn severe_marker_is_severe_by_at_least_the_near_end() {
    let compared = compared();
    let line = person(&compared.first_markers, 1);
    assert_eq!(line.colleagues, [2, 3]);
    let found = &line.agreement;
    // 1, 2, 1, 2, 1, 2: SD √0.3.
    assert_eq!((found.n, found.above, found.below), (6, 6, 0));
    assert!(near(found.mean.value, 1.5));
    let interval = found.mean.interval95.unwrap();
    assert!(near(interval.low, 0.925_200), "{interval:?}");
    assert!(near(interval.high, 2.074_800), "{interval:?}");
    assert!(near(found.mean_absolute, 1.5));
    assert!(near(found.sd.unwrap(), 0.547_723));
    assert_eq!((found.exact.count, found.within.count), (0, 6));
    // z²/(n + z²) and n/(n + z²).
    assert!(near(found.exact.interval95.unwrap().high, 0.390_334));
    assert!(near(found.within.interval95.unwrap().low, 0.609_666));
    // Of equals the lowest number.
    assert_eq!(found.largest.sheet, 2);
    assert!(near(found.largest.difference, 2.0));
    let [Verdict::SecondHigher { at_least }] = line.verdicts[..] else {
        panic!("{:?}", line.verdicts);
    };
    assert!(near(at_least, 0.925_200));
}

#[test]
fn limits_of_agreement_have_intervals() {
    let compared = compared();
    let limits = person(&compared.first_markers, 1).agreement.limits.unwrap();
    // 1.5 ∓ 1.96 × 0.547723, give or take 2.570582 × √(3 × 0.3/6).
    assert!(near(limits.lower.value, 0.426_464));
    assert!(near(limits.upper.value, 2.573_536));
    let upper = limits.upper.interval95.unwrap();
    assert!((upper.high - 3.569_118).abs() < 5e-6, "{upper:?}");
    assert!((upper.low - 1.577_954).abs() < 5e-6, "{upper:?}");
}

#[test]
fn differences_that_cancel_are_not_hidden() {
    let compared = compared();
    let line = person(&compared.first_markers, 2);
    // 3, −3, 4, −4, 2, −2.
    assert!(near(line.agreement.mean.value, 0.0));
    assert!(near(line.agreement.mean_absolute, 3.0));
    let Verdict::NoDifferenceShown { reach } = line.verdicts[0] else {
        panic!("{:?}", line.verdicts);
    };
    assert!((reach - 3.574_252).abs() < 5e-6, "{reach}");
    let cancelling = Verdict::Cancelling {
        outside: 4,
        above: 3,
        below: 3,
    };
    assert_eq!(line.verdicts[1..], [cancelling]);
}

#[test]
fn coefficients_are_those_of_the_whole_round() {
    let found = compared().coefficients;
    // (179/8 − 73/24)/(179/8 + 73/24).
    assert!(near(found.icc.unwrap().value, 0.760_656), "{found:?}");
    // 1 − (27/12)/(586/144).
    assert!(near(found.kappa.unwrap().value, 0.447_099), "{found:?}");
    let few = compare(&round()[..5], TOLERANCE).coefficients;
    assert_eq!(few, Coefficients::default());
}

#[test]
fn few_sheets_are_too_few_and_say_how_little_they_fix() {
    let compared = compared();
    let line = person(&compared.second_markers, 2);
    // 1, 2, 1.
    assert!(near(line.agreement.mean.value, 4.0 / 3.0));
    let [Verdict::TooFew { reach: Some(reach) }] = line.verdicts[..] else {
        panic!("{:?}", line.verdicts);
    };
    assert!(near(reach, 1.434_218), "{reach}");
    assert!(line.agreement.limits.is_none());
}

#[test]
fn whole_is_all_sheets() {
    let compared = compared();
    let whole = compared.whole.unwrap();
    assert_eq!((whole.n, whole.outside()), (12, 4));
    assert!(near(whole.mean.value, 0.75));
    assert!(near(whole.mean_absolute, 2.25));
    // √((73 − 6.75)/11).
    assert!(near(whole.sd.unwrap(), 2.454_125));
    assert_eq!(whole.largest.sheet, 9);
    let cancelling = Verdict::Cancelling {
        outside: 4,
        above: 9,
        below: 3,
    };
    assert_eq!(compared.verdicts[1..], [cancelling]);
    assert_eq!((compared.incomplete.len(), compared.shared.len()), (0, 0));
}

#[test]
fn points_that_cause_disagreement_come_first() {
    let compared = compared();
    let told: Vec<(i64, i64, usize)> = compared
        .points
        .iter()
        .map(|point| (point.point, point.most, point.differing))
        .collect();
    assert_eq!(told, [(30, 10, 12), (20, 2, 6), (10, 8, 0)]);
    // 21, 6 and 0 of 27 marks apart.
    let parts: Vec<f64> = compared.points.iter().filter_map(|p| p.part).collect();
    assert!(near(parts[0], 0.777_778) && near(parts[1], 0.222_222) && near(parts[2], 0.0));
    assert!(compared.points.iter().all(|p| p.agreement.limits.is_none()));
    // The tolerance of points is 1: seven of point 30’s are beyond it.
    assert_eq!(compared.points[0].agreement.outside(), 7);
}

#[test]
fn difference_plot_has_each_sheet_at_the_mean_of_both() {
    let compared = compared();
    let ninth = &compared.sheets[8];
    assert_eq!((ninth.sheet, ninth.first, ninth.second), (9, 6, 10));
    assert_eq!((ninth.difference(), ninth.is_within), (4, false));
    assert!(near(ninth.mean(), 8.0));
    assert!(compared.sheets[0].is_within);
}

#[test]
fn comparison_is_the_same_when_read_back() {
    let compared = compared();
    let text = serde_json::to_string(&compared).unwrap();
    let back: Comparison = serde_json::from_str(&text).unwrap();
    assert_eq!(back.points.len(), 3);
    assert_eq!(back.first_markers.len(), compared.first_markers.len());
    assert_eq!(back.sheets, compared.sheets);
    let (mean, before) = (back.whole.unwrap().mean, compared.whole.unwrap().mean);
    assert!(near(
        mean.interval95.unwrap().low,
        before.interval95.unwrap().low
    ));
}
