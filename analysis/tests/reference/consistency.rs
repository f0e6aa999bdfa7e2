//! Studies of one measurement by many laboratories.

use analysis::stats::consistency::{
    cochran_critical, cochran_statistic, mandel_h, mandel_h_critical, mandel_k, mandel_k_critical,
    mandel_k_critical_unequal, precision,
};
use analysis::stats::outlier::grubbs_critical_two_sided;
use analysis::stats::spread::sample_sd;
use serde_json::Value;

use super::{count, digits, load, number, numbers, rounds_to, rows};

/// The five and the one percent point.
const LEVELS: [f64; 2] = [0.05, 0.01];

fn cells(value: &Value) -> Vec<Vec<f64>> {
    rows(value).iter().map(numbers).collect()
}

#[test]
fn glucose_from_eight_laboratories() {
    let data = load(include_str!("data/glucose.json"));
    for material in rows(&data["materials"]) {
        let name = &material["material"];
        let cells = cells(&material["cells"]);
        let found = precision(&cells).unwrap();
        assert_eq!((found.cells, found.results), (8, 24));
        for (ours, theirs) in [
            (found.mean, &material["mean"]),
            (found.repeatability_sd, &material["s_r"]),
            (found.reproducibility_sd, &material["s_R"]),
        ] {
            assert!(digits(ours, number(theirs)) > 12.0, "{name}: {found:?}");
        }
        assert!((found.repeatability_limit() / found.repeatability_sd - 2.8).abs() < 1e-12);
        let h = mandel_h(&cells).unwrap();
        let k = mandel_k(&cells).unwrap();
        for (i, (h_i, k_i)) in h.iter().zip(&k).enumerate() {
            assert!(
                (h_i - number(&material["h"][i])).abs() < 1e-11,
                "{name} {i}"
            );
            assert!(
                (k_i.unwrap() - number(&material["k"][i])).abs() < 1e-11,
                "{name} {i}"
            );
        }
    }
}

/// The slip of the pen that the standard teaches with: named by h, k and
/// Cochran's C at once, and by none of them once it is mended.
#[test]
fn one_mistyped_digit_is_an_outlier_of_both_kinds() {
    let data = load(include_str!("data/glucose.json"));
    let mut material_c = cells(&data["materials"][2]["cells"]);
    let h_limit = mandel_h_critical(8, 0.01).unwrap();
    let k_limit = mandel_k_critical(8, 3, 0.01).unwrap();
    let c_limit = cochran_critical(8, 3, 0.01).unwrap();
    let sds = |cells: &[Vec<f64>]| -> Vec<f64> {
        cells.iter().map(|cell| sample_sd(cell).unwrap()).collect()
    };
    assert!(mandel_h(&material_c).unwrap()[3] > h_limit);
    assert!(mandel_k(&material_c).unwrap()[3].unwrap() > k_limit);
    assert!(cochran_statistic(&sds(&material_c)).unwrap() > c_limit);

    material_c[3][1] = 138.30;
    let mended = &data["material_c_with_138_30"];
    let found = precision(&material_c).unwrap();
    assert!(
        rounds_to(found.repeatability_sd, &mended["s_r"]),
        "{found:?}"
    );
    assert!(
        rounds_to(found.reproducibility_sd, &mended["s_R"]),
        "{found:?}"
    );
    let (h, k) = (
        mandel_h(&material_c).unwrap(),
        mandel_k(&material_c).unwrap(),
    );
    assert!(rounds_to(h[3], &mended["h_of_4"]) && rounds_to(k[3].unwrap(), &mended["k_of_4"]));
    assert!(h.iter().all(|h| h.abs() < h_limit) && k.iter().all(|k| k.unwrap() < k_limit));
    assert!(cochran_statistic(&sds(&material_c)).unwrap() < c_limit);
}

#[test]
fn cells_of_unequal_sizes_as_another_program_has_them() {
    let data = load(include_str!("data/glucose.json"));
    let set = &data["unequal"];
    let found = precision(&cells(&set["cells"])).unwrap();
    for (ours, theirs) in [
        (found.mean, &set["mean"]),
        (found.repeatability_sd, &set["s_r"]),
        (found.between_sd, &set["s_L"]),
        (found.reproducibility_sd, &set["s_R"]),
    ] {
        assert!(digits(ours, number(theirs)) > 12.0, "{found:?}");
    }
    let k = mandel_k(&cells(&set["cells"])).unwrap();
    assert_eq!(k[4], None, "one result does not scatter");
}

