//! Sheets worked out correctly never get a slip, whatever the rounding.

use analysis::field::Field;
use proptest::prelude::*;

use super::pupil::{Habits, Reading, ripple, slips, string};

fn blanks() -> impl Strategy<Value = Vec<&'static str>> {
    let working = [
        Field::Frequency,
        Field::Magnification,
        Field::Wavelength,
        Field::Reciprocal,
        Field::Speed,
    ];
    prop::sample::subsequence(working.map(Field::name).to_vec(), 0..4)
}

prop_compose! {
    /// Any honest way of writing figures: to so many of them, bare tens
    /// (`10`), any unit.
    pub(crate) fn habits()(
        figures in 2_u32..=5,
        goes_on_with_rounded in any::<bool>(),
        bare in any::<bool>(),
        wavelength in prop::sample::select(vec![None, Some("mm"), Some("cm"), Some("m")]),
        speed in prop::sample::select(vec!["m/s", "cm/s", "mm/s"]),
        blank in blanks(),
    ) -> Habits {
        Habits { goes_on_with_rounded, bare, wavelength, speed, blank, ..Habits::careful(figures) }
    }
}

prop_compose! {
    pub(crate) fn tank_readings()(
        rows in prop::collection::vec((50_u32..500, 4_u32..=14, 0_u32..=1, 120_u32..600), 2..=6),
        times in prop::sample::select(vec![1.0, 10.0]),
    ) -> Vec<Reading> {
        rows.into_iter().map(|(dial, count, first, span)| Reading {
            dial: f64::from(dial) / 10.0 / times,
            times,
            count,
            first,
            span: f64::from(span) / 10.0,
        }).collect()
    }
}

prop_compose! {
    pub(crate) fn cord_readings()(
        length in 500_u32..2000,
        scatter in prop::collection::vec(-20_i32..20, 2..=6),
        first in 100_u32..400,
    ) -> Vec<Reading> {
        let base = f64::from(first) / 10.0;
        scatter.into_iter().zip(1_u32..).map(|(off, count)| Reading {
            dial: (base * f64::from(count) * (1.0 + f64::from(off) / 1000.0) * 10.0).round() / 100.0,
            times: 10.0,
            count,
            first: 0,
            span: f64::from(length) / 1000.0,
        }).collect()
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1500))]

    #[test]
    fn water_sheets_worked_out_correctly_have_no_slip(
        readings in tank_readings(),
        image in 110_u32..300,
        habits in habits(),
    ) {
        let sheet = ripple(&readings, (f64::from(image) / 10.0, 10.0), &habits);
        prop_assert_eq!(slips(&sheet), vec![]);
    }

    #[test]
    fn string_sheets_worked_out_correctly_have_no_slip(
        readings in cord_readings(),
        habits in habits(),
    ) {
        prop_assert_eq!(slips(&string(&readings, &habits)), vec![]);
    }
}
