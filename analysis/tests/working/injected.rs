//! A wrong turn is named when the figures are precise enough to tell, and
//! never when they are not.

use analysis::field::Field;
use analysis::slip::{Kind, Slip};
use proptest::prelude::*;

use super::honest::{cord_readings, tank_readings};
use super::pupil::{Habits, Reading, judged, ripple, string};

/// Turns in the wavelength on water, with the factor each puts on it.
fn water_factor(slip: Slip, reading: &Reading, m: f64) -> f64 {
    let (n, last) = (
        f64::from(reading.count),
        f64::from(reading.first + reading.count),
    );
    match slip {
        Slip::CountedFromOne => n / last,
        Slip::SpanNotDivided => n,
        Slip::ScaleLeftOut => m,
        Slip::ScaleMultiplied => m * m,
        _ => 0.5,
    }
}

/// How far a figure written to so many figures, and all that it was worked
/// out from, can lie from the exact one, as a share.
fn coarseness(figures: u32) -> f64 {
    // Half a unit in the last place of 1.00… is the worst there is; M, the
    // wavelength on the screen and the figure itself may each be rounded.
    3.0 * 0.5 * 10_f64.powi(1 - i32::try_from(figures).expect("few"))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1500))]

    #[test]
    fn a_turn_in_the_wavelength_is_named_when_it_can_be_told(
        readings in tank_readings(),
        image in 110_u32..300,
        figures in 2_u32..=5,
        goes_on_with_rounded in any::<bool>(),
        bare in any::<bool>(),
        slip in prop::sample::select(vec![
            Slip::CountedFromOne, Slip::SpanNotDivided, Slip::ScaleLeftOut,
            Slip::ScaleMultiplied, Slip::CrestToTrough,
        ]),
    ) {
        let m = f64::from(image) / 100.0;
        let habits = Habits { goes_on_with_rounded, bare, ..Habits::careful(figures) }.with(slip.code(), None);
        let sheet = ripple(&readings, (f64::from(image) / 10.0, 10.0), &habits);
        let flags = judged(&sheet).flags;
        let flags: Vec<_> = flags.iter().filter(|f| f.slip.kind() == Kind::Slip).collect();
        let apart: Vec<_> = readings.iter().map(|r| (water_factor(slip, r, m) - 1.0).abs()).collect();
        if apart.iter().any(|apart| *apart > 2.0 * coarseness(figures)) {
            prop_assert!(
                flags.iter().any(|f| f.slip == slip || f.rival == Some(slip)),
                "{} missed: {:?}", slip.code(), flags
            );
        }
        if apart.iter().all(|apart| *apart == 0.0) {
            prop_assert!(flags.is_empty(), "nothing was done: {:?}", flags);
        }
        // Whatever is named was done, or its rival was.
        for flag in &flags {
            prop_assert!(
                flag.slip == slip || flag.rival == Some(slip),
                "{} accused of {:?}", slip.code(), flag
            );
            prop_assert_eq!(flag.step, Field::Wavelength);
        }
    }

    #[test]
    fn a_turn_on_the_string_is_named(
        readings in cord_readings(),
        figures in 3_u32..=5,
        bare in any::<bool>(),
        slip in prop::sample::select(vec![
            (Slip::LoopTakenAsWavelength, Field::Wavelength),
            (Slip::NodesCountedAsLoops, Field::Wavelength),
            (Slip::SpanNotDivided, Field::Wavelength),
            (Slip::DialMultiplierLeftOut, Field::Frequency),
            (Slip::SpeedDivided, Field::Speed),
            (Slip::SpeedInverted, Field::Speed),
            (Slip::ReciprocalLeftOut, Field::Reciprocal),
            (Slip::MeanNotDivided, Field::MeanSpeed),
            (Slip::GradientUpsideDown, Field::Gradient),
        ]),
    ) {
        let (slip, step) = slip;
        // Of one loop and two, the whole length is one loop and one wave.
        if slip == Slip::SpanNotDivided && readings.len() < 3 {
            return Ok(());
        }
        let habits = Habits { bare, ..Habits::careful(figures) }.with(slip.code(), None);
        let sheet = string(&readings, &habits);
        let flags = judged(&sheet).flags;
        let flags: Vec<_> = flags.iter().filter(|f| f.slip.kind() == Kind::Slip).collect();
        prop_assert!(
            flags.iter().any(|f| f.step == step && (f.slip == slip || f.rival == Some(slip))),
            "{} missed: {:?}", slip.code(), flags
        );
        prop_assert_eq!(flags.len(), 1, "one slip is one flag: {:?}", flags);
    }

    #[test]
    fn a_turn_on_one_row_is_named_on_that_row(
        readings in tank_readings(),
        row in 0_usize..6,
        figures in 3_u32..=5,
        bare in any::<bool>(),
        slip in prop::sample::select(vec![Slip::ScaleLeftOut, Slip::CrestToTrough]),
    ) {
        let row = row % readings.len();
        let habits = Habits { bare, ..Habits::careful(figures) }.with(slip.code(), Some(row));
        let flags = judged(&ripple(&readings, (17.5, 10.0), &habits)).flags;
        let flags: Vec<_> = flags.iter().filter(|f| f.slip.kind() == Kind::Slip).collect();
        let named = |f: &&&analysis::working::Flag| {
            f.row == Some(row) && (f.slip == slip || f.rival == Some(slip))
        };
        prop_assert!(flags.iter().any(|f| named(&f)), "{} missed: {:?}", slip.code(), flags);
        prop_assert!(flags.iter().all(|f| named(&f)), "another accused: {:?}", flags);
    }
}
