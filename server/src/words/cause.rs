//! What may have happened at the bench, in words for staff: a few for a list,
//! a question to ask or a thing to check, and a finding written out.

use analysis::field::Place;
use analysis::method::Method;
use analysis::reading::{Cause, Counts, Finding};

use super::Say;

/// Returns a few words for it, and what to ask the group, or to check on the
/// kit. A question can be said while walking up, and gives no answer away.
#[expect(clippy::too_many_lines, reason = "one entry a cause, and nothing else")]
fn words(cause: Cause) -> (&'static str, &'static str) {
    match cause {
        Cause::CountedFromOne => (
            "count begun at one",
            "Can you count one span aloud for me, touching each line? What do you call the first?",
        ),
        Cause::CrestMiscount => (
            "count out by one wave",
            "Can you set this row up again and count its gaps aloud?",
        ),
        Cause::LoopMiscount => (
            "count out by one loop",
            "Can you count the bulges of this row with me, end to end?",
        ),
        Cause::NodesCountedAsLoops => (
            "nodes counted as loops",
            "Which parts of the string are you counting: those that shake, or those that stay still?",
        ),
        Cause::DialMultiplierLeftOut => (
            "dial multiplier not written down",
            "Which range is the dial on, and is that on your sheet?",
        ),
        Cause::ScaleUpsideDown => (
            "lengths on the screen and in the water swapped",
            "Which of these two lengths did you measure on the screen?",
        ),
        Cause::DigitsSwapped => (
            "two digits swapped",
            "What does your first note say for this reading?",
        ),
        Cause::CrestToTrough => (
            "half waves counted",
            "Where does one wave start, and where does the next: bright or dark?",
        ),
        Cause::ZeroError => (
            "ruler’s end used for its zero",
            "Where on the ruler does your span begin?",
        ),
        Cause::StrobeAtHalf => (
            "lamp flashing at half the rate",
            "What happens to the picture if you turn the lamp’s rate up slowly from here?",
        ),
        Cause::ScaleNotFound => (
            "enlargement not measured",
            "Did you measure these waves in the water, or on the screen?",
        ),
        Cause::UnitPowerOfTen => (
            "length in another unit than the one beside it",
            "Say this length with its unit: could it lie on this bench?",
        ),
        Cause::DirtyWater => (
            "greasy or soapy water",
            "Is there grease or soap on the water? Rinse the tank and fill it afresh.",
        ),
        Cause::DepthOff => (
            "another depth than was written down",
            "Is the tank level, and how deep is it at its corners?",
        ),
        Cause::LampOff => (
            "lamp or screen moved since the enlargement was measured",
            "Have the lamp or the screen moved? Measure the known object on the screen again.",
        ),
        Cause::DialOff => (
            "dial out by a constant factor",
            "Does the dial read true? Count one frequency by hand or in slow motion.",
        ),
        Cause::StringStretched => (
            "another string than was written down, or a stretched one",
            "Is this the string on the label, and what hangs on it with the hanger?",
        ),
        Cause::Unexplained => (
            "readings far off, cause not known",
            "Can you set one row up again and show me how you measure it?",
        ),
    }
}

/// Returns in a few words what may have happened.
#[must_use]
pub fn short(cause: Cause) -> &'static str {
    words(cause).0
}

/// Returns what to ask about it; for the apparatus, what to check on the kit.
#[must_use]
pub fn ask(cause: Cause) -> &'static str {
    words(cause).1
}

/// Says what something of a method is called in these sentences.
fn noun(method: Method, which: &str) -> &'static str {
    Say::english().coded("nouns", method.code(), Some(which))
}

/// Returns what a row has that measures many waves at once.
pub(super) fn many(method: Method) -> &'static str {
    noun(method, "good-row")
}

/// Invites to look again, and never judges. `row` is the label of the
/// finding's row; what is worth doing while the apparatus is up is said where
/// it `is_up`.
#[must_use]
pub fn invitation(finding: &Finding, method: Method, row: Option<&str>, is_up: bool) -> String {
    let fits = fits(finding, method, row);
    let up = noun(method, "apparatus");
    match (worth(finding.cause), is_up) {
        (Worth::Always(what), _) => format!("{fits} Worth {what}."),
        (Worth::WhileUp(what), true) => format!("{fits} Worth {what} while the {up} is up."),
        (Worth::WhileUp(_), false) => fits,
    }
}

