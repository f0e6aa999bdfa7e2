use analysis::moderation::width::reach95;

/// Quantiles t(0.975) of printed tables: 12.706, 2.571, 2.262, 2.145 on 1, 5,
/// 9 and 14 degrees of freedom.
#[test]
fn reach_is_students_t_over_the_root_of_the_number() {
    for (n, t) in [(2, 12.706), (6, 2.571), (10, 2.262), (15, 2.145)] {
        let expected = t * 2.0 / f64::from(n).sqrt();
        let n = usize::try_from(n).unwrap();
        let reach = reach95(n, 2.0).unwrap();
        assert!((reach - expected).abs() < 1e-3, "{n}: {reach}");
    }
}

#[test]
fn one_sheet_fixes_nothing() {
    assert_eq!(reach95(1, 2.0), None);
    assert_eq!(reach95(0, 2.0), None);
}
