//! What each box is called on the sheet, for fourteen-year-olds.

use analysis::field::Field;
use analysis::method::Method;
use analysis::scheme::Answer;

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

/// Heading of the first part.
pub(super) fn first_heading(method: Method) -> &'static str {
    match method {
        Method::RippleTank => "The enlargement",
        Method::StringLoops => "Your string",
    }
}

/// What to do in the first part.
pub(super) fn first_lead(method: Method) -> &'static str {
    match method {
        Method::RippleTank => {
            "The lamp makes a picture that is larger than the water. Find out how many times larger."
        }
        Method::StringLoops => "Leave these boxes empty if your teacher did not ask for them.",
    }
}

/// What to be careful about at the bench.
pub(super) fn cautions(method: Method) -> &'static [&'static str] {
    match method {
        Method::RippleTank => &[
            "Flashing light can make some people very ill. Tell your teacher before any lamp flashes if it might harm you: you can count slow waves under steady light.",
            "Keep plugs, leads and this computer dry. Wipe up spilt water at once.",
        ],
        Method::StringLoops => &[
            "Wear eye protection: a stretched string can snap.",
            "Keep your feet clear of the hanging mass. Add no more mass than your teacher allows.",
        ],
    }
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
pub(super) fn readings_lead(method: Method) -> &'static str {
    match method {
        Method::RippleTank => {
            "One row for each frequency. Measure over as many crests as you can. Leave rows empty if you do not need them."
        }
        Method::StringLoops => {
            "One row for each frequency. Measure over as many loops as you can. Leave rows empty if you do not need them."
        }
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

/// What a box or a column is called.
pub(super) fn heading(field: Field) -> &'static str {
    match field {
        Field::ScaleTrue => "True length of the object",
        Field::ScaleImage => "Length of its picture on the screen",
        Field::Magnification => "Enlargement: picture ÷ object",
        Field::Depth => "Depth of the water",
        Field::Temperature => "Temperature of the water",
        Field::HangingMass => "Mass on the string, with its hanger",
        Field::StringMass => "Mass of the string",
        Field::StringLength => "Length of the string that you weighed",
        Field::Dial => "Dial reading",
        Field::DialTimes => "Dial is set to",
        Field::PassesFirst => "First number you called",
        Field::PassesLast => "Last number you called",
        Field::Seconds => "Time from first call to last",
        Field::FirstCrest => "Number of the crest at the ruler’s zero",
        Field::LastCrest => "Number of the crest at the far end",
        Field::Span => "Distance between these two crests",
        Field::Loops => "Loops you see",
        Field::Length => "Length you measured",
        Field::LengthLoops => "Loops in that length",
        Field::Frequency => "Frequency",
        Field::Wavelength => "Wavelength",
        Field::Reciprocal => "1 ÷ wavelength",
        Field::Speed => "Speed",
        Field::MeanSpeed => "Mean of your speeds",
        Field::Uncertainty => "Uncertainty of your mean",
        Field::Gradient => "Gradient of your graph",
    }
}

/// A line of help under a box of the whole sheet; blank where none is needed.
pub(super) fn hint(field: Field) -> &'static str {
    match field {
        Field::ScaleTrue => "Measure the object itself, not its picture.",
        Field::ScaleImage => "Measure the picture of the same object, where you measure the waves.",
        Field::Magnification => "No unit. Leave it empty if you measured in the water itself.",
        Field::Depth | Field::Temperature => "Only if you measured it.",
        Field::MeanSpeed => "Leave out rows that you ticked as anomalies.",
        Field::Uncertainty => {
            "How far your mean may be out, either way. Half the range: (largest speed − smallest speed) ÷ 2."
        }
        Field::Gradient => "Frequency goes up the page, 1 ÷ wavelength goes along it.",
        _ => "",
    }
}

/// A sign that stands before a figure of a box; blank where none does.
pub(super) fn sign(field: Field) -> &'static str {
    match field {
        Field::Uncertainty => "±",
        _ => "",
    }
}

/// What the group is asked to say in its own words.
pub(super) fn question(answer: Answer) -> &'static str {
    match answer {
        Answer::Method => "How did you measure?",
        Answer::Conclusion => "What did you find?",
        Answer::Evaluation => "What was good, and what was not?",
    }
}

/// A line of help under the question.
pub(super) fn answer_hint(answer: Answer) -> &'static str {
    match answer {
        Answer::Method => {
            "Say what you did, in order, so that another group could do it again without asking you."
        }
        Answer::Conclusion => "Say what your results show. Use two of your own numbers.",
        Answer::Evaluation => {
            "Which reading was hard to take? Would it come out too large or too small? What would make it more precise?"
        }
    }
}

/// What an answer is called where it is shown again.
pub(super) fn answer(answer: Answer) -> &'static str {
    match answer {
        Answer::Method => "How you measured",
        Answer::Conclusion => "What you found",
        Answer::Evaluation => "What was good and what was not",
    }
}
