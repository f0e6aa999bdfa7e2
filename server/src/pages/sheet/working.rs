//! The group's working, step by step, theirs beside ours.

use analysis::working::{Comparison, Verdict};

use crate::report::Work;
use crate::words::{Say, version};

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
    let row = comparison.row.and_then(|row| work.assessment.rows.get(row));
    let or = |figure: &Option<String>, none: &str| figure.clone().unwrap_or(none.to_owned());
    Some(WorkingLine {
        what: version::figure(comparison, row.map(|row| row.label.as_str())),
        theirs: or(&comparison.given, version::NOT_GIVEN),
        ours: or(&comparison.follows, "–"),
        arithmetic: Say::english().sum(&comparison.arithmetic),
        is_wrong: comparison.verdict == Verdict::Wrong,
        verdict: version::verdict(comparison),
    })
}
