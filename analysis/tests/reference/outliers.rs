//! Worked examples of the tests for outliers.

use analysis::stats::outlier::{
    generalised_esd, grubbs_critical_one_sided, grubbs_critical_two_sided, grubbs_statistic,
    outlying, robust_z, studentised, studentised_with_floor,
};
use analysis::stats::spread::{median, median_absolute_deviation, sample_sd};

use super::{count, load, number, numbers, rounds_to, rows};

#[test]
fn grubbs_on_eight_uranium_isotope_ratios() {
    let data = load(include_str!("data/grubbs.json"));
    let values = numbers(&data["values"]);
    let statistic = grubbs_statistic(&values).unwrap();
    assert!(rounds_to(statistic, &data["statistic"]), "{statistic}");
    assert!(rounds_to(sample_sd(&values).unwrap(), &data["sd"]));
    let one_sided = grubbs_critical_one_sided(8, 0.05).unwrap();
    assert!(
        rounds_to(one_sided, &data["critical_one_sided_5_percent"]),
        "{one_sided}"
    );
    let two_sided = grubbs_critical_two_sided(8, 0.05).unwrap();
    // Quoted as 2.126 and worked out as 2.1266: cut off, not rounded.
    let cut_off = number(&data["critical_two_sided_5_percent"]);
    assert!(
        (cut_off..cut_off + 0.001).contains(&two_sided),
        "{two_sided}"
    );
    assert!(statistic > two_sided, "245.57 is an outlier");
}

#[test]
fn grubbs_table_for_three_to_twenty() {
    let data = load(include_str!("data/grubbs.json"));
    for row in rows(&data["one_sided_table"]["five_percent"]) {
        let found = grubbs_critical_one_sided(count(&row["n"]), 0.05).unwrap();
        assert!(rounds_to(found, &row["critical"]), "{row}: {found}");
    }
}

#[test]
fn grubbs_two_sided_for_three_to_thirty() {
    let data = &load(include_str!("data/grubbs.json"))["two_sided"];
    let mut computed = rows(&data["computed"]).iter();
    for row in computed.clone() {
        for (level, theirs) in [(0.05, &row[1]), (0.01, &row[2])] {
            let found = grubbs_critical_two_sided(count(&row[0]), level).unwrap();
            assert!(rounds_to(found, theirs), "{row}: {found}");
        }
    }
    let tabulated = &data["tabulated"];
    let ten = computed.find(|row| row[0] == tabulated["n"]).unwrap();
    for (level, theirs) in [(0.05, "five_percent"), (0.01, "one_percent")] {
        let found = grubbs_critical_two_sided(count(&ten[0]), level).unwrap();
        assert!(rounds_to(found, &tabulated[theirs]), "{found}");
    }
}

/// The first two statistics stay below their critical values and the third
/// does not: one outlier hides another, and there are three.
#[test]
fn esd_sees_three_outliers_that_hide_one_another() {
    let data = load(include_str!("data/esd.json"));
    let values = numbers(&data["values"]);
    let found = generalised_esd(&values, count(&data["max_outliers"]), 0.05).unwrap();
    for (published, found) in [
        (&data["statistics"], &found.statistics),
        (&data["critical"], &found.critical),
    ] {
        assert_eq!(rows(published).len(), found.len());
        for (printed, found) in rows(published).iter().zip(found) {
            assert!(rounds_to(*found, printed), "{printed}: {found}");
        }
    }
    assert!(
        found.statistics[0] < found.critical[0],
        "the trap is in the data"
    );
    let outliers: Vec<f64> = found.outliers().iter().map(|i| values[*i]).collect();
    assert_eq!(outliers, numbers(&data["outliers"]));
}

#[test]
fn modified_z_of_ten_values() {
    let data = load(include_str!("data/modified_z.json"));
    let values = numbers(&data["values"]);
    // Taken from decimals near 2.5: off by a few 1e-16.
    let close = |a: f64, b: f64| (a - b).abs() < 1e-14;
    assert!(close(median(&values).unwrap(), number(&data["median"])));
    let mad = median_absolute_deviation(&values).unwrap();
    assert!(close(mad, number(&data["mad"])), "{mad}");
    let z = robust_z(&values).unwrap();
    for (z, printed) in z.iter().zip(rows(&data["distances"])) {
        assert!(rounds_to(z.abs(), printed), "{printed}: {z}");
    }
    let beyond: Vec<f64> = (0..10)
        .filter(|i| z[*i].abs() > 3.5)
        .map(|i| values[i])
        .collect();
    assert_eq!(beyond, numbers(&data["beyond_3_5"]));
    assert_eq!(
        outlying(&values)[7..],
        [false, true, true],
        "our cut-off agrees"
    );
}

/// For a common level, the largest studentised residual and Grubbs' statistic
/// are one test in two guises: G² = (n−1)² t² / (n (n−2+t²)).
#[test]
fn studentised_residuals_agree_with_grubbs() {
    let data = load(include_str!("data/grubbs.json"));
    let values = numbers(&data["values"]);
    let n = values.len() as f64;
    let worst = studentised(&values).unwrap()[7];
    let t_squared = worst.t.powi(2);
    let grubbs = (n - 1.0) * (t_squared / (n * (n - 2.0 + t_squared))).sqrt();
    // Grubbs' statistic is near its limit here, so most of t's digits are gone.
    assert!(
        (grubbs - grubbs_statistic(&values).unwrap()).abs() < 1e-12,
        "{grubbs}"
    );
    // At Grubbs' two-sided p, found here from t: 3.0e-7 (twice 1.5e-7).
    assert!(
        (worst.bonferroni_p / 3.002_6e-7 - 1.0).abs() < 1e-3,
        "{worst:?}"
    );
}

#[test]
fn exact_agreement_is_no_scatter_to_measure_by() {
    let shared = [0.25, 0.25, 0.25, 0.25, 0.31];
    assert_eq!(studentised(&shared), None);
    assert_eq!(robust_z(&shared), None);
    assert_eq!(outlying(&shared), [false; 5]);
    assert_eq!(outlying(&[0.1; 16]), [false; 16]);
    let mut most_agree = vec![0.25; 12];
    most_agree.extend([0.26, 0.24, 0.9, 0.25]);
    assert_eq!(outlying(&most_agree), [false; 16]);
    // With the resolution of the readings known, the odd one can be judged:
    // 0.06 is far out beside 0.005, and 0.01 would not be.
    let judged = studentised_with_floor(&shared, 0.005).unwrap();
    assert!(
        judged[4].bonferroni_p < 0.05 && judged[0].bonferroni_p > 0.05,
        "{judged:?}"
    );
    let near = studentised_with_floor(&[0.25, 0.25, 0.25, 0.25, 0.26], 0.005).unwrap();
    assert!(near.iter().all(|row| row.bonferroni_p > 0.05), "{near:?}");
}

#[test]
fn three_are_never_judged() {
    assert_eq!(studentised(&[1.0, 1.1, 9.0]), None);
    assert_eq!(robust_z(&[1.0, 1.1, 9.0]), None);
    assert_eq!(outlying(&[1.0, 1.1, 9.0]), [false; 3]);
    assert_eq!(
        outlying(&[1.0, 1.1, 0.95, 9.0]),
        [false, false, false, true]
    );
}

#[test]
fn a_large_class_may_have_several_apart() {
    let mut class: Vec<f64> = (0..16).map(|i| 0.01 * f64::from(i % 5)).collect();
    class[3] = 0.6;
    class[9] = 0.7;
    let apart: Vec<usize> = (0..16).filter(|i| outlying(&class)[*i]).collect();
    assert_eq!(apart, [3, 9]);
}
