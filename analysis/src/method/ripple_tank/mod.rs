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
        Cause::ScaleNotFound,
        Cause::UnitPowerOfTen,
        Cause::DirtyWater,
        Cause::DepthOff,
        Cause::LampOff,
        Cause::DialOff,
        Cause::Unexplained,
    ],
    marks: Marks {
        worked: &[
            (Check::EnlargementFound, 1),
            (Check::EnlargementApplied, 1),
            (Check::Wavelength, 1),
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
