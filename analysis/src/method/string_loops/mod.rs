//! Standing loops on a stretched string.

mod chain;
mod model;

use crate::cause::Cause;
use crate::check::Check;
use crate::entry::Row;
use crate::field::Field;
use crate::kit::Kind;

use super::spec::{Marks, Spec};

pub(super) static SPEC: Spec = Spec {
    code: "string-loops",
    whole: &[Field::HangingMass, Field::StringMass, Field::StringLength],
    columns: &[
        Field::Dial,
        Field::DialTimes,
        Field::Loops,
        Field::Length,
        Field::LengthLoops,
    ],
    counted: &[],
    results: &[Field::MeanSpeed, Field::Uncertainty, Field::Gradient],
    length: Field::Length,
    set_by: Field::Frequency,
    graph: [Field::Reciprocal, Field::Frequency],
    is_dispersive: false,
    headings: &[],
    usual: &[
        (Field::Length, 0.05, 3.0),
        (Field::HangingMass, 0.01, 2.0),
        (Field::StringMass, 5e-5, 0.2),
        (Field::StringLength, 0.1, 20.0),
    ],
    frequencies: (3.0, 1000.0),
    kit: Kind::String,
    cautions: &["eyes", "feet", "vibrator"],
    causes: &[
        Cause::LoopMiscount,
        Cause::NodesCountedAsLoops,
        Cause::DialMultiplierLeftOut,
        Cause::DigitsSwapped,
        Cause::UnitPowerOfTen,
        Cause::DialOff,
        Cause::StringStretched,
        Cause::Unexplained,
    ],
    marks: Marks {
        worked: &[
            (Check::Wavelength, 2),
            (Check::Resolution, 1),
        ],
        many: has_all_loops,
    },
    chain: chain::CHAIN,
    model: &model::Cord,
};

/// A length over every loop that was seen; where nobody wrote down how many
/// there were, over two or more, or over the string's whole length.
fn has_all_loops(row: &Row, longest: f64) -> bool {
    let value = |field| row.entries.si(field);
    let is_whole = value(Field::Length).is_some_and(|length| length >= 0.95 * longest);
    value(Field::LengthLoops).is_some_and(|covered| match value(Field::Loops) {
        Some(seen) => covered >= seen,
        None => covered >= 2.0 || is_whole,
    })
}
