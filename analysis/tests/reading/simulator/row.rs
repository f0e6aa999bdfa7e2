//! Rows as written down, and the slips of single ones.

use analysis::reading::Cause;
use rand::Rng;
use rand::rngs::StdRng;

use super::Event;
use super::school;
use super::slip::{Plan, slipping_rows, swaps};

/// A row as written down.
pub(super) struct Row {
    pub(super) dial: String,
    pub(super) times: u32,
    /// The last number called, or the loops seen.
    pub(super) count: u32,
    /// The span, or the length along the string.
    pub(super) length: String,
}

/// Rows on a sheet: 4 to 6, or 2 or 3.
pub(super) fn rows_on_a_sheet(rng: &mut StdRng) -> usize {
    if rng.random_bool(school::SHORT_SHEETS) {
        rng.random_range(2..=3)
    } else {
        rng.random_range(4..=6)
    }
}

/// Makes the slips of single rows, and says which happened. `is_counted`:
/// whether a miscount would show.
pub(super) fn slips_in_rows(
    rng: &mut StdRng,
    plan: &Plan,
    rows: &mut [Row],
    is_counted: bool,
) -> Vec<Event> {
    let Plan::Rows(causes) = plan else {
        return Vec::new();
    };
    let picked = slipping_rows(rng, causes.len(), rows.len());
    let mut truth: Vec<Event> = Vec::new();
    for (cause, at) in causes.iter().zip(picked) {
        let made = match cause {
            _ if truth.iter().any(|(_, row)| *row == Some(at)) => None,
            Cause::CrestMiscount | Cause::LoopMiscount if is_counted => {
                let count = &mut rows[at].count;
                let one_more = *count == 1 || rng.random_bool(0.5);
                *count = if one_more { *count + 1 } else { *count - 1 };
                Some(at)
            }
            Cause::DialMultiplierLeftOut if rows[at].times > 1 => {
                rows[at].times = 1;
                Some(at)
            }
            Cause::DigitsSwapped => swap(rng, rows, at, &truth),
            _ => None,
        };
        truth.extend(made.map(|at| (*cause, Some(at))));
    }
    truth
}

/// Swaps two digits of a row; of another one where that row has none to swap.
fn swap(rng: &mut StdRng, rows: &mut [Row], at: usize, taken: &[Event]) -> Option<usize> {
    let mut at = at;
    for _ in 0..50 {
        let in_length = rng.random_bool(school::SWAPS_IN_SPAN);
        let row = &mut rows[at];
        let text = if in_length {
            &mut row.length
        } else {
            &mut row.dial
        };
        let choices = swaps(text);
        if choices.is_empty() || taken.iter().any(|(_, row)| *row == Some(at)) {
            at = rng.random_range(0..rows.len());
            continue;
        }
        text.clone_from(&choices[rng.random_range(0..choices.len())]);
        return Some(at);
    }
    None
}
