//! A group at a stretched string.

use analysis::field::Field;
use analysis::method::Method;
use analysis::sheet::TypedSheet;
use rand::Rng as _;
use rand::rngs::StdRng;

use super::bench::{Bench, Worked, cell, figures, write};
use super::{KITS, SimSheet, about, physics};

/// Mass (kg) and length (m) of the whole string, and between its ends, m.
const STRING: (f64, f64, f64) = (0.0015, 1.5, 1.2);

pub(super) fn sheet(bench: &Bench<'_>, dice: &mut StdRng) -> SimSheet {
    let school = bench.school;
    let generator = 3 + bench.place % 3;
    let string = 6 + (bench.place / 2) % 3;
    let dial = if generator == 5 {
        1.0 + school.dial
    } else {
        1.0
    };
    let hung = 0.1 * f64::from(dice.random_range(1..=3));
    let speed = physics::string(hung, STRING.0 / STRING.1) * about(dice, 1.0, 0.03);
    let takes_loop_for_wave = dice.random::<f64>() < 0.15;
    let worked = (1..=5).map(|loops| {
        let wavelength = 2.0 * STRING.2 / f64::from(loops);
        let shown = about(dice, speed / wavelength, 0.005 * speed / wavelength) * dial;
        let shown: f64 = figures(shown).parse().unwrap_or(shown);
        let wave = if takes_loop_for_wave {
            wavelength / 2.0
        } else {
            wavelength
        };
        Worked {
            readings: vec![
                (Field::Dial, shown.to_string(), ""),
                (Field::DialTimes, "1".to_owned(), ""),
                (Field::Loops, loops.to_string(), ""),
                (Field::Length, "1.20".to_owned(), "m"),
                (Field::LengthLoops, loops.to_string(), ""),
            ],
            frequency: shown,
            wavelength: wave,
            unit: ("m", 1.0),
        }
    });
    let worked: Vec<_> = worked.collect();
    let (rows, mut whole) = write(&worked);
    whole.insert(
        Field::HangingMass,
        cell(format!("{}", (hung * 1000.0).round()), "g"),
    );
    whole.insert(Field::StringMass, cell("1.5", "g"));
    whole.insert(Field::StringLength, cell("1.5", "m"));
    SimSheet {
        typed: TypedSheet {
            method: Method::StringLoops,
            whole,
            rows,
        },
        kit: format!("{}, {}", KITS[string], KITS[generator]),
        confirmed: None,
    }
}
