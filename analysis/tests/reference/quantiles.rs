//! Student's t and F.

use analysis::stats::interval::{f_quantile, student_t_quantile, student_t_two_sided_p};

use super::{count, digits, load, number, rows};

/// The two libraries agree to 14 digits. Ours inverts the incomplete beta
/// function by iteration, and keeps 12 of them.
const DIGITS: f64 = 12.0;

#[test]
fn student_t_as_two_other_libraries_have_it() {
    let data = load(include_str!("data/student_t.json"));
    for row in rows(&data["quantiles"]) {
        let (df, p, t) = (count(&row["df"]), number(&row["p"]), number(&row["t"]));
        let found = student_t_quantile(p, df).unwrap();
        assert!(digits(found, t) > DIGITS, "{row}: {found}");
        let below = student_t_quantile(1.0 - p, df).unwrap();
        assert!(digits(-below, t) > DIGITS, "{row}: {below}");
        let both_tails = student_t_two_sided_p(t, df).unwrap();
        assert!(
            digits(both_tails, 2.0 * (1.0 - p)) > DIGITS,
            "{row}: {both_tails}"
        );
    }
}

#[test]
fn what_is_no_probability_has_no_quantile() {
    assert_eq!(student_t_quantile(0.975, 0), None);
    for p in [0.0, 1.0, -0.1, f64::NAN] {
        assert_eq!(student_t_quantile(p, 5), None, "{p}");
    }
    assert_eq!(student_t_two_sided_p(f64::NAN, 5), None);
    assert_eq!(student_t_two_sided_p(2.0, 0), None);
}

/// F on 1 and ν degrees of freedom is the square of Student's t on ν.
#[test]
fn f_of_one_is_the_square_of_t() {
    let data = load(include_str!("data/student_t.json"));
    for row in rows(&data["quantiles"]) {
        let (df, p, t) = (count(&row["df"]), number(&row["p"]), number(&row["t"]));
        // Both tails of t are the upper one of F; asked from below, a small
        // tail has lost digits to its complement.
        let found = f_quantile(1.0 - 2.0 * (1.0 - p), 1.0, df as f64).unwrap();
        assert!(digits(found, t * t) > 10.0, "{row}: {found}");
    }
}

/// From one degree of freedom, and fractions, to as many as a year of sheets.
/// Six digits: one over F is worked out from a share that nears 1 where F is
/// far from it, and the inversion stops sooner with thousands of degrees.
#[test]
fn f_as_another_library_has_it() {
    let data = load(include_str!("data/variance_ratio.json"));
    for row in rows(&data["quantiles"]) {
        let [above, below, p, f] = [0, 1, 2, 3].map(|i| number(&row[i]));
        let found = f_quantile(p, above, below).unwrap();
        assert!(digits(found, f) > 6.0, "{row}: {found}");
    }
    for (p, above, below) in [
        (0.5, 0.9, 3.0),
        (0.5, 3.0, 0.0),
        (1.0, 2.0, 3.0),
        (f64::NAN, 2.0, 3.0),
    ] {
        assert_eq!(f_quantile(p, above, below), None, "{p} {above} {below}");
    }
}
