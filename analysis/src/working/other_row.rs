//! Another row's figure: copied, or worked with.
//!
//! With six rows there are some fifteen such ways, and a careless figure
//! would often come near one of them. So it is looked for only where no named
//! turn gives the figure, in figures to half a per cent or finer, and where
//! the other row's figure puts it clearly elsewhere than the right one.
//! (Our choice, no source.)

use crate::entry::Entries;
use crate::field::{Field, Place};
use crate::interval::Interval;
use crate::method::step::Step;

use super::chain::{Basis, Borrowed, Chain, View};
use super::judge::Given;

/// Half a unit in the last place of a figure that can tell rows apart, as a
/// share of it.
const FINE: f64 = 0.005;

/// How far from the right one another row's figure must put it, as a share.
const CLEAR: f64 = 0.05;

/// Whether a figure is another row's, or was worked out with another row's.
pub(super) fn is_used(chain: &Chain<'_>, step: &Step, given: &Given<'_>) -> bool {
    let figure = given.entry.interval();
    if step.field.place() != Place::Row || figure.width() > 2.0 * FINE * figure.mid().abs() {
        return false;
    }
    [Basis::Own, Basis::Ours].into_iter().any(|basis| {
        let view = View {
            basis,
            target: Some(step.field),
            unit: given.entry.reading_unit(),
            ..View::OURS
        };
        let Some(right) = chain.figure(given.row, step.field, &view) else {
            return false;
        };
        let is_clear = |other: Interval| (other.mid() / right.mid()).ln().abs() > CLEAR;
        let gives = |other: Interval| figure.contains(other.mid());
        let others = (0..chain.sheet.rows.len()).filter(|row| *row != given.row);
        let mut worked = others.flat_map(|row| with_figures_of(chain, step, given.row, row, &view));
        worked.any(|other| is_clear(other) && gives(other))
    })
}

/// The figure as the other row has it, and as it comes out with one of the
/// other row's figures.
fn with_figures_of(
    chain: &Chain<'_>,
    step: &Step,
    row: usize,
    other: usize,
    view: &View<'_>,
) -> Vec<Interval> {
    let copied = chain.figure(other, step.field, view);
    let needed = step
        .needs
        .iter()
        .filter(|field| field.place() == Place::Row);
    let with_needed = needed.filter_map(|field| {
        let figure = chain.figure(other, *field, view)?;
        chain.figure_borrowing(row, step.field, view, &Borrowed::Figure(*field, figure))
    });
    let measured = step
        .measured
        .iter()
        .filter(|field| field.place() == Place::Row);
    let with_measured = measured.filter_map(|field| {
        let entries = borrowing(chain, row, other, *field)?;
        chain.figure_borrowing(row, step.field, view, &Borrowed::Reading(entries))
    });
    copied
        .into_iter()
        .chain(with_needed)
        .chain(with_measured)
        .collect()
}

/// A row's readings with one of another row's.
fn borrowing(chain: &Chain<'_>, row: usize, other: usize, field: Field) -> Option<Entries> {
    let mut entries = chain.sheet.rows[row].entries.clone();
    entries.get(field)?;
    entries.insert(field, chain.sheet.rows[other].entries.get(field)?.clone());
    Some(entries)
}
