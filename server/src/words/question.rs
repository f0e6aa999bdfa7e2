//! Questions for the teacher alone: readings that are another group's, and
//! repeats without any spread. They ask, and do not accuse.

use analysis::figure::significant;
use analysis::reading::copied::{Found, Question};

use super::counted;

/// Returns the question.
#[must_use]
pub fn sentence(found: Found) -> String {
    match found {
        Found::Same { rows, is_declared } => {
            let ask = if is_declared {
                "Not all of them say that they used a shared set. Did they?"
            } else {
                "Did they share one set of readings?"
            };
            format!(
                "These groups’ readings are the same, digit for digit, in all {rows} rows. {ask}"
            )
        }
        Found::NoSpread { repeats } => format!(
            "{} in this sheet without any spread. Was each measured afresh?",
            counted(repeats, "repeat", "repeats")
        ),
    }
}

/// Returns why it is asked.
#[must_use]
pub fn why(question: &Question) -> String {
    let times = 1.0 / question.by_chance;
    // Nobody counts beyond a million.
    let once = if times >= 1e6 {
        "less than once in a million times".to_owned()
    } else {
        format!("once in {} times", significant(times.max(1.0), 1))
    };
    match question.found {
        Found::Same { .. } => {
            format!(
                "By how this class reads, two groups that measure for themselves agree so about {once}."
            )
        }
        Found::NoSpread { .. } => format!("Repeats that are measured agree so well about {once}."),
    }
}
