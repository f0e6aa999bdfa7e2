//! Student's t.

use analysis::stats::interval::{student_t_quantile, student_t_two_sided_p};

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
