//! The group's working, step by step, theirs beside ours.

use analysis::working::{Comparison, Verdict};

use crate::report::Work;
use crate::words::Say;

/// One figure, theirs beside ours.
pub(in crate::pages) struct WorkingLine {
    pub(in crate::pages) what: String,
    pub(in crate::pages) theirs: String,
    pub(in crate::pages) ours: String,
    pub(in crate::pages) arithmetic: String,
    pub(in crate::pages) is_wrong: bool,
    pub(in crate::pages) verdict: String,
}

/// Every figure that was judged.
pub(in crate::pages) fn lines(work: &Work) -> Vec<WorkingLine> {
    let comparisons = &work.assessment.comparisons;
    comparisons
        .iter()
        .filter_map(|c| working_line(work, c))
        .collect()
}

/// Figures that were given, or that could have been for the whole sheet.
fn working_line(work: &Work, comparison: &Comparison) -> Option<WorkingLine> {
    if comparison.given.is_none() && comparison.row.is_some() {
        return None;
    }
    let label = Say::english().field(comparison.field);
    let row = comparison.row.and_then(|row| work.assessment.rows.get(row));
    Some(WorkingLine {
        what: row.map_or_else(
            || label.to_owned(),
            |row| format!("Row {}: {label}", row.label),
        ),
        theirs: comparison
            .given
            .clone()
            .unwrap_or_else(|| "not given".to_owned()),
        ours: comparison.follows.clone().unwrap_or_else(|| "–".to_owned()),
        arithmetic: Say::english().sum(&comparison.arithmetic),
        is_wrong: comparison.verdict == Verdict::Wrong,
        verdict: match comparison.verdict {
            Verdict::Right => comparison.read_in.map_or_else(
                || "agrees".to_owned(),
                |unit| format!("no unit; agrees if {} is meant", unit.symbol()),
            ),
            Verdict::Wrong => "does not agree".to_owned(),
            Verdict::Unjudged => String::new(),
        },
    })
}
