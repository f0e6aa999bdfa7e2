//! What a group is told before its sheet is marked: what to look at again.
//!
//! And what that step is about; never the answer. No number stands in these
//! words, and each ends with a question for the group to talk over.

use crate::field::{Field, Role};
use crate::slip::Slip;

/// What to look at again, to stand after *Look again at*: `your wavelength`,
/// `the unit of your wavelength`.
#[must_use]
pub fn what(slip: Slip, step: Field) -> String {
    let whose = match step.role() {
        Role::Working => "your",
        Role::Reading => "the",
    };
    let label = step.label();
    match slip {
        Slip::UnitMissing => format!("the unit of {whose} {label}"),
        Slip::TooFewFigures | Slip::TooManyFigures => {
            format!("how many figures you gave for {whose} {label}")
        }
        Slip::RowLeftOutUnsaid => "which rows are in your mean".to_owned(),
        _ => format!("{whose} {label}"),
    }
}

/// A question about the uncertainty of the mean. No slip has its name: an
/// uncertainty agrees with half the range or does not.
pub const UNCERTAINTY: &str = "Find your largest speed and your smallest one. How far apart are they, and how far is each of them from halfway between?";

/// A question about the step in which a slip was made, one to three sentences.
/// It asks for the thought that leads past the slip, and does not say what the
/// group did.
#[must_use]
#[expect(clippy::too_many_lines, reason = "one entry a slip, and nothing else")]
pub fn question(slip: Slip) -> &'static str {
    match slip {
        Slip::CountedFromOne => {
            "Waves are the gaps between the crests. Hold up one hand: are there as many gaps as fingers?"
        }
        Slip::SpanNotDivided => {
            "There are many waves in the distance that you measured. How do you get the length of just one of them?"
        }
        Slip::ScaleLeftOut => {
            "You measured the picture, and the picture is larger than the water. How do you get from a length in the picture to the same length on the water?"
        }
        Slip::ScaleMultiplied => {
            "The picture is larger than the water. Should a wave on the water come out longer or shorter than its picture?"
        }
        Slip::ScaleUpsideDown => {
            "The enlargement says how many times larger the picture is than the object. Which of your two lengths is the larger one, and does your figure fit that?"
        }
        Slip::CrestToTrough => {
            "A wave is over when everything begins again. From where to where do you have to measure to get one whole wave?"
        }
        Slip::LoopTakenAsWavelength => {
            "Look at the drawing of the loops. The string goes up in one loop while it goes down in the next: how much of a wave is one loop?"
        }
        Slip::NodesCountedAsLoops => {
            "Loops are the parts that shake, and nodes are the points that stay still. Which of them do you need here, and how many are there in your length?"
        }
        Slip::DialMultiplierLeftOut => {
            "A dial has a pointer and a setting. Which two numbers do you need to get the frequency?"
        }
        Slip::CountNotDivided => {
            "Frequency says how many waves pass in each second. How many did you count, and how long did that take?"
        }
        Slip::PeriodAsFrequency => {
            "Frequency says how many waves pass in each second. How is that different from the time that each wave takes?"
        }
        Slip::SpeedDivided => {
            "Hertz means: so many in each second. What must you do with a frequency and a length to get metres in each second?"
        }
        Slip::SpeedInverted => {
            "So many waves pass in each second, and each of them is so long. How do you work out how far a wave goes in each second?"
        }
        Slip::ReciprocalLeftOut => {
            "This column asks how many waves fit into a length, not how long each wave is. Which key of your calculator turns the one into the other?"
        }
        Slip::MeanNotDivided => {
            "A mean lies between your smallest speed and your largest. Does yours, and what comes after adding the speeds up?"
        }
        Slip::MeanWrongCount => {
            "A mean shares the sum out among the rows that are in it. Which rows are in yours, and how many are there?"
        }
        Slip::AnomalyAveragedIn => {
            "You ticked a row as an anomaly. What does that tick say about your mean?"
        }
        Slip::GradientUpsideDown => {
            "A gradient says how far you go up for each step along. Which quantity goes up your graph, and which goes along it?"
        }
        Slip::GradientFromOnePoint => {
            "A gradient belongs to a line, not to a point. Which two places on your line, far apart, could you use?"
        }
        Slip::UnitPowerOfTen => {
            "Metres, centimetres and millimetres are easily mixed. Do the units of the figures that you used fit the unit of this one, and is its size sensible?"
        }
        Slip::DoesNotFollow => {
            "Work this out once more, one step at a time, and write each step down. Which figures do you need, and what do you do with each of them?"
        }
        Slip::TooFewFigures => {
            "Your readings have more figures than this. How many can you give here?"
        }
        Slip::TooManyFigures => {
            "No answer is more precise than the readings that it comes from. How many figures do your readings have?"
        }
        Slip::UnitMissing => "A number alone does not say how much. Which unit did you use?",
        Slip::RowLeftOutUnsaid => {
            "Everybody should be able to see which rows your mean is made of. If you left a row out as an anomaly, did you tick it?"
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cause::Cause;
    use crate::slip::Kind;

    #[test]
    fn every_slip_has_a_question_of_its_own_without_a_number() {
        for slip in Slip::ALL {
            let text = question(slip);
            assert!(text.ends_with('?'), "{slip:?}: {text}");
            assert!(!text.contains(|c: char| c.is_ascii_digit()), "{text}");
            let same = Slip::ALL.iter().filter(|s| question(**s) == text);
            assert_eq!(same.count(), 1, "{text}");
        }
    }

    #[test]
    fn no_question_says_what_the_group_did() {
        for slip in Slip::ALL {
            let text = question(slip).to_lowercase();
            for said in [slip.short(), slip.sentence()] {
                assert!(!text.contains(&said.to_lowercase()), "{slip:?}: {text}");
            }
            for cause in Cause::ALL {
                assert!(!text.contains(cause.short()), "{slip:?}: {text}");
            }
        }
    }

    #[test]
    fn sentences_are_short_enough_for_pupils_of_eleven() {
        for slip in Slip::ALL {
            for sentence in question(slip).split_inclusive(['.', '?']) {
                let words = sentence.split_whitespace().count();
                assert!(words <= 26, "{slip:?}: {words} words: {sentence}");
            }
        }
    }

    #[test]
    fn remark_says_which_side_of_a_figure_is_meant() {
        for slip in Slip::ALL {
            let said = what(slip, Field::Speed);
            assert_eq!(said == "your speed", slip.kind() == Kind::Slip, "{said}");
        }
        let unit = what(Slip::UnitMissing, Field::Span);
        assert_eq!(unit, "the unit of the distance between the crests");
    }
}
