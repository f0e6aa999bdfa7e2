//! The group's working, step by step, theirs beside ours.

use analysis::field::{Field, Place, Role};
use analysis::working::{Comparison, Verdict};

use super::body::as_typed;
use crate::report::Work;

/// One figure, theirs beside ours.
pub(super) struct WorkingLine {
    pub(super) what: String,
    pub(super) theirs: String,
    pub(super) ours: String,
    pub(super) arithmetic: String,
    pub(super) is_wrong: bool,
    pub(super) verdict: String,
}

/// Every figure that was judged, and those of the whole sheet that were given
/// but that nothing is compared with.
pub(super) fn lines(work: &Work) -> Vec<WorkingLine> {
    let comparisons = &work.assessment.comparisons;
    let judged = comparisons.iter().filter_map(|c| working_line(work, c));
    let is_compared = |field: &Field| comparisons.iter().any(|c| c.field == *field);
    let whole = &work.revision.entry.sheet.whole;
    let others = whole.keys().copied().filter(|field| {
        field.role() == Role::Working && field.place() == Place::Sheet && !is_compared(field)
    });
    let others = others.map(|field| WorkingLine {
        what: field.label().to_owned(),
        theirs: as_typed(whole, field),
        ours: "–".to_owned(),
        arithmetic: String::new(),
        is_wrong: false,
        verdict: String::new(),
    });
    judged.chain(others).collect()
}

/// Figures that were given, or that could have been for the whole sheet.
fn working_line(work: &Work, comparison: &Comparison) -> Option<WorkingLine> {
    if comparison.given.is_none() && comparison.row.is_some() {
        return None;
    }
    let label = comparison.field.label();
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
        arithmetic: comparison.arithmetic.clone(),
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
