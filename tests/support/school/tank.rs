//! A group at a ripple tank.

use analysis::field::Field;
use analysis::method::Method;
use analysis::reading::Cause;
use analysis::sheet::TypedSheet;
use rand::Rng as _;
use rand::rngs::StdRng;

use super::bench::{Bench, Worked, cell, write};
use super::{KITS, SimSheet, about, physics};

/// Surface tension of the department's water, N/m, and depth, m.
const WATER: (f64, f64) = (0.064, 0.005);

/// Frequencies, Hz; each group takes some.
const FREQUENCIES: [f64; 7] = [5.0, 8.0, 12.0, 16.0, 20.0, 25.0, 30.0];

pub(super) fn sheet(bench: &Bench<'_>, dice: &mut StdRng) -> SimSheet {
    let school = bench.school;
    let tank = bench.place % 3;
    let tension = WATER.0 + if tank == 2 { school.film } else { 0.0 };
    let depth = WATER.1 * if tank == 0 { school.depth } else { 1.0 };
    let true_enlargement = about(dice, 1.75, 0.03);
    let lamp = if tank == 1 { 1.0 + school.lamp } else { 1.0 };
    // What the group measures of it: the lamp sank since.
    let image = about(dice, 8.0 * true_enlargement, 0.45);
    let enlargement = (image * 10.0).round() / 10.0 / 8.0;

    let counts_from_one = dice.random::<f64>() < school.counts_from_one;
    let leaves_scale_out =
        dice.random::<f64>() < school.leaves_scale_out[usize::from(bench.is_late)];
    let first = dice.random_range(0..2);
    let worked = FREQUENCIES[first..first + 5].iter().map(|f| {
        let wavelength = physics::ripple(*f, tension, depth) * true_enlargement * lamp;
        let waves = (0.25 / wavelength).clamp(3.0, 10.0).floor();
        let span = about(dice, 100.0 * wavelength * waves, 0.4);
        let span = (span * 10.0).round() / 10.0;
        let called = if counts_from_one { waves + 1.0 } else { waves };
        let scale = if leaves_scale_out { 1.0 } else { enlargement };
        Worked {
            readings: vec![
                (Field::Dial, f.to_string(), ""),
                (Field::DialTimes, "1".to_owned(), ""),
                (Field::FirstCrest, "0".to_owned(), ""),
                (Field::LastCrest, called.to_string(), ""),
                (Field::Span, format!("{span:.1}"), "cm"),
            ],
            frequency: *f,
            wavelength: span / 100.0 / called / scale,
            unit: ("cm", 100.0),
        }
    });
    let worked: Vec<_> = worked.collect();
    let (rows, mut whole) = write(&worked);
    whole.insert(Field::ScaleTrue, cell("8.0", "cm"));
    whole.insert(Field::ScaleImage, cell(format!("{image:.1}"), "cm"));
    whole.insert(Field::Magnification, cell(format!("{enlargement:.4}"), ""));
    whole.insert(Field::Depth, cell("5", "mm"));
    let is_found = counts_from_one && dice.random::<bool>();
    SimSheet {
        typed: TypedSheet {
            method: Method::RippleTank,
            whole,
            rows,
        },
        kit: KITS[tank].to_owned(),
        confirmed: is_found.then_some((Field::LastCrest, Cause::CountedFromOne)),
    }
}
