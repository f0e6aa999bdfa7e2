//! The steps that every method with a frequency and a wavelength shares.

use crate::field::Field;
use crate::interval::Interval;
use crate::slip::Slip;
use crate::sum::Sum;
use crate::unit::Unit;

use super::step::{Inputs, Operation, Step, Turn, fed, written};

/// f = dial × multiplier, or waves counted ÷ time.
pub(super) const FREQUENCY: Step = Step {
    field: Field::Frequency,
    needs: &[],
    measured: &[Field::Dial, Field::Seconds],
    right: frequency,
    also_right: None,
    wrong: &[
        Turn {
            slip: Slip::DialMultiplierLeftOut,
            about: Operation::Multiplier,
            apply: |inputs, f| Some(f.scale(1.0 / inputs.reading(Field::DialTimes)?)),
        },
        Turn {
            slip: Slip::CountNotDivided,
            about: Operation::Timing,
            apply: |inputs, f| match dial(inputs) {
                Some(_) => None,
                None => Some(f.scale(inputs.reading(Field::Seconds)?)),
            },
        },
        // Counting calls for waves makes one too many.
        Turn {
            slip: Slip::CountedFromOne,
            about: Operation::Multiplier,
            apply: |inputs, f| match dial(inputs) {
                Some(_) => None,
                None => passes(inputs).map(|waves| f.scale((waves + 1.0) / waves)),
            },
        },
        Turn {
            slip: Slip::PeriodAsFrequency,
            about: Operation::Timing,
            apply: |_, f| Some(f.recip()),
        },
    ],
    arithmetic: |inputs, figures| {
        let result = written(frequency(inputs), None, figures);
        match (dial(inputs), inputs.reading(Field::DialTimes)) {
            (Some(_), Some(times)) => {
                let dial = inputs.typed(Field::Dial);
                Sum::Figures(format!("{dial} × {times} = {result} Hz"))
            }
            (Some(_), None) => Sum::Dial(inputs.typed(Field::Dial)),
            (None, _) => Sum::Waves(
                passes(inputs).unwrap_or(f64::NAN).to_string(),
                format!("{} = {result} Hz", inputs.typed(Field::Seconds)),
            ),
        }
    },
};

fn dial(inputs: &Inputs<'_>) -> Option<f64> {
    inputs.reading(Field::Dial)
}

fn passes(inputs: &Inputs<'_>) -> Option<f64> {
    inputs.count(Field::PassesFirst, Field::PassesLast)
}

fn frequency(inputs: &Inputs<'_>) -> Option<Interval> {
    let value = match dial(inputs) {
        Some(dial) => dial * inputs.reading(Field::DialTimes).unwrap_or(1.0),
        None => passes(inputs)? / inputs.reading(Field::Seconds)?,
    };
    Some(Interval::exact(value))
}

/// 1/λ.
pub(super) const RECIPROCAL: Step = Step {
    field: Field::Reciprocal,
    needs: &[Field::Wavelength],
    measured: &[],
    right: |inputs| Some(inputs.figure(Field::Wavelength)?.recip()),
    also_right: None,
    wrong: &[
        Turn {
            slip: Slip::ReciprocalLeftOut,
            about: Operation::Combining,
            apply: |inputs, _| mistaken(inputs, named_length(inputs), |l| l),
        },
        Turn {
            slip: Slip::ReciprocalLeftOut,
            about: Operation::Combining,
            apply: |inputs, _| mistaken(inputs, own_length(inputs), |l| l),
        },
    ],
    arithmetic: |inputs, figures| {
        let wavelength = inputs.figure(Field::Wavelength);
        let length = named_length(inputs);
        Sum::Figures(format!(
            "1 ÷ {} {length} = {} 1/{length}",
            fed(wavelength, Some(length)),
            written(
                wavelength.map(|l| l.scale(1.0 / length.si()).recip()),
                None,
                figures
            ),
            length = length.symbol(),
        ))
    },
};

