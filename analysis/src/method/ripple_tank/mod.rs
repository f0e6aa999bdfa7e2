//! Ripples on water, seen enlarged on a screen.

mod chain;
mod model;
mod states;

use crate::cause::Cause;
use crate::check::Check;
use crate::entry::Row;
use crate::field::Field;
use crate::kit::Kind;
use crate::unit::Unit;

use super::spec::{Marks, Spec};

pub(super) static SPEC: Spec = Spec {
    code: "ripple-tank",
    whole: &[
        Field::ScaleTrue,
        Field::ScaleImage,
        Field::Magnification,
        Field::Depth,
        Field::Temperature,
    ],
    columns: &[
        Field::Dial,
        Field::DialTimes,
        Field::FirstCrest,
        Field::LastCrest,
        Field::Span,
    ],
    counted: &[Field::PassesFirst, Field::PassesLast, Field::Seconds],
    results: &[Field::MeanSpeed, Field::Uncertainty, Field::Gradient],
    length: Field::Span,
    set_by: Field::Frequency,
    graph: [Field::Reciprocal, Field::Frequency],
    is_dispersive: true,
    headings: &[
        (Field::ScaleImage, Unit::Centimetre),
        (Field::ScaleTrue, Unit::Centimetre),
        (Field::Span, Unit::Centimetre),
        (Field::Wavelength, Unit::Centimetre),
    ],
    usual: &[
        (Field::Depth, 0.002, 0.06),
        (Field::Temperature, 5.0, 40.0),
        (Field::Span, 0.01, 1.5),
        (Field::ScaleImage, 0.01, 1.5),
        (Field::ScaleTrue, 0.005, 1.0),
        (Field::Seconds, 2.0, 300.0),
    ],
    frequencies: (1.0, 100.0),
    kit: Kind::Tank,
    cautions: &["flashing", "water", "dark"],
    causes: &[
        Cause::CountedFromOne,
        Cause::CrestMiscount,
        Cause::DialMultiplierLeftOut,
        Cause::ScaleUpsideDown,
        Cause::DigitsSwapped,
        Cause::CrestToTrough,
        Cause::ZeroError,
        Cause::StrobeAtHalf,
        Cause::DirtyWater,
        Cause::DepthOff,
        Cause::LampOff,
        Cause::DialOff,
    ],
    marks: Marks {
        steps: "Key steps: a lamp above the tank and a screen below it; an object of known length, measured again in its picture on the screen; a pattern still enough to measure, by a flashing lamp or in a photograph; a ruler square across the lines; about ten waves at once, the first line called nought; the frequency off the dial with its multiplier, or counted over ten seconds or more; speed = frequency × wavelength on the water; five frequencies, one of them again; a hazard and what is done about it, for instance water near the mains or a flashing lamp.",
        worked: &[
            (Check::EnlargementFound, "Enlargement: image ÷ object", 1),
            (
                Check::EnlargementApplied,
                "Wavelength divided by the enlargement",
                1,
            ),
            (
                Check::Wavelength,
                "Wavelength: the span ÷ the number of waves",
                1,
            ),
        ],
        many: has_many_waves,
    },
    chain: chain::CHAIN,
    model: &model::Tank,
};

/// About ten waves in a span: so many are enough.
const MANY_WAVES: f64 = 8.0;

fn has_many_waves(row: &Row, _: f64) -> bool {
    let waves = row.entries.counted(Field::FirstCrest, Field::LastCrest);
    waves.is_some_and(|waves| waves >= MANY_WAVES)
}
