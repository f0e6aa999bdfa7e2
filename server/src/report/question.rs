//! Questions for the teacher alone: readings that are another group's, and
//! repeats without any spread. Never on a pupils' page, never a mark.

use super::class_set::ClassReport;
use crate::words::number::probability;
use crate::words::question::{sentence, why};

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
