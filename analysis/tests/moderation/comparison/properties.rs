//! What no sample may do to its comparison.

use analysis::moderation::comparison::{
    Agreement, Comparison, Marks, Point, Sheet, Verdict, compare,
};
use analysis::moderation::settling::Tolerance;
use proptest::prelude::*;

use super::{TOLERANCE, near};

fn any_marks() -> impl Strategy<Value = Vec<Marks>> {
    let both = |most: i64| (0..=most, 0..=most);
    (both(8), both(2), both(10)).prop_map(|points| {
        let (a, b, c) = points;
        [(1, 8, a), (2, 2, b), (3, 10, c)]
            .map(|(point, most, (first, second))| Marks {
                point,
                most,
                first: Some(first),
                second: Some(second),
            })
            .to_vec()
    })
}

/// Up to thirty sheets of four markers.
fn any_sheets() -> impl Strategy<Value = Vec<Sheet>> {
    let sheet = (0..4_i64, 1..4_i64, any_marks());
    prop::collection::vec(sheet, 1..30).prop_map(|sheets| {
        (0..)
            .zip(sheets)
            .map(|(id, (first, further, marks))| Sheet {
                id,
                first_markers: vec![first],
                second_marker: (first + further) % 4,
                marks,
            })
            .collect()
    })
}

fn swapped(sheets: &[Sheet]) -> Vec<Sheet> {
    let turn = |marks: &Marks| Marks {
        first: marks.second,
        second: marks.first,
        ..*marks
    };
    let swap = |sheet: &Sheet| Sheet {
        first_markers: vec![sheet.second_marker],
        second_marker: sheet.first_markers[0],
        marks: sheet.marks.iter().map(turn).collect(),
        ..sheet.clone()
    };
    sheets.iter().map(swap).collect()
}

fn whole(sheets: &[Sheet]) -> Agreement {
    compare(sheets, TOLERANCE).whole.expect("a sheet or more")
}

/// By point, since equals may change places.
fn by_point(compared: &Comparison) -> Vec<Point> {
    let mut points = compared.points.clone();
    points.sort_by_key(|point| point.point);
    points
}

proptest! {
    #[test]
    fn swapping_first_and_second_turns_every_difference(sheets in any_sheets()) {
        let (one, other) = (compare(&sheets, TOLERANCE), compare(&swapped(&sheets), TOLERANCE));
        for (one, other) in one.sheets.iter().zip(&other.sheets) {
            prop_assert_eq!(one.difference(), -other.difference());
            prop_assert!(near(one.mean(), other.mean()));
        }
        // Whoever was a first marker is a second one, with the signs turned.
        prop_assert_eq!(one.first_markers.len(), other.second_markers.len());
        for (first, second) in one.first_markers.iter().zip(&other.second_markers) {
            prop_assert_eq!(first.person, second.person);
            prop_assert_eq!(&first.colleagues, &second.colleagues);
            let (a, b) = (&first.agreement, &second.agreement);
            prop_assert!(near(a.mean.value, -b.mean.value));
            prop_assert!(near(a.mean_absolute, b.mean_absolute));
            prop_assert_eq!((a.above, a.below), (b.below, b.above));
            prop_assert_eq!(a.within, b.within);
            match (&first.verdicts[0], &second.verdicts[0]) {
                (Verdict::SecondHigher { at_least: a }, Verdict::SecondLower { at_least: b })
                | (Verdict::SecondLower { at_least: a }, Verdict::SecondHigher { at_least: b }) => {
                    prop_assert!(near(*a, *b));
                }
                (a, b) => prop_assert_eq!(std::mem::discriminant(a), std::mem::discriminant(b)),
            }
        }
    }

    #[test]
    fn more_marks_throughout_move_the_mean_and_nothing_of_the_scatter(
        sheets in any_sheets(),
        more in 1..5_i64,
    ) {
        let mut generous = sheets.clone();
        for sheet in &mut generous {
            sheet.marks[0].second = sheet.marks[0].second.map(|second| second + more);
        }
        let (before, after) = (whole(&sheets), whole(&generous));
        prop_assert!(near(after.mean.value, before.mean.value + more as f64));
        match (before.sd, after.sd) {
            (Some(before), Some(after)) => prop_assert!(near(before, after)),
            (before, after) => prop_assert_eq!(before, after),
        }
    }

    #[test]
    fn order_of_the_sheets_is_nothing_to_it(
        (sheets, shuffled) in any_sheets().prop_flat_map(|sheets| {
            (Just(sheets.clone()), Just(sheets).prop_shuffle())
        }),
    ) {
        let (one, other) = (compare(&sheets, TOLERANCE), compare(&shuffled, TOLERANCE));
        prop_assert_eq!(one.whole, other.whole);
        prop_assert_eq!(one.coefficients, other.coefficients);
        prop_assert_eq!(one.first_markers, other.first_markers);
        prop_assert_eq!(one.second_markers, other.second_markers);
        prop_assert_eq!(one.points, other.points);
    }

    #[test]
    fn points_add_up_to_the_whole(sheets in any_sheets()) {
        let compared = compare(&sheets, TOLERANCE);
        let sum: f64 = compared.points.iter().map(|p| p.agreement.mean.value).sum();
        prop_assert!(near(sum, compared.whole.as_ref().unwrap().mean.value));
        let parts: f64 = compared.points.iter().filter_map(|p| p.part).sum();
        let is_disputed = compared.points.iter().any(|point| point.differing > 0);
        let all = if is_disputed { 1.0 } else { 0.0 };
        prop_assert!(near(parts, all));
    }

    #[test]
    fn people_share_out_the_sheets(sheets in any_sheets()) {
        let compared = compare(&sheets, TOLERANCE);
        for people in [&compared.first_markers, &compared.second_markers] {
            let n: usize = people.iter().map(|person| person.agreement.n).sum();
            prop_assert_eq!(n, sheets.len());
            prop_assert!(people.iter().all(|person| !person.verdicts.is_empty()));
            prop_assert!(people.iter().all(|person| !person.colleagues.contains(&person.person)));
        }
    }

    #[test]
    fn wider_tolerance_lets_no_fewer_pass(sheets in any_sheets(), wider in 3..9_i64) {
        let wide = Tolerance { total: wider, point: wider };
        let (narrow, wide) = (compare(&sheets, TOLERANCE), compare(&sheets, wide));
        let within = |compared: &Comparison| compared.whole.as_ref().map(|w| w.within.count);
        prop_assert!(within(&wide) >= within(&narrow));
        for (narrow, wide) in by_point(&narrow).iter().zip(by_point(&wide)) {
            prop_assert!(wide.agreement.within.count >= narrow.agreement.within.count);
        }
    }
}
