//! The six intraclass correlations.

use analysis::stats::agreement::{Coefficient, IntraclassCorrelations, intraclass_correlations};

use super::{digits, load, number, numbers, rounds_to, rows};

const PRESENT: &str = "a coefficient";

fn by_name(found: &IntraclassCorrelations) -> [(&'static str, Coefficient); 6] {
    let (one, random, mixed) = (found.one_way, found.two_way_random, found.two_way_mixed);
    [
        ("ICC(1,1)", one.single.expect(PRESENT)),
        ("ICC(2,1)", random.single.expect(PRESENT)),
        ("ICC(3,1)", mixed.single.expect(PRESENT)),
        ("ICC(1,k)", one.average.expect(PRESENT)),
        ("ICC(2,k)", random.average.expect(PRESENT)),
        ("ICC(3,k)", mixed.average.expect(PRESENT)),
    ]
}

#[test]
fn six_targets_by_four_judges() {
    let data = load(include_str!("data/icc.json"));
    let table: Vec<Vec<f64>> = rows(&data["table"]).iter().map(numbers).collect();
    let found = intraclass_correlations(&table).unwrap();
    assert_eq!((found.sheets, found.markers), (6, 4));
    for (name, icc) in by_name(&found) {
        let printed = &data["published"][name];
        assert!(rounds_to(icc.value, printed), "{name}: {icc:?}");
        let theirs = number(&data["pingouin_values"][name]);
        assert!(digits(icc.value, theirs) > 13.0, "{name}: {icc:?}");
        let interval = icc.interval95.unwrap();
        let printed = &data["pingouin_intervals"][name];
        assert!(rounds_to(interval.low, &printed[0]), "{name}: {interval:?}");
        assert!(
            rounds_to(interval.high, &printed[1]),
            "{name}: {interval:?}"
        );
        let Some(printed) = data["psych_intervals"].get(name) else {
            continue;
        };
        assert!(rounds_to(interval.low, &printed[0]), "{name}: {interval:?}");
        assert!(
            rounds_to(interval.high, &printed[1]),
            "{name}: {interval:?}"
        );
    }
}

/// The trap in the data: judges of different severity agree on the order.
#[test]
fn only_the_random_markers_show_a_severe_one() {
    let severe = vec![
        vec![9.0, 6.0],
        vec![5.0, 2.0],
        vec![7.0, 4.0],
        vec![8.0, 5.0],
    ];
    let found = intraclass_correlations(&severe).unwrap();
    let mixed = found.two_way_mixed.single.unwrap();
    assert!((mixed.value - 1.0).abs() < 1e-12, "{mixed:?}");
    // By hand: B 35/6, J 18, E 0; B/(B + 2 J/4).
    let random = found.two_way_random.single.unwrap();
    assert!((random.value - 35.0 / 89.0).abs() < 1e-12, "{random:?}");
}

#[test]
fn full_agreement_is_one_with_no_room_about_it() {
    let table = vec![vec![0.1, 0.1], vec![0.7, 0.7], vec![0.3, 0.3]];
    let found = intraclass_correlations(&table).unwrap();
    for (name, icc) in by_name(&found) {
        let interval = icc.interval95.unwrap();
        assert!((icc.value - 1.0).abs() < 1e-12, "{name}: {icc:?}");
        assert!(
            (interval.low - 1.0).abs() < 1e-12 && interval.high <= 1.0,
            "{name}: {icc:?}"
        );
    }
}

#[test]
fn tables_with_nothing_to_compare_have_no_correlation() {
    let none = |table: &[Vec<f64>]| assert_eq!(intraclass_correlations(table), None);
    none(&[]);
    none(&[vec![1.0, 2.0]]);
    none(&[vec![1.0], vec![2.0]]);
    none(&[vec![1.0, 2.0], vec![2.0]]);
    none(&[vec![0.1, 0.1], vec![0.1, 0.1]]);
    none(&[vec![1.0, f64::NAN], vec![2.0, 3.0]]);
    // Sheets that do not differ on the mean: nothing to divide by.
    let crossed = intraclass_correlations(&[vec![0.1, 0.3], vec![0.3, 0.1]]).unwrap();
    assert_eq!(crossed.one_way.average, None);
    assert_eq!(crossed.two_way_random.single, None);
    // Markers differ, sheets do not; neither sheets nor markers do.
    let same_sheets = vec![vec![3.0, 5.0]; 3];
    let square = [[1.0, 2.0, 3.0], [2.0, 3.0, 1.0], [3.0, 1.0, 2.0]].map(Vec::from);
    for (table, value) in [(&same_sheets[..], 0.0), (&square[..], -1.0)] {
        let found = intraclass_correlations(table).unwrap();
        let single = found.two_way_random.single.unwrap();
        assert!((single.value - value).abs() < 1e-12, "{single:?}");
        assert_eq!(single.interval95, None);
    }
    assert!(
        (crossed.one_way.single.unwrap().value + 1.0).abs() < 1e-12,
        "{crossed:?}"
    );
}
