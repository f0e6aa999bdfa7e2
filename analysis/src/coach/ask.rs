//! A question for the teacher to ask at the bench, for each slip: short
//! enough to say while walking up, and it gives no answer away.
//!
//! For a fault of the apparatus the question is the teacher's own: what to
//! check on the kit.

use crate::cause::Cause;
use crate::slip::Slip;

/// What to ask a group that has stopped getting on, whatever the reason.
pub const STUCK: &str = "What have you measured so far, and what comes next?";

/// What to ask at a bench where nothing has been entered.
pub const NOT_BEGUN: &str = "Is the apparatus working, and is your sheet open?";

/// What to ask about a wrong turn that the group's own figures show.
#[must_use]
pub fn of_slip(slip: Slip) -> &'static str {
    match slip {
        Slip::CountedFromOne => "Can you point to wave number one? Is it a line or a gap?",
        Slip::SpanNotDivided => "Is this the length of one wave, or of all that you measured?",
        Slip::ScaleLeftOut => {
            "If you lay a ruler in the water, does ten centimetres of it make ten centimetres of shadow?"
        }
        Slip::ScaleMultiplied => "Which is longer, the wave on the water or its shadow?",
        Slip::ScaleUpsideDown => "How many times larger is the picture than the real thing?",
        Slip::CrestToTrough => "From one bright line, where does the pattern begin again?",
        Slip::LoopTakenAsWavelength => {
            "Can you trace one whole wave with your finger, up and down?"
        }
        Slip::NodesCountedAsLoops => "Which did you count, the bulges or the still points?",
        Slip::DialMultiplierLeftOut => "Where is the pointer, and where is the range switch?",
        Slip::CountNotDivided => "How many of these waves passed in just one second?",
        Slip::PeriodAsFrequency => "When the motor speeds up, should this number grow or shrink?",
        Slip::SpeedDivided => "Which units do you get here: Hz times m, or Hz over m?",
        Slip::SpeedInverted => "Longer waves at the same frequency: are they faster or slower?",
        Slip::ReciprocalLeftOut => "What does the heading of this column ask for?",
        Slip::MeanNotDivided => "Is your mean between your smallest speed and your largest?",
        Slip::MeanWrongCount => "How many speeds did you add up, and what did you divide by?",
        Slip::AnomalyAveragedIn => "You marked a row as an anomaly: is it in your mean?",
        Slip::GradientUpsideDown => "Rise over run: what is the unit of your gradient?",
        Slip::GradientFromOnePoint => "Which two places on your line did you use?",
        Slip::UnitPowerOfTen => "Say it with its unit: could that be right in this room?",
        Slip::DoesNotFollow => "Can you show me how you got this figure, step by step?",
        Slip::TooFewFigures => "How finely can you read this ruler, and does your answer show it?",
        Slip::TooManyFigures => "Which of these figures are you really sure of?",
        Slip::UnitMissing => "This many of what?",
        Slip::RowLeftOutUnsaid => "Which rows are in your mean, and how can a reader tell?",
    }
}

/// What to ask about something that may have happened at the bench; for the
/// apparatus, what to check on the kit.
#[must_use]
pub fn of_cause(cause: Cause) -> &'static str {
    match cause {
        Cause::CountedFromOne => {
            "Can you count one span aloud for me, touching each line? What do you call the first?"
        }
        Cause::CrestMiscount => "Can you set this row up again and count its gaps aloud?",
        Cause::LoopMiscount => "Can you count the bulges of this row with me, end to end?",
        Cause::NodesCountedAsLoops => {
            "Which parts of the string are you counting: those that shake, or those that stay still?"
        }
        Cause::DialMultiplierLeftOut => "Which range is the dial on, and is that on your sheet?",
        Cause::ScaleUpsideDown => "Which of these two lengths did you measure on the screen?",
        Cause::DigitsSwapped => "What does your first note say for this reading?",
        Cause::CrestToTrough => {
            "Where does one wave start, and where does the next: bright or dark?"
        }
        Cause::ZeroError => "Where on the ruler does your span begin?",
        Cause::StrobeAtHalf => {
            "What happens to the picture if you turn the lamp’s rate up slowly from here?"
        }
        Cause::DirtyWater => {
            "Is there grease or soap on the water? Rinse the tank and fill it afresh."
        }
        Cause::DepthOff => "Is the tank level, and how deep is it at its corners?",
        Cause::LampOff => {
            "Have the lamp or the screen moved? Measure the known object on the screen again."
        }
        Cause::DialOff => "Does the dial read true? Count one frequency by hand or in slow motion.",
        Cause::StringStretched => {
            "Is this the string on the label, and what hangs on it with the hanger?"
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::coach::explain;
    use crate::slip::Kind;

    /// Every line there is, with the name of what it is for.
    fn lines() -> Vec<(String, &'static str)> {
        let slips = Slip::ALL.map(|slip| (format!("{slip:?}"), of_slip(slip)));
        let causes = Cause::ALL.map(|cause| (format!("reading {cause:?}"), of_cause(cause)));
        let others = [
            ("stuck".to_owned(), STUCK),
            ("not begun".to_owned(), NOT_BEGUN),
        ];
        slips.into_iter().chain(causes).chain(others).collect()
    }

    #[test]
    fn every_slip_and_cause_has_a_question_of_its_own() {
        let lines = lines();
        for (name, line) in &lines {
            assert!(line.contains('?'), "{name}: {line}");
            let same = lines.iter().filter(|(_, other)| other == line);
            assert_eq!(same.count(), 1, "{name}: {line}");
        }
    }

    #[test]
    fn what_is_said_to_a_group_is_nothing_but_questions() {
        let slips = Slip::ALL.map(of_slip).into_iter();
        let causes = Cause::ALL.into_iter();
        let causes = causes.filter(|c| c.kind() != Kind::Apparatus).map(of_cause);
        for line in slips.chain(causes).chain([STUCK, NOT_BEGUN]) {
            assert!(line.ends_with('?'), "{line}");
        }
    }

    #[test]
    fn questions_can_be_said_while_walking_up() {
        for (name, line) in lines() {
            let words = line.split_whitespace().count();
            assert!(words <= 20, "{name}: {words} words: {line}");
        }
    }

    #[test]
    fn questions_give_no_answer_and_use_the_right_words() {
        for (name, line) in lines() {
            let said = line.to_lowercase();
            assert!(!said.contains("reliab"), "{name}: {line}");
            assert!(
                !said.contains(|c: char| c.is_ascii_digit()),
                "{name}: {line}"
            );
            for slip in Slip::ALL {
                assert!(
                    !said.contains(&slip.short().to_lowercase()),
                    "{name}: {line}"
                );
            }
        }
    }

    #[test]
    fn bench_and_sheet_ask_in_words_of_their_own() {
        for slip in Slip::ALL {
            assert_ne!(of_slip(slip), explain::question(slip), "{slip:?}");
        }
    }
}
