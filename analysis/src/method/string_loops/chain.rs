//! Loops on a stretched string: f, then the wavelength from the measured
//! loops, its reciprocal, the speed.
//!
//! λ = 2 × length / loops, since a loop is half a wavelength; v = f λ.

use crate::entry::{Entries, Entry};
use crate::field::Field;
use crate::interval::Interval;
use crate::method::shared::{FREQUENCY, RECIPROCAL, SPEED};
use crate::method::step::{Inputs, Operation, Step, Turn, written};
use crate::slip::Slip;
use crate::sum::Sum;
use crate::unit::Unit;

pub(super) const CHAIN: &[Step] = &[FREQUENCY, WAVELENGTH, RECIPROCAL, SPEED];

/// Loops in the measured length. Where only the loops seen were written, the
/// length was measured from end to end.
pub(super) fn loops_in_length(row: &Entries) -> Option<f64> {
    row.si(Field::LengthLoops)
        .or_else(|| row.si(Field::Loops))
}

fn loops(inputs: &Inputs<'_>) -> Option<f64> {
    loops_in_length(inputs.row?)
}

fn wavelength(inputs: &Inputs<'_>) -> Option<Interval> {
    let one_loop = inputs.exact(Field::Length)? / Interval::exact(loops(inputs)?);
    Some(inputs.carried(one_loop).scale(2.0))
}

const WAVELENGTH: Step = Step {
    field: Field::Wavelength,
    needs: &[],
    measured: &[Field::Length],
    right: wavelength,
    also_right: None,
    wrong: &[
        Turn {
            slip: Slip::LoopTakenAsWavelength,
            about: Operation::Halving,
            apply: |_, wavelength| Some(wavelength.scale(0.5)),
        },
        Turn {
            slip: Slip::NodesCountedAsLoops,
            about: Operation::Counting,
            apply: |inputs, wavelength| {
                let loops = loops(inputs)?;
                Some(wavelength.scale(loops / (loops + 1.0)))
            },
        },
        // Right where there are two loops, and so no turn in that row.
        Turn {
            slip: Slip::SpanNotDivided,
            about: Operation::Counting,
            apply: |inputs, wavelength| Some(wavelength.scale(0.5 * loops(inputs)?)),
        },
        // One loop has no node between its ends to divide by.
        Turn {
            slip: Slip::InnerNodesCounted,
            about: Operation::Counting,
            apply: |inputs, wavelength| {
                let loops = loops(inputs)?;
                (loops > 1.0).then(|| wavelength.scale(loops / (loops - 1.0)))
            },
        },
    ],
    arithmetic: |inputs, figures| {
        let unit = inputs.entry(Field::Length).and_then(Entry::reading_unit);
        Sum::Figures(format!(
            "2 × {} ÷ {} = {} {}",
            inputs.typed(Field::Length),
            loops(inputs).unwrap_or(f64::NAN),
            written(wavelength(inputs), unit, figures),
            unit.map_or("", Unit::symbol),
        ))
    },
};
