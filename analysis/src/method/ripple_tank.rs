//! Ripples on water: f, then the wavelength on the screen, the enlargement,
//! the wavelength on the water, its reciprocal, the speed.
//!
//! λ = span / (last − first) / M with M = image / true; v = f λ.

use crate::field::Field;
use crate::interval::Interval;
use crate::sheet::Sheet;
use crate::slip::Slip;
use crate::stats::spread;
use crate::wave::water::Water;
use crate::working::step::{Inputs, Operation, Step, Turn, fed, written};

use super::shared::{self, FREQUENCY, RECIPROCAL, SPEED};

pub(super) const CHAIN: &[Step] = &[FREQUENCY, MAGNIFICATION, WAVELENGTH, RECIPROCAL, SPEED];

/// The depth (m) taken where none was recorded: the one most tanks are filled
/// to. Common practice, no source.
const USUAL_DEPTH: f64 = 0.005;

/// The temperature (°C) taken where none was recorded.
const USUAL_TEMPERATURE: f64 = 20.0;

/// The speed (m/s) of ripples of `frequency` (Hz) on clean water of the depth
/// and temperature recorded. A used tank's water runs some per cent slower.
pub(super) fn expected_speed(sheet: &Sheet, frequency: f64) -> f64 {
    recorded(sheet).speed(frequency)
}

/// How that speed's logarithm moves per N/m of surface tension, and per unit
/// of ln depth.
pub(super) fn speed_moves_by(sheet: &Sheet, frequency: f64) -> (f64, f64) {
    let moves = recorded(sheet).ln_wavelength(frequency);
    (moves.by_surface_tension, moves.by_ln_depth)
}

fn recorded(sheet: &Sheet) -> Water {
    let depth = sheet.whole.si(Field::Depth).unwrap_or(USUAL_DEPTH);
    let temperature = sheet
        .whole
        .si(Field::Temperature)
        .unwrap_or(USUAL_TEMPERATURE);
    Water::clean(temperature, depth)
}

/// Surface tensions (N/m) tried when rows are judged, from a dirty tank to
/// clean water. Our choice (the range of the methods' prior).
const TENSIONS: [f64; 4] = [0.045, 0.055, 0.063, 0.0728];

/// Depths (m) tried where none was recorded. Our choice: by simulation of
/// clean sheets from tanks 4 to 12 mm deep, the best-fitting of plausible
/// curves accuses about 6 % where one assumed depth accuses up to a third.
const DEPTHS: [f64; 5] = [0.004, 0.005, 0.006, 0.008, 0.012];

/// ln v less the plausible curve that leaves the least scatter: used water of
/// the recorded depth, or of a usual one where none was recorded. A tank's
/// dirt and depth bend the curve for all rows; they must not accuse one.
pub(super) fn levels(sheet: &Sheet, points: &[(f64, f64)]) -> Vec<f64> {
    let temperature = sheet
        .whole
        .si(Field::Temperature)
        .unwrap_or(USUAL_TEMPERATURE);
    let about = |depth: f64, surface_tension: f64| -> Vec<f64> {
        let water = Water {
            surface_tension,
            ..Water::clean(temperature, depth)
        };
        points
            .iter()
            .map(|(f, v)| (v / water.speed(*f)).ln())
            .collect()
    };
    let recorded = sheet.whole.si(Field::Depth).map(|depth| vec![depth]);
    let scatter = |levels: &Vec<f64>| spread::sample_sd(levels).unwrap_or(0.0);
    recorded
        .unwrap_or_else(|| DEPTHS.to_vec())
        .into_iter()
        .flat_map(|depth| TENSIONS.map(|tension| about(depth, tension)))
        .min_by(|one, other| scatter(one).total_cmp(&scatter(other)))
        .unwrap_or_default()
}

const MAGNIFICATION: Step = Step {
    field: Field::Magnification,
    needs: &[],
    right: magnification,
    also_right: None,
    wrong: &[Turn {
        slip: Slip::ScaleUpsideDown,
        about: Operation::Scaling,
        apply: |_, m| Some(m.recip()),
    }],
    arithmetic: |inputs, figures| {
        format!(
            "{} ÷ {} = {}",
            inputs.typed(Field::ScaleImage),
            inputs.typed(Field::ScaleTrue),
            written(magnification(inputs), None, figures.max(3))
        )
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

fn arithmetic(inputs: &Inputs<'_>, figures: u32) -> String {
    let unit = inputs
        .entry(Field::Span)
        .and_then(crate::sheet::Entry::reading_unit);
    let symbol = unit.map_or("", crate::unit::Unit::symbol);
    let screen = fed(on_screen(inputs), unit);
    let first = format!(
        "{} ÷ {} = {screen} {symbol}",
        inputs.typed(Field::Span),
        waves(inputs).unwrap_or(f64::NAN),
    );
    match inputs.figure(Field::Magnification) {
        None => first,
        Some(m) => format!(
            "{first}; on the water {screen} ÷ {} = {} {symbol}",
            fed(Some(m), None),
            written(wavelength(inputs), unit, figures),
        ),
    }
}
