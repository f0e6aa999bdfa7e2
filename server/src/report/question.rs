//! Questions for the teacher alone: readings that agree beyond chance, and
//! repeats without any spread. Never on a pupils' page, never a mark.

use analysis::reading::copied::{Declared, Question, questions};

use super::class_set::ClassReport;
use super::number::probability;
use super::{Work, kit, sets, shared};

/// A question as a page asks it.
#[derive(Clone, Debug)]
pub struct QuestionLine {
    /// Labels of the groups concerned.
    pub labels: Vec<String>,
    /// The rows concerned: `group A: rows 1, 2 and 4`.
    pub rows: Vec<String>,
    /// The question.
    pub sentence: String,
    /// Why it is asked.
    pub why: String,
    /// How probable it is that there is something to ask about.
    pub probability: String,
}

/// What the readings of a class set give reason to ask, from the summary's
/// threshold on, most probable first.
#[must_use]
pub fn lines(report: &ClassReport) -> Vec<QuestionLine> {
    let groups = report.groups.iter().filter_map(|group| {
        let work = group.work.as_ref()?;
        Some((
            group.bench.label.as_str(),
            kit(&group.bench, Some(work)),
            work,
        ))
    });
    let groups: Vec<(&str, &str, &Work)> = groups.collect();
    let said: Vec<_> = groups
        .iter()
        .map(|(label, _, work)| (*label, shared(Some(work))))
        .collect();
    let sets = sets(&said);
    let declared: Vec<_> = groups
        .iter()
        .zip(&sets)
        .map(|((_, kit, work), shared)| Declared {
            sheet: &work.sheet,
            kit,
            shared,
        })
        .collect();
    questions(&declared)
        .into_iter()
        .filter(|question| report.class_set.is_for_summary(question.probability))
        .map(|question| line(&groups, question))
        .collect()
}

fn line(groups: &[(&str, &str, &Work)], question: Question) -> QuestionLine {
    let label = |at: &usize| groups[*at].0.to_owned();
    let rows = question.rows.iter().map(|(at, rows)| {
        let (label, _, work) = groups[*at];
        let numbers: Vec<_> = rows
            .iter()
            .map(|row| work.assessment.rows[*row].label.as_str())
            .collect();
        let plural = if numbers.len() == 1 { "" } else { "s" };
        format!("group {label}: row{plural} {}", numbers.join(", "))
    });
    QuestionLine {
        labels: question.sheets.iter().map(label).collect(),
        rows: rows.collect(),
        probability: probability(question.probability),
        sentence: question.sentence,
        why: question.why,
    }
}