/// What is worth doing about it.
enum Worth {
    Always(&'static str),
    /// Only while the apparatus is up.
    WhileUp(&'static str),
}

fn worth(cause: Cause) -> Worth {
    match cause {
        Cause::CountedFromOne | Cause::CrestToTrough => Worth::WhileUp("counting one span again"),
        Cause::CrestMiscount | Cause::LoopMiscount | Cause::NodesCountedAsLoops => {
            Worth::WhileUp("counting again")
        }
        Cause::DialMultiplierLeftOut => Worth::WhileUp("a look at the range switch"),
        Cause::ScaleUpsideDown => Worth::Always("asking which was which"),
        Cause::DigitsSwapped => Worth::Always("a look at what was first written down"),
        Cause::ZeroError => Worth::WhileUp("measuring one span again from a whole number"),
        Cause::StrobeAtHalf => Worth::WhileUp("raising the rate once more"),
        Cause::ScaleNotFound => {
            Worth::WhileUp("measuring a known object on the screen and in the water")
        }
        Cause::UnitPowerOfTen => Worth::Always("asking in which unit it was read"),
        Cause::DirtyWater => Worth::Always("rinsing the tank and filling it afresh"),
        Cause::DepthOff => Worth::Always("measuring the depth again"),
        Cause::LampOff => Worth::Always("measuring the known object again"),
        Cause::DialOff => Worth::Always("counting one frequency by hand"),
        Cause::StringStretched => {
            Worth::Always("weighing the string again, and the mass on it, hanger included")
        }
        Cause::Unexplained => Worth::WhileUp("seeing one row measured"),
    }
}

/// Says what would fit.
fn fits(finding: &Finding, method: Method, row: Option<&str>) -> String {
    let (given, expected) = (&finding.given, &finding.expected);
    let rows = row.map_or_else(
        || "The rows would fit".to_owned(),
        |row| format!("Row {row} would fit the others"),
    );
    match finding.cause {
        Cause::CrestMiscount | Cause::LoopMiscount => {
            let counts = finding
                .counts
                .map_or_else(String::new, |c| counts(c, method));
            format!("{rows} if {counts}.")
        }
        Cause::DialMultiplierLeftOut => {
            format!("{rows} with the dial’s multiplier at {expected}.")
        }
        Cause::DigitsSwapped => {
            format!("{rows} if {given} were {expected}, two digits the other way round.")
        }
        Cause::UnitPowerOfTen if row.is_none() && finding.step.place() == Place::Row => format!(
            "The rows would fit if every length were in another unit: {given} as {expected}, and so on."
        ),
        Cause::UnitPowerOfTen => {
            format!("{rows} if {given} were {expected}, as when mm, cm and m are mixed.")
        }
        Cause::ScaleNotFound => format!(
            "Every row would fit were these waves the picture’s, some {:.2} times as large as the water’s. No enlargement is written down.",
            1.0 + finding.misfit.before
        ),
        Cause::Unexplained => unexplained(finding),
        other => fits_by_itself(other).to_owned(),
    }
}

/// Readings out by this share or more have a factor worth naming.
const WORTH_NAMING: f64 = 0.05;

/// What is out, where nothing known explains it.
fn unexplained(finding: &Finding) -> String {
    if finding.misfit.before.abs() < WORTH_NAMING {
        return "These rows do not belong together, and nothing known here explains all of them. Is each figure what was read?".to_owned();
    }
    format!(
        "Wavelengths are typically {} times what is expected, and no slip known here does that. An enlargement, a unit, a range of the dial?",
        finding.given
    )
}

fn counts(counts: Counts, method: Method) -> String {
    let Counts { fits, written } = counts;
    let were = if fits > 1.5 {
        format!("{} were", noun(method, "many"))
    } else {
        format!("{} was", noun(method, "one"))
    };
    format!("{fits} {were} counted, not {written}")
}

/// Says what would fit, where nothing is put in.
fn fits_by_itself(cause: Cause) -> &'static str {
    match cause {
        Cause::CountedFromOne => {
            "Every row would fit with one wave fewer than was written. Was the first line called nought, or one?"
        }
        Cause::NodesCountedAsLoops => {
            "Every row would fit with one loop fewer than was written. Were the bulges counted, or the still points?"
        }
        Cause::ScaleUpsideDown => {
            "The rows would fit if the length on the screen and the true length were each in the other’s box."
        }
        Cause::CrestToTrough => {
            "Every row would fit with half as many waves. Was it counted from bright to dark, or from bright to bright?"
        }
        Cause::ZeroError => {
            "The rows would fit with the same few millimetres more or less on every span, as when the ruler’s end is taken for its nought."
        }
        Cause::StrobeAtHalf => {
            "The rows would fit with twice the frequency. A lamp flashing at half the dipper’s rate shows the same still picture."
        }
        Cause::DirtyWater => {
            "These waves are slow, those of high frequency most, as on greasy or soapy water."
        }
        Cause::DepthOff => "The waves of low frequency do not fit the depth that is written down.",
        Cause::LampOff => {
            "All wavelengths here seem to be out by one factor, as when the lamp or the screen has moved since the enlargement was measured."
        }
        Cause::DialOff => {
            "All frequencies here seem to be out by one factor, as when a dial reads high or low."
        }
        Cause::StringStretched => {
            "The speed does not fit the masses that are written down, as when a string has stretched or is another one."
        }
        Cause::CrestMiscount
        | Cause::LoopMiscount
        | Cause::DialMultiplierLeftOut
        | Cause::DigitsSwapped
        | Cause::ScaleNotFound
        | Cause::UnitPowerOfTen
        | Cause::Unexplained => "",
    }
}

/// Returns why it is thought so.
#[must_use]
pub fn why(finding: &Finding, method: Method, row: Option<&str>) -> String {
    let against = noun(method, "against");
    let before = off(finding.misfit.before);
    let Some(after) = finding.misfit.mended.map(off) else {
        return format!("Wavelengths are typically {before} {against}.");
    };
    match (row, finding.cause) {
        (Some(row), _) => format!(
            "As written, the wavelength of row {row} is {before} beside the other rows; mended, {after}."
        ),
        (None, Cause::ZeroError) => "A constant on every span puts the shortest spans out most, and these rows look like that.".to_owned(),
        (None, Cause::NodesCountedAsLoops) => format!(
            "As written, the rows do not lie on one line through the origin; mended, they do. The middle row moves from {before} to {after}."
        ),
        (None, _) => format!(
            "As written, wavelengths are typically {before} {against}; mended, {after}."
        ),
    }
}

/// `7 % short`; to a whole per cent from 2 % up, and `as expected` where
/// nothing is left to tell.
fn off(share: f64) -> String {
    let per_cent = 100.0 * share.abs();
    if per_cent < 0.05 {
        return "as expected".to_owned();
    }
    let size = if per_cent >= 1.5 {
        format!("{per_cent:.0}")
    } else {
        format!("{per_cent:.1}")
    };
    let way = if share < 0.0 { "short" } else { "long" };
    format!("{size} % {way}")
}

#[cfg(test)]
mod tests {
    use analysis::field::Field;
    use analysis::reading::Misfit;
    use analysis::slip::Kind;

