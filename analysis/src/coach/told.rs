//! What the feedback slip says of a wrong turn: what the group did, once its
//! sheet is marked and the arithmetic stands beside it.

use crate::slip::Slip;

/// What the group did, in one or two sentences to the group.
#[must_use]
#[expect(clippy::too_many_lines, reason = "one entry a slip, and nothing else")]
pub fn turn(slip: Slip) -> &'static str {
    match slip {
        Slip::CountedFromOne => {
            "You counted the crests. The waves are the gaps between them, so there is one fewer."
        }
        Slip::SpanNotDivided => {
            "You took the whole distance for one wavelength. There are many waves in it."
        }
        Slip::ScaleLeftOut => {
            "You did not divide by the enlargement. This is the wavelength in the picture, not on the water."
        }
        Slip::ScaleMultiplied => {
            "You multiplied by the enlargement. The water is smaller than its picture, so divide."
        }
        Slip::ScaleUpsideDown => {
            "Your enlargement is upside down. It is the length in the picture ÷ the true length."
        }
        Slip::CrestToTrough => {
            "You mixed up half a wave and a whole one. A wave goes from one crest to the next."
        }
        Slip::LoopTakenAsWavelength => {
            "You took one loop for a whole wave. One wavelength is two loops."
        }
        Slip::NodesCountedAsLoops => {
            "You divided by the number of still points. There is one loop fewer than still points."
        }
        Slip::DialMultiplierLeftOut => {
            "You read the dial, but left its setting out. Multiply the two."
        }
        Slip::CountNotDivided => {
            "This is how many waves you counted. Divide by the time to get the frequency."
        }
        Slip::PeriodAsFrequency => {
            "This is the time of one wave. The frequency is how many waves pass in one second."
        }
        Slip::SpeedDivided => "You divided the frequency by the wavelength. Multiply the two.",
        Slip::SpeedInverted => "You divided the wavelength by the frequency. Multiply the two.",
        Slip::ReciprocalLeftOut => {
            "This is the wavelength itself. The column asks for 1 ÷ wavelength."
        }
        Slip::MeanNotDivided => {
            "You added the speeds up, but did not divide by how many there are."
        }
        Slip::MeanWrongCount => {
            "You divided the sum of the speeds by a number that is not how many there are."
        }
        Slip::AnomalyAveragedIn => "You marked a row as an anomaly, but your mean still has it in.",
        Slip::GradientUpsideDown => {
            "Your gradient is upside down. It is the change up ÷ the change along."
        }
        Slip::GradientFromOnePoint => {
            "You used one point for the gradient. It is the slope of the whole line."
        }
        Slip::UnitPowerOfTen => {
            "Your figure is 10, 100 or 1000 times too large or too small. Perhaps mm, cm and m were mixed."
        }
        Slip::DoesNotFollow => "This figure does not follow from the ones that you have before it.",
        Slip::TooFewFigures => "This figure has fewer significant figures than your readings.",
        Slip::TooManyFigures => {
            "This figure has more significant figures than your readings allow."
        }
        Slip::UnitMissing => "This figure has no unit.",
        Slip::RowLeftOutUnsaid => {
            "It looks as if you left a reading out of the mean, but your table does not say so."
        }
    }
}

/// Where two different wrong turns give the same figure.
pub const EITHER: &str =
    "Two different wrong turns give this figure. Look at the sum to see which was yours.";

#[cfg(test)]
mod tests {
    use super::{EITHER, turn};
    use crate::slip::Slip;

    #[test]
    fn every_slip_has_words_of_its_own_in_short_sentences() {
        for slip in Slip::ALL {
            let alike = Slip::ALL.iter().filter(|s| turn(**s) == turn(slip));
            assert_eq!(alike.count(), 1, "{slip:?}");
        }
        for text in Slip::ALL.map(turn).into_iter().chain([EITHER]) {
            for sentence in text.split_inclusive(['.', '?']) {
                let words = sentence.split_whitespace().count();
                assert!(words <= 20, "{words} words: {sentence}");
            }
        }
    }
}
