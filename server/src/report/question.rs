//! Questions for the teacher alone: readings that are another group's, and
//! repeats without any spread. Never on a pupils' page, never a mark.

use analysis::figure::significant;
use analysis::reading::copied::{Found, Question};

use super::class_set::ClassReport;
use crate::words::counted;
use crate::words::number::probability;

/// A question as a page asks it.
#[derive(Clone, Debug)]
pub struct QuestionLine {
    /// Labels of the groups concerned.
    pub labels: Vec<String>,
    pub sentence: String,
    /// Why it is asked.
    pub why: String,
    /// How probable it is that there is something to ask about.
    pub probability: String,
}

/// Lists what the readings of a class set give reason to ask, from the
/// summary's threshold on, most probable first.
#[must_use]
pub fn lines(report: &ClassReport) -> Vec<QuestionLine> {
    let with_work = report.groups.iter().filter(|group| group.work.is_some());
    let labels: Vec<&str> = with_work.map(|group| group.bench.label.as_str()).collect();
    let questions = report.questions.iter();
    questions
        .filter(|question| report.class_set.is_for_summary(question.probability))
        .map(|question| QuestionLine {
            labels: question
                .sheets
                .iter()
                .map(|at| labels[*at].to_owned())
                .collect(),
            sentence: sentence(question.found),
            why: why(question),
            probability: probability(question.probability),
        })
        .collect()
}

/// Words a question. It asks, and does not accuse.
fn sentence(found: Found) -> String {
    match found {
        Found::Same { rows, is_declared } => {
            let agree = format!(
                "These groups’ readings are the same, digit for digit, in all {rows} rows."
            );
            if is_declared {
                format!("{agree} Not all of them say that they used a shared set. Did they?")
            } else {
                format!("{agree} Did they share one set of readings?")
            }
        }
        Found::NoSpread { repeats } => format!(
            "{} in this sheet without any spread. Was each measured afresh?",
            counted(repeats, "repeat", "repeats")
        ),
    }
}

fn why(question: &Question) -> String {
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
