//! Markers differ as they are meant to.

use analysis::method::Method;
use analysis::scheme::{Judged, Suggestion, Why};
use analysis::stats::spread::{mean, sample_sd};
use server::db::revision::Answers;
use server::ids::RevisionId;

use crate::marker::{EVEN, Eye, SEVERE, Temper};

/// Sheets in the comparison: enough that a mean difference is known to a
/// tenth of a mark.
const SHEETS: i64 = 400;

/// Totals that a marker gives sheets that are worth all the checks suggest.
fn totals(marker: u64, temper: Temper) -> Vec<f64> {
    let points = server::words::house::scheme(Method::RippleTank);
    let answers = Answers {
        method: "m".repeat(300),
        conclusion: "c".repeat(60),
        evaluation: "e".repeat(60),
    };
    let sheet = |id| {
        let mut eye = Eye::new(Some(RevisionId(id)), marker, temper);
        let marks = points.iter().map(|point| {
            let suggestion = matches!(point.judged, Judged::ByCheck(_)).then(|| Suggestion {
                marks: point.marks,
                why: Why::NothingWorked,
                is_shown: true,
            });
            let award = eye.award(point, suggestion.as_ref(), Some(&answers));
            let against = suggestion.is_some_and(|s| s.marks != award.marks);
            assert_eq!(against, !award.reason.is_empty(), "{}", point.title);
            f64::from(award.marks)
        });
        marks.sum()
    };
    (1..=SHEETS).map(sheet).collect()
}

fn differences(one: &[f64], other: &[f64]) -> Vec<f64> {
    one.iter()
        .zip(other)
        .map(|(one, other)| one - other)
        .collect()
}

#[test]
fn two_even_markers_differ_by_about_a_mark_and_neither_is_lower() {
    let apart = differences(&totals(1, EVEN), &totals(2, EVEN));
    let (mean, sd) = (mean(&apart).unwrap(), sample_sd(&apart).unwrap());
    assert!(mean.abs() < 0.2, "{mean}");
    assert!((0.7..1.4).contains(&sd), "{sd}");
}

#[test]
fn severe_marker_gives_about_two_marks_less() {
    let apart = differences(&totals(3, SEVERE), &totals(1, EVEN));
    let mean = mean(&apart).unwrap();
    assert!((-2.6..-1.6).contains(&mean), "{mean}");
}

#[test]
fn same_marker_gives_the_same_sheet_the_same_marks() {
    assert_eq!(totals(3, SEVERE), totals(3, SEVERE));
}
