//! Studies of one measurement by many laboratories.

use analysis::stats::precision::precision;
use serde_json::Value;

use super::{digits, load, number, numbers, rounds_to, rows};

fn cells(value: &Value) -> Vec<Vec<f64>> {
    rows(value).iter().map(numbers).collect()
}

#[test]
fn glucose_from_eight_laboratories() {
    let data = load(include_str!("data/glucose.json"));
    for material in rows(&data["materials"]) {
        let name = &material["material"];
        let found = precision(&cells(&material["cells"])).unwrap();
        for (ours, theirs) in [
            (found.repeatability_sd, &material["s_r"]),
            (found.reproducibility_sd, &material["s_R"]),
        ] {
            assert!(digits(ours, number(theirs)) > 12.0, "{name}: {found:?}");
        }
    }
}

/// The slip of the pen that the standard teaches with, mended.
#[test]
fn one_mistyped_digit_is_half_of_the_scatter() {
    let data = load(include_str!("data/glucose.json"));
    let mut material_c = cells(&data["materials"][2]["cells"]);
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
}

#[test]
fn cells_of_unequal_sizes_as_another_program_has_them() {
    let data = load(include_str!("data/glucose.json"));
    let set = &data["unequal"];
    let found = precision(&cells(&set["cells"])).unwrap();
    for (ours, theirs) in [
        (found.repeatability_sd, &set["s_r"]),
        (found.between_sd, &set["s_L"]),
        (found.reproducibility_sd, &set["s_R"]),
    ] {
        assert!(digits(ours, number(theirs)) > 12.0, "{found:?}");
    }
}

#[test]
fn too_little_to_compare_gives_nothing() {
    assert_eq!(precision(&[vec![1.0, 2.0]]), None);
    assert_eq!(precision(&[vec![1.0], vec![2.0]]), None);
    assert_eq!(precision(&[vec![1.0, 2.0], vec![]]), None);
    assert_eq!(precision(&[vec![1.0, f64::NAN], vec![1.0]]), None);
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
