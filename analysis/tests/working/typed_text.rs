//! Nothing that can be typed makes the judge stumble.

use analysis::assess::assess;
use analysis::class_set::summarise;
use analysis::field::{Field, Place};
use analysis::method::Method;
use analysis::sheet::{Cell, TypedRow, TypedSheet};
use proptest::prelude::*;

use super::pupil::without_problems;

/// Anything from a reading to noise, weighted towards what can be read.
fn text() -> impl Strategy<Value = String> {
    prop_oneof![
        4 => (1_u32..100_000, 0_usize..5).prop_map(|(n, d)| format!("{:.d$}", f64::from(n) / 100.0)),
        1 => (1_i32..999, -16_i32..16).prop_map(|(n, e)| format!("{n}e{e}")),
        1 => Just("0".to_owned()),
        1 => Just(String::new()),
        1 => "[ -+0-9.,eE×x/a-z^⁻²]{0,12}",
        1 => any::<String>(),
    ]
}

fn unit() -> impl Strategy<Value = String> {
    prop_oneof![
        Just(String::new()),
        prop::sample::select(vec!["cm", "m", "mm", "m/s", "cm/s", "1/m", "1/cm"])
            .prop_map(str::to_owned),
        any::<String>(),
    ]
}

fn cells(method: Method, place: Place) -> impl Strategy<Value = Vec<(Field, Cell)>> {
    let fields: Vec<_> = method.fields().filter(|f| f.place() == place).collect();
    let one = (prop::sample::select(fields), text(), unit())
        .prop_map(|(field, text, unit)| (field, Cell { text, unit }));
    prop::collection::vec(one, 0..12)
}

prop_compose! {
    fn sheet()(method in prop::sample::select(Method::ALL.to_vec()))(
        whole in cells(method, Place::Sheet),
        rows in prop::collection::vec((cells(method, Place::Row), any::<bool>()), 0..6),
        method in Just(method),
    ) -> TypedSheet {
        let row = |(at, (cells, left_out)): (usize, (Vec<(Field, Cell)>, bool))| TypedRow {
            label: at.to_string(),
            cells: cells.into_iter().collect(),
            left_out,
        };
        TypedSheet {
            method,
            whole: whole.into_iter().collect(),
            rows: rows.into_iter().enumerate().map(row).collect(),
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn any_text_is_judged_or_turned_away(typed in sheet()) {
        let sheet = without_problems(typed);
        let _ = sheet.questions();
        let assessment = assess(&sheet);
        for row in &assessment.rows {
            for figure in [row.frequency, row.wavelength, row.reciprocal, row.speed] {
                prop_assert!(figure.is_none_or(f64::is_finite), "{row:?}");
            }
        }
        let _ = summarise(&[&assessment, &assessment, &assessment, &assessment]);
    }
}
