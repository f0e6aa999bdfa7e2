//! Whatever the door lets in is judged: probabilities stay probabilities.

use std::collections::BTreeMap;

use analysis::field::{Field, Place};
use analysis::method::Method;
use analysis::reading::copied::{Declared, questions};
use analysis::reading::{Inference, LEAST_PROBABLE, Placed, infer};
use analysis::sheet::{Cells, Sheet, TypedRow, TypedSheet};
use proptest::prelude::*;

use super::{cell, checked, string, tank, used_water};
use crate::pupil::without_problems;

/// A reading as it may come: usual, far too large or small, or wrong by a unit.
fn text() -> impl Strategy<Value = String> {
    prop_oneof![
        6 => (10_u32..1000, 0_usize..3).prop_map(|(n, d)| format!("{:.d$}", f64::from(n) / 10.0)),
        2 => (1_u32..100, -15_i32..13).prop_map(|(n, e)| format!("{n}e{e}")),
        1 => Just(String::new()),
    ]
}

fn count() -> impl Strategy<Value = String> {
    prop_oneof![
        8 => (1_u32..20).prop_map(|n| n.to_string()),
        1 => (1_u32..=100_000).prop_map(|n| n.to_string()),
        1 => Just(String::new()),
    ]
}

fn of_field(field: Field) -> BoxedStrategy<String> {
    match field {
        Field::FirstCrest | Field::PassesFirst => Just("0".to_owned()).boxed(),
        Field::LastCrest | Field::PassesLast | Field::Loops | Field::LengthLoops => count().boxed(),
        Field::DialTimes => prop::sample::select(vec!["1", "10", "100", ""])
            .prop_map(str::to_owned)
            .boxed(),
        _ => text().boxed(),
    }
}

fn cells(method: Method, place: Place) -> impl Strategy<Value = Cells> {
    let fields = method.fields().filter(move |f| f.place() == place);
    let each: Vec<_> = fields
        .map(|field| of_field(field).prop_map(move |text| (field, cell(&text, ""))))
        .collect();
    each.prop_map(|cells| cells.into_iter().collect::<BTreeMap<_, _>>())
}

prop_compose! {
    fn any_sheet()(method in prop::sample::select(Method::ALL.to_vec()))(
        whole in cells(method, Place::Sheet),
        rows in prop_oneof![
            8 => prop::collection::vec(cells(method, Place::Row), 1..8),
            1 => (cells(method, Place::Row), 2..60_usize).prop_map(|(row, n)| vec![row; n]),
        ],
        method in Just(method),
    ) -> Sheet {
        let row = |(at, cells): (usize, Cells)| TypedRow {
            label: at.to_string(),
            cells,
            left_out: false,
        };
        let rows = rows.into_iter().enumerate().map(row).collect();
        without_problems(TypedSheet { method, whole, rows })
    }
}

fn makes_sense(inference: &Inference) -> Result<(), TestCaseError> {
    let is_probability = |p: f64| (0.0..=1.0).contains(&p);
    prop_assert!(is_probability(inference.no_slip), "{inference:?}");
    let told = &inference.findings;
    prop_assert!(told.is_sorted_by(|a, b| a.probability >= b.probability));
    for finding in told {
        let p = finding.probability;
        prop_assert!(is_probability(p) && p >= LEAST_PROBABLE, "{finding:?}");
        let rival = finding.rival.map_or(0.0, |rival| rival.probability);
        prop_assert!(is_probability(rival), "{finding:?}");
        let speed = finding.mended.map_or(1.0, |mended| mended.speed);
        prop_assert!(speed.is_finite() && speed > 0.0, "{finding:?}");
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn any_class_is_judged(
        sheets in prop::collection::vec((any_sheet(), prop::sample::select(vec!["", "1", "2"])), 1..4),
    ) {
        let usual = [checked(&tank(used_water())), checked(&string(true))];
        let usual = usual.iter().map(|sheet| Placed { sheet, kit: "1" });
        let drawn = sheets.iter().map(|(sheet, kit)| Placed { sheet, kit });
        let placed: Vec<_> = usual.chain(drawn).collect();
        let inferences = infer(&placed);
        prop_assert_eq!(inferences.len(), placed.len());
        for inference in &inferences {
            makes_sense(inference)?;
        }
        let declared: Vec<_> = placed
            .iter()
            .map(|placed| Declared { sheet: placed.sheet, shared: "" })
            .collect();
        for question in questions(&declared) {
            prop_assert!((LEAST_PROBABLE..=1.0).contains(&question.probability), "{question:?}");
        }
    }
}