    use super::*;

    #[test]
    fn every_cause_has_words_of_its_own_that_give_no_answer_away() {
        for cause in Cause::ALL {
            let (short, ask) = words(cause);
            let alike = Cause::ALL.iter().filter(|other| words(**other).1 == ask);
            assert_eq!(alike.count(), 1, "{cause:?}");
            assert!(!short.is_empty() && ask.contains('?') || cause.kind() == Kind::Apparatus);
            assert!(!ask.contains(|c: char| c.is_ascii_digit()), "{ask}");
            assert!(ask.split_whitespace().count() <= 20, "{ask}");
            let is_groups = cause.kind() != Kind::Apparatus;
            assert!(ask.ends_with('?') || !is_groups, "{ask}");
        }
    }

    #[test]
    fn what_is_to_be_done_while_the_apparatus_is_up_is_left_out_when_it_is_not() {
        let finding = Finding {
            cause: Cause::CrestMiscount,
            row: Some(2),
            step: Field::LastCrest,
            probability: 0.9,
            rival: None,
            is_tie: false,
            given: "10".to_owned(),
            expected: "9".to_owned(),
            counts: Some(Counts {
                fits: 9.0,
                written: 10.0,
            }),
            misfit: Misfit {
                before: -0.11,
                mended: Some(0.0),
            },
            mended: None,
        };
        let said = |is_up| invitation(&finding, Method::RippleTank, Some("3"), is_up);
        let fits = "Row 3 would fit the others if 9 waves were counted, not 10.";
        assert_eq!(said(false), fits);
        assert_eq!(
            said(true),
            format!("{fits} Worth counting again while the tank is up.")
        );
        assert_eq!(
            why(&finding, Method::RippleTank, Some("3")),
            "As written, the wavelength of row 3 is 11 % short beside the other rows; mended, as expected."
        );
    }
}