#[test]
fn critical_values_that_the_standard_tabulates() {
    let data = load(include_str!("data/consistency_critical.json"));
    for entry in rows(&data["tabulated"]) {
        let p = count(&entry["p"]);
        for (level, key) in LEVELS.into_iter().zip(["five_percent", "one_percent"]) {
            let Some(printed) = entry.get(key) else {
                continue;
            };
            let found = match entry["what"].as_str() {
                Some("grubbs") => grubbs_critical_two_sided(p, level).unwrap(),
                _ => cochran_critical(p, count(&entry["n"]), level).unwrap(),
            };
            // 0.718 is tabulated for 0.71749: rounded twice, it seems, from a
            // table of four places.
            let off = (found - number(printed)).abs();
            assert!(off <= 0.000_55, "{entry}: {found}");
        }
    }
}

#[test]
fn critical_values_for_three_to_thirty_cells() {
    let data = load(include_str!("data/consistency_critical.json"));
    assert_eq!(rows(&data["computed"]).len(), 28);
    for row in rows(&data["computed"]) {
        let p = count(&row[0]);
        for (i, level) in LEVELS.into_iter().enumerate() {
            let h = mandel_h_critical(p, level).unwrap();
            assert!(rounds_to(h, &row[1 + i]), "{row}: {h}");
            let grubbs = grubbs_critical_two_sided(p, level).unwrap();
            assert!(rounds_to(grubbs, &row[3 + i]), "{row}: {grubbs}");
            for n in 2..=6 {
                let k = mandel_k_critical(p, n, level).unwrap();
                assert!(rounds_to(k, &row[5][i][n - 2]), "{p} {n}: {k}");
                let c = cochran_critical(p, n, level).unwrap();
                assert!(rounds_to(c, &row[6][i][n - 2]), "{p} {n}: {c}");
            }
        }
    }
}

#[test]
fn critical_values_of_k_for_unequal_cells() {
    let data = load(include_str!("data/consistency_critical.json"));
    for row in rows(&data["unequal"]) {
        let (own, all) = (count(&row[0]), count(&row[1]));
        for (level, theirs) in LEVELS.into_iter().zip(&rows(row)[2..]) {
            let found = mandel_k_critical_unequal(own, all, level).unwrap();
            assert!(digits(found, number(theirs)) > 10.0, "{row}: {found}");
        }
    }
}

#[test]
fn too_little_to_compare_gives_nothing() {
    assert_eq!(precision(&[vec![1.0, 2.0]]), None);
    assert_eq!(precision(&[vec![1.0], vec![2.0]]), None);
    assert_eq!(precision(&[vec![1.0, 2.0], vec![]]), None);
    assert_eq!(precision(&[vec![1.0, f64::NAN], vec![1.0]]), None);
    assert_eq!(mandel_h(&[vec![1.0], vec![2.0]]), None);
    assert_eq!(
        mandel_h(&[vec![0.1, 0.2], vec![0.2, 0.1], vec![0.1, 0.2]]),
        None
    );
    assert_eq!(mandel_k(&[vec![0.1, 0.1], vec![0.3, 0.3]]), None);
    assert_eq!(mandel_h_critical(2, 0.05), None);
    assert_eq!(
        (mandel_k_critical(1, 3, 0.05), mandel_k_critical(3, 1, 0.05)),
        (None, None)
    );
    assert_eq!(
        (
            mandel_k_critical_unequal(3, 3, 0.05),
            cochran_critical(1, 3, 0.05)
        ),
        (None, None)
    );
    assert_eq!(mandel_k_critical(3, 3, 1.0), None);
    assert_eq!(
        (cochran_statistic(&[1.0]), cochran_statistic(&[0.0, 0.0])),
        (None, None)
    );
    assert_eq!(cochran_statistic(&[1.0, f64::NAN]), None);
}

/// By hand: two squares of 0.02 and 0.08 in cells whose means agree.
#[test]
fn cells_that_agree_better_than_they_should_have_no_scatter_between() {
    let found = precision(&[vec![0.9, 1.1], vec![1.2, 0.8]]).unwrap();
    assert!(found.between_sd.abs() < 1e-15, "{found:?}");
    assert!(
        (found.reproducibility_sd - 0.05_f64.sqrt()).abs() < 1e-15,
        "{found:?}"
    );
}
