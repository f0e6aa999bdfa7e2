//! Which boxes a method's sheet has where, and what stands above them.

use analysis::field::Field;
use analysis::method::Method;

use crate::words::Say;

/// The boxes of the first part, in the order of the work.
pub(super) fn first_part(method: Method) -> &'static [Field] {
    match method {
        Method::RippleTank => &[
            Field::ScaleTrue,
            Field::ScaleImage,
            Field::Magnification,
            Field::Depth,
            Field::Temperature,
        ],
        Method::StringLoops => &[Field::HangingMass, Field::StringMass, Field::StringLength],
    }
}

/// Heading of the first part, and what to do in it.
pub(super) fn first(say: Say, method: Method) -> (String, String) {
    match method {
        Method::RippleTank => (
            say.sheet_part_enlargement(),
            say.sheet_part_enlargement_lead(),
        ),
        Method::StringLoops => (say.sheet_part_string(), say.sheet_part_string_lead()),
    }
}

/// What to be careful about at the bench.
pub(super) fn cautions(say: Say, method: Method) -> Vec<&'static str> {
    let keys = match method {
        Method::RippleTank => ["flashing", "water"],
        Method::StringLoops => ["eyes", "feet"],
    };
    keys.map(|key| say.caution(key)).into()
}

/// Columns of the table of readings, without those of a counted frequency.
pub(super) fn reading_columns(method: Method) -> &'static [Field] {
    match method {
        Method::RippleTank => &[
            Field::Dial,
            Field::DialTimes,
            Field::FirstCrest,
            Field::LastCrest,
            Field::Span,
        ],
        Method::StringLoops => &[
            Field::Dial,
            Field::DialTimes,
            Field::Loops,
            Field::Length,
            Field::LengthLoops,
        ],
    }
}

/// What to do in the table of readings.
pub(super) fn readings_lead(say: Say, method: Method) -> String {
    match method {
        Method::RippleTank => say.sheet_part_readings_lead_crests(),
        Method::StringLoops => say.sheet_part_readings_lead_loops(),
    }
}

/// Columns for counting crests instead of reading a dial.
pub(super) fn counted_columns(method: Method) -> &'static [Field] {
    match method {
        Method::RippleTank => &[Field::PassesFirst, Field::PassesLast, Field::Seconds],
        Method::StringLoops => &[],
    }
}

/// Columns of the group's working.
pub(super) const WORKING_COLUMNS: &[Field] = &[
    Field::Frequency,
    Field::Wavelength,
    Field::Reciprocal,
    Field::Speed,
];

/// The boxes of the last part.
pub(super) const RESULT: &[Field] = &[Field::MeanSpeed, Field::Uncertainty, Field::Gradient];

/// A sign that stands before a figure of a box; blank where none does.
pub(super) fn sign(field: Field) -> &'static str {
    match field {
        Field::Uncertainty => "±",
        _ => "",
    }
}
