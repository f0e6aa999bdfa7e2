//! Ripples on water: f, then the wavelength on the screen, the enlargement,
//! the wavelength on the water, its reciprocal, the speed.
//!
//! λ = span / (last − first) / M with M = image / true; v = f λ.

use crate::entry::Entry;
use crate::field::Field;
use crate::interval::Interval;
use crate::method::shared::{self, FREQUENCY, RECIPROCAL, SPEED};
use crate::method::step::{Inputs, Operation, Step, Turn, fed, written};
use crate::slip::Slip;
use crate::sum::Sum;
use crate::unit::Unit;

pub(super) const CHAIN: &[Step] = &[FREQUENCY, MAGNIFICATION, WAVELENGTH, RECIPROCAL, SPEED];

const MAGNIFICATION: Step = Step {
    field: Field::Magnification,
    needs: &[],
    measured: &[Field::ScaleImage, Field::ScaleTrue],
    right: magnification,
    also_right: None,
    wrong: &[Turn {
        slip: Slip::ScaleUpsideDown,
        about: Operation::Scaling,
        apply: |_, m| Some(m.recip()),
    }],
    arithmetic: |inputs, figures| {
        Sum::Figures(format!(
            "{} ÷ {} = {}",
            inputs.typed(Field::ScaleImage),
            inputs.typed(Field::ScaleTrue),
            written(magnification(inputs), None, figures.max(3))
        ))
    },
};

fn magnification(inputs: &Inputs<'_>) -> Option<Interval> {
    Some(inputs.exact(Field::ScaleImage)? / inputs.exact(Field::ScaleTrue)?)
}

/// The enlargement that the wavelength is divided by. Where neither length of
/// the known object was given, wavelengths were measured in the water itself;
/// where one of the two is missing, it is not known yet.
fn enlargement(inputs: &Inputs<'_>) -> Option<Interval> {
    let known = inputs.figure(Field::Magnification);
    let half_given =
        inputs.entry(Field::ScaleImage).is_some() || inputs.entry(Field::ScaleTrue).is_some();
    match known {
        None if !half_given => Some(Interval::exact(1.0)),
        known => known,
    }
}

fn waves(inputs: &Inputs<'_>) -> Option<f64> {
    inputs.count(Field::FirstCrest, Field::LastCrest)
}

fn on_screen(inputs: &Inputs<'_>) -> Option<Interval> {
    Some(inputs.exact(Field::Span)? / Interval::exact(waves(inputs)?))
}

fn wavelength(inputs: &Inputs<'_>) -> Option<Interval> {
    Some(inputs.carried(on_screen(inputs)?) / enlargement(inputs)?)
}

const WAVELENGTH: Step = Step {
    field: Field::Wavelength,
    needs: &[Field::Magnification],
    measured: &[Field::Span],
    right: wavelength,
    also_right: None,
    wrong: &[
        Turn {
            slip: Slip::CountedFromOne,
            about: Operation::Counting,
            apply: |inputs, wavelength| {
                // Whether the first line was called nought or one, counting
                // lines for gaps makes one too many.
                let gaps = waves(inputs)?;
                Some(wavelength.scale(gaps / (gaps + 1.0)))
            },
        },
        Turn {
            slip: Slip::SpanNotDivided,
            about: Operation::Counting,
            apply: |inputs, wavelength| Some(wavelength.scale(waves(inputs)?)),
        },
        Turn {
            slip: Slip::ScaleLeftOut,
            about: Operation::Scaling,
            apply: |inputs, wavelength| Some(wavelength * inputs.figure(Field::Magnification)?),
        },
        Turn {
            slip: Slip::ScaleMultiplied,
            about: Operation::Scaling,
            apply: |inputs, wavelength| {
                let m = inputs.figure(Field::Magnification)?;
                Some(wavelength * m * m)
            },
        },
        shared::HALVED,
        shared::DOUBLED,
    ],
    arithmetic,
};

fn arithmetic(inputs: &Inputs<'_>, figures: u32) -> Sum {
    let unit = inputs.entry(Field::Span).and_then(Entry::reading_unit);
    let symbol = unit.map_or("", Unit::symbol);
    let screen = fed(on_screen(inputs), unit);
    let first = format!(
        "{} ÷ {} = {screen} {symbol}",
        inputs.typed(Field::Span),
        waves(inputs).unwrap_or(f64::NAN),
    );
    match inputs.figure(Field::Magnification) {
        None => Sum::Figures(first),
        Some(m) => {
            let on_water = format!(
                "{screen} ÷ {} = {} {symbol}",
                fed(Some(m), None),
                written(wavelength(inputs), unit, figures),
            );
            Sum::OnWater(first, on_water)
        }
    }
}
