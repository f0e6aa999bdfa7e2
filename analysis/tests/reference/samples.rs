//! What a sample of a given size leaves open.

use analysis::stats::sample::half_width95;

/// Student's t for 95 %, from any printed table: 2.5706 on 5 degrees of
/// freedom, 2.2622 on 9, 2.1448 on 14.
#[test]
fn six_sheets_fix_a_markers_severity_to_about_two_marks() {
    for (n, t, in_words) in [(6, 2.5706, 2.1), (10, 2.2622, 1.4), (15, 2.1448, 1.1)] {
        let found = half_width95(2.0, n).unwrap();
        let by_hand = t * 2.0 / (n as f64).sqrt();
        // Half a unit of t's last place, times 2/√n.
        assert!((found - by_hand).abs() < 0.000_05, "{n}: {found}");
        assert!((found - in_words).abs() <= 0.05, "{n}: {found}");
    }
}

#[test]
fn one_sheet_fixes_nothing() {
    assert_eq!((half_width95(2.0, 0), half_width95(2.0, 1)), (None, None));
    assert_eq!(
        (half_width95(-1.0, 9), half_width95(f64::NAN, 9)),
        (None, None)
    );
    assert!(half_width95(0.0, 2).unwrap().abs() < 1e-300, "no scatter");
}
