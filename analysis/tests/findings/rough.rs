//! Honest groups that read roughly are not accused: naming the nearest cause
//! would accuse 11, 39 and 70 % of them at 2, 4 and 8 % scatter (computed; the
//! methods).

use analysis::reading::{Placed, infer};
use analysis::sheet::{Sheet, TypedSheet};
use simulator::dice::Dice;

use super::{Field, checked, retype, slips, tank, times, used_water};

/// An honest sheet whose spans scatter by this share.
fn honest(dice: &mut Dice, scatter: f64) -> TypedSheet {
    let mut sheet = tank(used_water());
    for row in 0..sheet.rows.len() {
        let error = (scatter * dice.normal()).exp();
        retype(&mut sheet, Some(row), Field::Span, times(error, 1));
    }
    sheet
}

/// The teacher's thresholds: for the summary, and at the bench.
const THRESHOLDS: [f64; 2] = [0.5, 0.8];

const CLASSES: u32 = 60;

/// The shares of honest groups, in classes of twelve on three tanks, of whom a
/// slip is told at each threshold.
fn accused(scatter: f64, seed: u64) -> [f64; 2] {
    let mut dice = Dice::new(seed);
    let mut accused = [0_u32; 2];
    for _ in 0..CLASSES {
        let sheets: Vec<Sheet> = (0..12)
            .map(|_| checked(&honest(&mut dice, scatter)))
            .collect();
        let kits = ["Tank 1", "Tank 2", "Tank 3"].into_iter().cycle();
        let placed: Vec<_> = sheets
            .iter()
            .zip(kits)
            .map(|(sheet, kit)| Placed { sheet, kit })
            .collect();
        for inference in infer(&placed) {
            let most = slips(&inference)
                .map(|found| found.probability)
                .fold(0.0, f64::max);
            for (count, threshold) in accused.iter_mut().zip(THRESHOLDS) {
                *count += u32::from(most >= threshold);
            }
        }
    }
    accused.map(|count| f64::from(count) / f64::from(12 * CLASSES))
}

/// At 4 % scatter one wave in eight is three standard deviations, and a few in
/// a hundred are told as more likely than not; hardly any at the bench. The
/// bounds leave three standard errors of 720 groups.
#[test]
fn honest_groups_are_left_alone_however_rough_their_readings() {
    for (scatter, seed, most) in [
        (0.01, 1, 0.01),
        (0.02, 2, 0.01),
        (0.04, 3, 0.03),
        (0.08, 4, 0.01),
    ] {
        let [summary, bench] = accused(scatter, seed);
        let error = |share: f64| 3.0 * (share / f64::from(12 * CLASSES)).sqrt();
        assert!(
            summary <= most + error(most),
            "{scatter}: {summary} in the summary"
        );
        assert!(
            bench <= 0.01 + error(0.01),
            "{scatter}: {bench} at the bench"
        );
    }
}

/// What each group says of the class's scatter is multiplied up: however many
/// contradict each other, probabilities come out.
#[test]
fn hundreds_of_careful_groups_and_of_rough_ones_are_one_class() {
    let mut dice = Dice::new(11);
    let sheets: Vec<Sheet> = (0..600)
        .map(|at| checked(&honest(&mut dice, if at % 2 == 0 { 0.001 } else { 0.3 })))
        .collect();
    for kit in ["", "Tank 1"] {
        let placed: Vec<_> = sheets.iter().map(|sheet| Placed { sheet, kit }).collect();
        for inference in infer(&placed) {
            let p = inference.no_slip;
            assert!((0.0..=1.0).contains(&p), "{kit}: {inference:?}");
        }
    }
}
