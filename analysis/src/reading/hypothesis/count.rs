//! Waves and loops counted wrong: in every row, or in one.

use crate::field::Field;
use crate::method::Method;
use crate::sheet::Sheet;

use super::super::cause::Cause;
use super::super::observe::Observed;
use super::super::prior::rate;
use super::{Change, Mend, Part, entries, whole};

/// Called nought at the ruler's zero, but begun at one: only where the first
/// number is nought or blank. Where it is one, the working shows it.
pub(super) fn from_one(sheet: &Sheet, seen: &Observed) -> Option<Part> {
    let is_nought = |at: usize| {
        let first = entries(sheet, seen, at).si(Field::FirstCrest);
        first.is_none_or(|first| first < 0.5) && seen.rows[at].waves > 1.5
    };
    let all = 0..seen.rows.len();
    let shift = |(at, waves): (usize, f64)| (at, (waves / (waves - 1.0)).ln());
    let waves = seen.rows.iter().map(|row| row.waves).enumerate();
    all.clone().all(is_nought).then(|| {
        whole(
            Cause::CountedFromOne,
            Field::FirstCrest,
            Change::Shift(waves.map(shift).collect()),
            Mend::Count(-1.0),
            rate::COUNTED_FROM_ONE,
        )
    })
}

/// One loop too many in every row: in the measured length too where that covers
/// all loops.
pub(super) fn nodes_counted(seen: &Observed) -> Option<Part> {
    let mut shifts = Vec::new();
    for at in 0..seen.rows.len() {
        shifts.extend(loops_seen(seen, at, -1.0)?);
    }
    Some(whole(
        Cause::NodesCountedAsLoops,
        Field::Loops,
        Change::Shift(shifts),
        Mend::Count(-1.0),
        rate::NODES_COUNTED,
    ))
}

/// What so many loops more or fewer seen in a row would change: its wavelength,
/// and, where the measured length does not cover all loops, the whole length.
/// `None` where no loop would remain.
fn loops_seen(seen: &Observed, at: usize, by: f64) -> Option<Vec<(usize, f64)>> {
    let row = &seen.rows[at];
    let total = seen.total_of(at);
    let loops = total.map_or(row.waves, |total| total.loops);
    if loops + by < 0.5 {
        return None;
    }
    let shift = ((loops + by) / loops).ln();
    let mut shifts = vec![(at, -shift)];
    let residual = total.and_then(|total| total.residual);
    if let Some(residual) = residual.filter(|_| !covers_all(seen, at)) {
        shifts.push((residual, shift));
    }
    Some(shifts)
}

/// Whether the measured length covers all the loops that were seen, so that the
/// two counts are one.
pub(in crate::reading) fn covers_all(seen: &Observed, at: usize) -> bool {
    let total = seen.total_of(at);
    total.is_none_or(|total| (total.loops - seen.rows[at].waves).abs() < 0.5)
}

/// One wave or loop too many or too few in a row.
pub(super) fn miscounts(sheet: &Sheet, seen: &Observed, at: usize) -> Vec<Part> {
    let row = &seen.rows[at];
    let part = |cause, step, by: f64, shifts, rate: f64| Part {
        row: Some(row.row),
        ..whole(
            cause,
            step,
            Change::Shift(shifts),
            Mend::Count(by),
            rate / 2.0,
        )
    };
    let blank = entries(sheet, seen, at).get(Field::Loops).is_none();
    let mut parts = Vec::new();
    for by in [-1.0, 1.0] {
        let counted = (row.waves + by > 0.5).then(|| (row.waves / (row.waves + by)).ln());
        if seen.method == Method::RippleTank {
            let (cause, rate) = (Cause::CrestMiscount, rate::CREST_MISCOUNT_ROW);
            let shifts = counted.map(|shift| vec![(at, shift)]);
            parts.extend(shifts.map(|shifts| part(cause, Field::LastCrest, by, shifts, rate)));
            continue;
        }
        let (cause, rate) = (Cause::LoopMiscount, rate::LOOP_MISCOUNT_ROW);
        let step = if blank {
            Field::LengthLoops
        } else {
            Field::Loops
        };
        let shifts = loops_seen(seen, at, by);
        parts.extend(shifts.map(|shifts| part(cause, step, by, shifts, rate)));
        // Loops in the measured length, counted apart from those seen.
        let total = seen.total_of(at).and_then(|total| total.residual);
        if let (Some(total), Some(shift), false) = (total, counted, covers_all(seen, at)) {
            parts.push(part(
                cause,
                Field::LengthLoops,
                by,
                vec![(total, shift)],
                rate,
            ));
        }
    }
    parts
}