/// v = f λ.
pub(super) const SPEED: Step = Step {
    field: Field::Speed,
    needs: &[Field::Frequency, Field::Wavelength],
    measured: &[],
    right: |inputs| Some(inputs.figure(Field::Frequency)? * inputs.figure(Field::Wavelength)?),
    also_right: Some(|inputs| {
        Some(inputs.figure(Field::Frequency)? / inputs.figure(Field::Reciprocal)?)
    }),
    wrong: &[
        Turn {
            slip: Slip::SpeedDivided,
            about: Operation::Combining,
            apply: |inputs, _| divided(inputs, named_length(inputs)),
        },
        Turn {
            slip: Slip::SpeedDivided,
            about: Operation::Combining,
            apply: |inputs, _| divided(inputs, own_length(inputs)),
        },
        Turn {
            slip: Slip::SpeedInverted,
            about: Operation::Combining,
            apply: |inputs, _| inverted(inputs, named_length(inputs)),
        },
        Turn {
            slip: Slip::SpeedInverted,
            about: Operation::Combining,
            apply: |inputs, _| inverted(inputs, own_length(inputs)),
        },
    ],
    arithmetic: |inputs, figures| {
        let f = inputs.figure(Field::Frequency);
        let wavelength = inputs.figure(Field::Wavelength);
        let length = Some(named_length(inputs));
        let speed = f.zip(wavelength).map(|(f, wavelength)| f * wavelength);
        let symbol = named_length(inputs).symbol();
        Sum::Figures(format!(
            "{} Hz × {} {symbol} = {} {symbol}/s",
            fed(f, None),
            fed(wavelength, length),
            written(speed, length, figures),
        ))
    },
};

/// λ × ½: half a wave taken for one.
pub(super) const HALVED: Turn = Turn {
    slip: Slip::CrestToTrough,
    about: Operation::Halving,
    apply: |_, wavelength| Some(wavelength.scale(0.5)),
};

/// λ × 2: one wave taken for half.
pub(super) const DOUBLED: Turn = Turn {
    slip: Slip::CrestToTrough,
    about: Operation::Halving,
    apply: |_, wavelength| Some(wavelength.scale(2.0)),
};

/// The length in the name of the judged figure's unit: cm for cm/s and 1/cm.
fn named_length(inputs: &Inputs<'_>) -> Unit {
    match inputs.unit {
        Some(Unit::MillimetrePerSecond) => Unit::Millimetre,
        Some(Unit::CentimetrePerSecond | Unit::PerCentimetre) => Unit::Centimetre,
        _ => Unit::Metre,
    }
}

/// The unit in which the group wrote its wavelength.
fn own_length(inputs: &Inputs<'_>) -> Unit {
    inputs
        .entry(Field::Wavelength)
        .and_then(crate::entry::Entry::reading_unit)
        .unwrap_or(Unit::Metre)
}

/// A figure that measures the wrong thing has no right unit: what the group
/// wrote is the bare number that their calculator showed with the wavelength
/// in `length`, read in the unit of the box.
fn mistaken(
    inputs: &Inputs<'_>,
    length: Unit,
    number: impl Fn(Interval) -> Interval,
) -> Option<Interval> {
    let wavelength = inputs.figure(Field::Wavelength)?.scale(1.0 / length.si());
    Some(number(wavelength).scale(inputs.unit.map_or(1.0, Unit::si)))
}

fn divided(inputs: &Inputs<'_>, length: Unit) -> Option<Interval> {
    let f = inputs.figure(Field::Frequency)?;
    mistaken(inputs, length, |wavelength| f / wavelength)
}

fn inverted(inputs: &Inputs<'_>, length: Unit) -> Option<Interval> {
    let f = inputs.figure(Field::Frequency)?;
    mistaken(inputs, length, |wavelength| wavelength / f)
}
