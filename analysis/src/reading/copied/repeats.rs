//! Repeats of one setting that show no spread, where the ruler would show
//! some.

use super::taken::{Taken, TakenRow};
use super::{Question, chance, words};
use crate::reading::prior::agreement as prior;

/// A question where every repeat of a sheet shows the first one's figures.
pub(super) fn question(sheet: usize, taken: &Taken) -> Option<Question> {
    let mut firsts: Vec<&TakenRow> = Vec::new();
    let mut repeats: Vec<(&TakenRow, &TakenRow)> = Vec::new();
    for row in &taken.rows {
        match firsts.iter().find(|first| first.setting == row.setting) {
            Some(first) => repeats.push((first, row)),
            None => firsts.push(row),
        }
    }
    if repeats.is_empty() || !repeats.iter().all(|(first, row)| is_alike(first, row)) {
        return None;
    }
    let measured: f64 = prior::SCATTER
        .into_iter()
        .map(|(scatter, weight)| weight * by_chance(&repeats, scatter * prior::REPEATS_SCATTER))
        .sum();
    let odds = prior::REPEATS_MADE_UP * prior::MADE_UP_WITHOUT_SPREAD / measured.max(1e-300);
    let mut rows: Vec<_> = repeats
        .iter()
        .flat_map(|(f, row)| [f.index, row.index])
        .collect();
    rows.sort_unstable();
    rows.dedup();
    Some(Question {
        sheets: vec![sheet],
        rows: vec![(sheet, rows)],
        probability: odds / (1.0 + odds),
        sentence: words::without_spread(repeats.len()),
        why: words::repeats_by_chance(measured),
    })
}

fn is_alike(first: &TakenRow, row: &TakenRow) -> bool {
    first.readings.len() == row.readings.len()
        && first
            .readings
            .iter()
            .zip(&row.readings)
            .all(|(one, other)| one.field == other.field && one.agrees(other))
}

fn by_chance(repeats: &[(&TakenRow, &TakenRow)], scatter: f64) -> f64 {
    let readings = repeats.iter().flat_map(|(_, row)| &row.readings);
    readings
        .map(|reading| chance::of_agreeing(reading.step, scatter * reading.sd, 0.0))
        .product()
}
