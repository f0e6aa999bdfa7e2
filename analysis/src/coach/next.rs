//! One thing to do next, on the feedback slip: what most helps this group,
//! in a pupil's words.

use crate::scheme::Judged;
use crate::slip::{Kind, Slip};
use crate::working::Flag;

/// Where a point lost marks.
#[derive(Clone, Copy, Debug)]
pub struct Lost {
    /// How the point is judged.
    pub judged: Judged,
    /// Marks that were not awarded.
    pub marks: i64,
}

/// One thing to do next.
///
/// About the first slip that their figures show, else about the point judged
/// by eye that lost most, else about a remark, else something to go on with.
/// `flags` are those that nobody dismissed.
#[must_use]
pub fn next(flags: &[Flag], lost: &[Lost]) -> &'static str {
    let first = |kind: Kind| flags.iter().find(|flag| flag.slip.kind() == kind);
    if let Some(flag) = first(Kind::Slip) {
        return of_slip(flag.slip);
    }
    let by_eye = lost
        .iter()
        .filter(|lost| lost.marks > 0 && matches!(lost.judged, Judged::ByEye(_)));
    // Of equals the first: the order of the work.
    let most = by_eye.rev().max_by_key(|lost| lost.marks);
    if let Some(lost) = most {
        return by_answer(lost.judged);
    }
    first(Kind::Remark).map_or(GO_ON, |flag| of_slip(flag.slip))
}

/// For a group that has nothing to mend.
pub const GO_ON: &str = "Nothing to mend. Try this: does your speed change with frequency by more than your uncertainty? Say how you can tell.";

fn by_answer(judged: Judged) -> &'static str {
    use crate::scheme::Answer;
    match judged {
        Judged::ByEye(Some(Answer::Method)) => {
            "Write your method again, so that a friend could follow it. Put every step in order, and name what you measured with."
        }
        Judged::ByEye(Some(Answer::Conclusion)) => {
            "Write your conclusion again. Quote one of your own speeds, with its unit."
        }
        Judged::ByEye(Some(Answer::Evaluation)) => {
            "Name one reading that was hard to take. Say which way it could be out, and what would make it more precise."
        }
        _ => {
            "Look at your graph and your table again. Each heading and each axis needs a quantity and a unit."
        }
    }
}

