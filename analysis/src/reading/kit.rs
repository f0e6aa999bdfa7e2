//! Sheets sorted by the apparatus that they share, and judged together.

use std::collections::BTreeMap;

use crate::field::Role;
use crate::method::Method;
use crate::method::model::Recorded;
use crate::method::model::state::States;
use crate::sheet::{Entries, Sheet};
use crate::text::folded;
use crate::unit::Unit;

use super::case::Case;
use super::curve::Curves;
use super::posterior::{Posterior, inference};
use super::table::Table;
use super::tree::{KitEvidence, weights};
use super::{Inference, Placed};

/// Sheets that share one apparatus, with their evidence.
struct Kit<'s> {
    /// Which sheet each case is.
    sheets: Vec<usize>,
    cases: Vec<Case<'s>>,
    states: States,
    curves: Curves,
    tables: Vec<Table>,
}

/// Sheets with the same readings to the last letter are one set of readings,
/// shared or copied: it is judged once, or it would count as so many witnesses
/// that agree.
pub(super) fn infer(sheets: &[Placed<'_>]) -> Vec<Inference> {
    let mut first: BTreeMap<String, usize> = BTreeMap::new();
    let mut own = Vec::new();
    let set_of: Vec<_> = sheets
        .iter()
        .map(|placed| {
            *first.entry(readings(placed.sheet)).or_insert_with(|| {
                own.push(*placed);
                own.len() - 1
            })
        })
        .collect();
    let inferences = infer_each(&own);
    set_of
        .into_iter()
        .map(|set| inferences[set].clone())
        .collect()
}

/// Everything that was read, as typed.
fn readings(sheet: &Sheet) -> String {
    let mut all = String::from(sheet.method.code());
    let mut add = |entries: &Entries| {
        for (field, entry) in entries.iter().filter(|(f, _)| f.role() == Role::Reading) {
            let unit = entry.reading_unit().map_or("", Unit::symbol);
            for part in [field.name(), entry.figure.text().trim(), unit] {
                all.push(';');
                all.push_str(part);
            }
        }
        all.push('\n');
    };
    add(&sheet.whole);
    sheet.rows.iter().for_each(|row| add(&row.entries));
    for row in &sheet.rows {
        all.push_str(&row.label);
        all.push(if row.left_out { '-' } else { '+' });
    }
    all
}

fn infer_each(sheets: &[Placed<'_>]) -> Vec<Inference> {
    let kits = kits(sheets);
    let evidence: Vec<_> = kits
        .iter()
        .map(|kit| KitEvidence {
            states: &kit.states,
            tables: kit.tables.iter().collect(),
        })
        .collect();
    let weights = weights(&evidence);
    let mut inferences = vec![Inference::default(); sheets.len()];
    for (kit, weights) in kits.iter().zip(&weights) {
        let cases = kit.cases.iter().zip(&kit.tables).zip(weights);
        for (at, ((case, table), weights)) in kit.sheets.iter().zip(cases) {
            let posterior = Posterior::new(case, &kit.states, &kit.curves, table, weights);
            inferences[*at] = inference(&posterior);
        }
    }
    inferences
}

/// Which sheets share an apparatus: those of one method that name the same
/// kit and do not say different things of it. A sheet that names no kit is
/// alone.
fn kits<'s>(sheets: &[Placed<'s>]) -> Vec<Kit<'s>> {
    let mut by_kit: BTreeMap<(Method, String, String), Vec<usize>> = BTreeMap::new();
    let agreed = agreed(sheets);
    for (at, placed) in sheets.iter().enumerate() {
        let (method, label) = (placed.sheet.method, folded(placed.kit));
        let said = if label.is_empty() {
            at.to_string()
        } else {
            let own = recorded(placed.sheet).map(|recorded| recorded.value);
            let value = own.or_else(|| agreed.get(&(method, label.clone())).copied());
            value.map_or_else(String::new, |value| format!("{value:.3e}"))
        };
        by_kit.entry((method, label, said)).or_default().push(at);
    }
    by_kit
        .into_values()
        .filter_map(|members| kit(sheets, &members))
        .collect()
}

/// What a sheet says of its kit that parts it from others.
fn recorded(sheet: &Sheet) -> Option<Recorded> {
    sheet.method.model().recorded(&sheet.whole)
}

/// What was recorded of each kit on which all sheets that recorded it agree:
/// the others take it from them.
fn agreed(sheets: &[Placed<'_>]) -> BTreeMap<(Method, String), f64> {
    let mut by_kit: BTreeMap<_, Option<f64>> = BTreeMap::new();
    for placed in sheets {
        let Some(Recorded { value, .. }) = recorded(placed.sheet) else {
            continue;
        };
        let key = (placed.sheet.method, folded(placed.kit));
        let known = by_kit.entry(key).or_insert(Some(value));
        if known.is_some_and(|known| (known / value - 1.0).abs() > 1e-3) {
            *known = None;
        }
    }
    by_kit
        .into_iter()
        .filter_map(|(kit, value)| Some((kit, value?)))
        .collect()
}

fn kit<'s>(sheets: &[Placed<'s>], members: &[usize]) -> Option<Kit<'s>> {
    let recorded = members.iter().find_map(|at| recorded(sheets[*at].sheet));
    let (members, cases): (Vec<_>, Vec<_>) = members
        .iter()
        .filter_map(|at| Some((*at, Case::of(sheets[*at].sheet, recorded)?)))
        .unzip();
    let states = cases.first()?.model().states(recorded, cases.len() > 1);
    let frequencies = cases.iter().flat_map(Case::frequencies).collect();
    let curves = Curves::of(&states, frequencies);
    let tables = cases
        .iter()
        .map(|case| Table::of(case, &states, &curves))
        .collect();
    Some(Kit {
        sheets: members,
        cases,
        states,
        curves,
        tables,
    })
}
