//! NIST's certified lines.
//!
//! Certified to 15 figures. Double precision carries just under 16, and the
//! coefficient of a line loses what the data's spread about their middle
//! costs: a digit or two here. Asked: 13 digits of everything.

use analysis::stats::interval::Estimate;
use analysis::stats::line::{Line, through_origin, with_intercept};
use serde_json::Value;

use super::{digits, load, number, numbers};

const DIGITS: f64 = 13.0;

fn points(data: &Value) -> Vec<(f64, f64)> {
    let (x, y) = (numbers(&data["x"]), numbers(&data["y"]));
    assert_eq!(x.len(), y.len(), "as many y as x");
    x.into_iter().zip(y).collect()
}

fn check_coefficient(found: Estimate, certified: &Value) {
    let value = digits(found.value, number(&certified["estimate"]));
    let se = digits(found.se, number(&certified["sd"]));
    assert!(value >= DIGITS, "{certified}: {value} digits of {found:?}");
    assert!(
        se >= DIGITS,
        "{certified}: {se} digits of the error in {found:?}"
    );
}

fn check_scatter(found: &Line, certified: &Value) {
    let sd = digits(found.residual_sd, number(&certified["residual_sd"]));
    let r_squared = digits(found.r_squared, number(&certified["r_squared"]));
    assert!(sd >= DIGITS, "{sd} digits of {}", found.residual_sd);
    assert!(
        r_squared >= DIGITS,
        "{r_squared} digits of {}",
        found.r_squared
    );
}

#[test]
fn norris_with_an_intercept() {
    let data = load(include_str!("data/nist_norris.json"));
    let line = with_intercept(&points(&data)).unwrap();
    let certified = &data["certified"];
    check_coefficient(line.intercept.unwrap(), &certified["coefficients"][0]);
    check_coefficient(line.slope, &certified["coefficients"][1]);
    check_scatter(&line, certified);
    assert_eq!(line.df, 34);
}

#[test]
fn noint1_through_the_origin_has_its_r_squared_about_zero() {
    let data = load(include_str!("data/nist_noint1.json"));
    let line = through_origin(&points(&data)).unwrap();
    let certified = &data["certified"];
    check_coefficient(line.slope, &certified["coefficients"][0]);
    check_scatter(&line, certified);
    assert_eq!((line.df, line.intercept), (10, None));
}

/// The smallest lines, whose answers are plain.
#[test]
fn a_line_on_too_few_points_claims_no_scatter() {
    let one = through_origin(&[(2.0, 3.0)]).unwrap();
    assert!((one.slope.value - 1.5).abs() < 1e-15, "one point: y over x");
    assert_eq!((one.df, one.slope.interval95()), (0, None));
    assert!(one.slope.se.abs() < 1e-300 && one.residual_sd.abs() < 1e-300);

    let two = with_intercept(&[(1.0, 3.0), (3.0, 4.0)]).unwrap();
    assert!((two.slope.value - 0.5).abs() < 1e-15, "rise over run");
    assert!(
        (two.intercept.unwrap().value - 2.5).abs() < 1e-15,
        "where it starts"
    );
    assert_eq!((two.df, two.slope.interval95()), (0, None));
    assert!(two.slope.se.abs() < 1e-300 && two.residual_sd.abs() < 1e-300);
}

#[test]
fn no_line_is_fitted_where_there_is_none() {
    assert_eq!(through_origin(&[]), None);
    assert_eq!(through_origin(&[(0.0, 1.0), (0.0, 2.0)]), None);
    assert_eq!(through_origin(&[(1.0, f64::NAN)]), None);
    assert_eq!(with_intercept(&[(1.0, 1.0)]), None);
    // A tenth is not exact in binary, and neither is the mean of three.
    assert_eq!(with_intercept(&[(0.1, 1.0), (0.1, 2.0), (0.1, 4.0)]), None);
}

/// Two right answers by another program: the `linregress` crate solves by a
/// singular value decomposition and shares no code with ours.
#[test]
fn another_program_agrees_on_ripples() {
    let x = vec![45.0, 84.0, 116.3, 144.4, 169.5];
    let y = vec![10.0, 20.0, 30.0, 40.0, 50.0];
    let points: Vec<(f64, f64)> = x.iter().copied().zip(y.iter().copied()).collect();
    let data = linregress::RegressionDataBuilder::new()
        .build_from(vec![("y", y), ("x", x)])
        .unwrap();
    let theirs = linregress::FormulaRegressionBuilder::new()
        .data(&data)
        .formula("y ~ x")
        .fit()
        .unwrap();
    let ours = with_intercept(&points).unwrap();
    let found = [ours.intercept.unwrap(), ours.slope];
    for (i, estimate) in found.into_iter().enumerate() {
        // Theirs does not centre the data; ten digits are left of sixteen.
        assert!(
            digits(estimate.value, theirs.parameters()[i]) > 10.0,
            "{estimate:?}"
        );
        assert!(digits(estimate.se, theirs.se()[i]) > 10.0, "{estimate:?}");
    }
}
