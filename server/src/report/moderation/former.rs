//! Verdicts of records of format 1 that no comparison comes to any more, in
//! the sentences that they always had.

use analysis::moderation::comparison::Former;

use super::verdict::{Whose, sheets};
use crate::report::number::signed;
use crate::words::counted;

/// A verdict as a sentence.
pub(super) fn words(verdict: Former, whose: Whose) -> String {
    match verdict {
        Former::Moved {
            marks,
            sheets: number,
        } => format!(
            "Totals hide that {} changed places between the points of {}: the marking points below tell where.",
            counted(marks, "mark", "marks"),
            sheets(number)
        ),
        Former::FirstBunches { slope } => bunches(whose, Whose::First, 10.0 / slope),
        Former::SecondBunches { slope } => bunches(whose, Whose::Second, 10.0 * slope),
        Former::Drifts {
            per_sheet,
            last_less_first_third,
        } => drifts(whose, per_sheet, last_less_first_third),
    }
}

/// `who` keeps to the middle: sheets that the others put ten marks apart are
/// `apart` marks apart with them.
fn bunches(whose: Whose, who: Whose, apart: f64) -> String {
    let (them, others) = match who {
        Whose::First => ("the first markers", "the second"),
        _ => ("the second markers", "the first"),
    };
    if whose == who {
        format!(
            "Bunches marks in the middle: sheets that {others} markers put ten marks apart are {apart:.1} apart here."
        )
    } else {
        format!(
            "Here {them} bunch marks in the middle: sheets that {others} put ten marks apart are {apart:.1} apart with them."
        )
    }
}

/// The first marker grows more severe where the second gives ever more beside
/// them.
fn drifts(whose: Whose, per_sheet: f64, last_less_first_third: f64) -> String {
    let rises = per_sheet > 0.0;
    let change = format!(
        "from the first third of these sheets to the last, the difference changed by {} marks",
        signed(last_less_first_third, 1)
    );
    match (whose, rises) {
        (Whose::Everyone, _) => {
            format!("The difference drifts over the order of the second marking: {change}.")
        }
        (Whose::First, true) | (Whose::Second, false) => {
            format!("Grew more severe on the way, or the others milder: {change}.")
        }
        (Whose::First, false) | (Whose::Second, true) => {
            format!("Grew milder on the way, or the others more severe: {change}.")
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn whoever_kept_to_the_middle_is_said_to_have() {
        let first = Former::FirstBunches { slope: 2.5 };
        assert_eq!(
            words(first, Whose::First),
            "Bunches marks in the middle: sheets that the second markers put ten marks apart are 4.0 apart here."
        );
        assert_eq!(
            words(first, Whose::Everyone),
            "Here the first markers bunch marks in the middle: sheets that the second put ten marks apart are 4.0 apart with them."
        );
    }

    #[test]
    fn drift_was_a_growing_severity_of_the_first_or_lenience_of_the_second() {
        let drifts = Former::Drifts {
            per_sheet: 0.5,
            last_less_first_third: 2.5,
        };
        for (whose, start) in [
            (Whose::Everyone, "The difference drifts over the order"),
            (Whose::First, "Grew more severe on the way"),
            (Whose::Second, "Grew milder on the way"),
        ] {
            let told = words(drifts, whose);
            assert!(told.starts_with(start), "{told}");
            assert!(told.ends_with("the difference changed by +2.5 marks."));
        }
    }
}