/// What to do next about a slip, or about a remark.
#[must_use]
#[expect(clippy::too_many_lines, reason = "one entry a slip, and nothing else")]
pub fn of_slip(slip: Slip) -> &'static str {
    match slip {
        Slip::CountedFromOne => {
            "Next time call the first line nought. Then the last number is how many waves there are."
        }
        Slip::SpanNotDivided => {
            "Divide the distance by the number of waves in it. Work one row out again."
        }
        Slip::ScaleLeftOut => {
            "Divide each wavelength on the screen by your enlargement. Work one row out again."
        }
        Slip::ScaleMultiplied => {
            "The picture is larger than the water. Divide by the enlargement, and work one row out again."
        }
        Slip::ScaleUpsideDown => {
            "Work the enlargement out again: length on the screen ÷ true length. It should be above one."
        }
        Slip::CrestToTrough => {
            "One wave goes from bright to the next bright. Mark one whole wave on a sketch."
        }
        Slip::LoopTakenAsWavelength => {
            "One wave is two loops. Double the length of one loop, and work one row out again."
        }
        Slip::NodesCountedAsLoops => {
            "Count the loops that bulge, not the still points between them. Sketch your string with three loops."
        }
        Slip::DialMultiplierLeftOut => {
            "Write the dial’s multiplier beside every reading, and multiply before you go on."
        }
        Slip::CountNotDivided => {
            "Frequency is how many waves pass in one second. Divide your count by the time."
        }
        Slip::PeriodAsFrequency => {
            "You found the time of one wave. Frequency is one divided by that time."
        }
        Slip::SpeedDivided | Slip::SpeedInverted => {
            "Speed is frequency × wavelength. Check the units: hertz times metres is metres per second."
        }
        Slip::ReciprocalLeftOut => {
            "Fill the column 1 ÷ wavelength in again: divide one by each wavelength in metres."
        }
        Slip::MeanNotDivided => {
            "Divide the sum of your speeds by how many there are. A mean lies between the smallest and the largest."
        }
        Slip::MeanWrongCount => "Count the speeds that you added up, and divide by that number.",
        Slip::AnomalyAveragedIn => {
            "Leave out of the mean what you marked as an anomaly. Then work the mean out again."
        }
        Slip::GradientUpsideDown => {
            "Gradient is how far the line goes up ÷ how far it goes along. Work it out again."
        }
        Slip::GradientFromOnePoint => {
            "Choose two points of your line that lie far apart. Gradient is the change up ÷ the change along."
        }
        Slip::UnitPowerOfTen => {
            "Change every length to metres before you multiply. Then ask: could a wave go that fast?"
        }
        Slip::DoesNotFollow => {
            "One figure does not follow from those before it. Work it out again, and write each step down."
        }
        Slip::TooFewFigures => {
            "Give your answer to as many figures as your readings have: two or three."
        }
        Slip::TooManyFigures => {
            "A calculator shows more figures than you measured. Round to as many as your readings have."
        }
        Slip::UnitMissing => "Write a unit with every speed.",
        Slip::RowLeftOutUnsaid => {
            "Say in the table which reading you left out of the mean, and why it is an anomaly."
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{GO_ON, Lost, by_answer, next, of_slip};
    use crate::field::Field;
    use crate::scheme::{Answer, Check, Judged};
    use crate::slip::Slip;
    use crate::working::Flag;

    fn flag(slip: Slip) -> Flag {
        Flag {
            row: None,
            step: Field::Speed,
            slip,
            given: String::new(),
            expected: String::new(),
            rival: None,
            arithmetic: String::new(),
        }
    }

    const EVALUATION: Lost = Lost {
        judged: Judged::ByEye(Some(Answer::Evaluation)),
        marks: 1,
    };
    const METHOD: Lost = Lost {
        judged: Judged::ByEye(Some(Answer::Method)),
        marks: 2,
    };

    #[test]
    fn first_slip_comes_before_everything() {
        let flags = [
            flag(Slip::UnitMissing),
            flag(Slip::SpeedDivided),
            flag(Slip::MeanNotDivided),
        ];
        assert_eq!(next(&flags, &[METHOD]), of_slip(Slip::SpeedDivided));
    }

    #[test]
    fn without_a_slip_it_is_the_point_by_eye_that_lost_most() {
        let checked = Lost {
            judged: Judged::ByCheck(Check::ManyWaves),
            marks: 5,
        };
        let flags = [flag(Slip::UnitMissing)];
        let lost = [checked, EVALUATION, METHOD];
        assert_eq!(next(&flags, &lost), by_answer(METHOD.judged));
        assert_eq!(next(&flags, &[checked]), of_slip(Slip::UnitMissing));
    }

    #[test]
    fn who_has_nothing_to_mend_goes_on() {
        let full = Lost {
            marks: 0,
            ..EVALUATION
        };
        assert_eq!(next(&[], &[full]), GO_ON);
    }

    #[test]
    fn sentences_are_short_and_never_say_reliable() {
        let answers = Answer::ALL.map(|answer| by_answer(Judged::ByEye(Some(answer))));
        let all = Slip::ALL.map(of_slip).into_iter().chain(answers);
        for text in all.chain([GO_ON, by_answer(Judged::ByEye(None))]) {
            assert!(!text.to_lowercase().contains("reliab"), "{text}");
            for sentence in text.split_inclusive(['.', '?', ':']) {
                let words = sentence.split_whitespace().count();
                assert!(words <= 20, "{words} words: {sentence}");
            }
        }
    }
}
