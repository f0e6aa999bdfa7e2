//! A teacher at the pile: what the tool suggests where it checks, an eye on
//! the rest, and a temperament.

use analysis::scheme::{Answer, Judged};
use server::db::mark::{self, NewMark};
use server::db::{Connection, Error};
use server::ids::{ClassSetId, StaffId};
use server::report::marking::{self, MarkingReport};

use crate::hand::Hand;

/// How somebody marks what is judged by eye.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Temper {
    /// As most would.
    Even,
    /// A mark less than most, more often than not.
    Severe,
}

/// Marks every sheet of a class set that was handed in, each sheet as one act.
pub(crate) async fn mark(
    db: &mut Connection,
    id: ClassSetId,
    staff_id: StaffId,
    temper: Temper,
    at: i64,
) -> Result<(), Error> {
    let report = marking::load(db, id).await?;
    for sheet in 0..report.sheets.len() {
        if report.class.groups[sheet].standing.is_none() {
            continue;
        }
        for new in marks(&report, sheet, staff_id, temper, at) {
            mark::insert(db, &new).await?;
        }
    }
    Ok(())
}

fn marks(
    report: &MarkingReport,
    sheet: usize,
    staff_id: StaffId,
    temper: Temper,
    at: i64,
) -> Vec<NewMark> {
    let group = &report.class.groups[sheet];
    let act = uuid::Uuid::new_v4().hyphenated().to_string();
    // The same eye sees the same sheet alike, whatever codes are drawn today.
    let revision_id = group.work.as_ref().map(|work| work.revision.id);
    let seed = revision_id.map_or(0, |id| u64::try_from(id.0).unwrap_or(0));
    let mut eye = Hand::new(9_000_000 + seed);
    let standings = report.points.iter().zip(&report.sheets[sheet].points);
    let marks = standings.map(|(point, standing)| {
        let suggested = standing.suggestion.as_ref().map(|s| s.marks);
        let most = point.point.marks;
        let awarded = suggested.unwrap_or_else(|| {
            let fair = by_eye(report, sheet, point.point.judged, most, &mut eye);
            let is_harsh = temper == Temper::Severe && eye.share() < 0.6;
            fair.saturating_sub(u32::from(is_harsh))
        });
        NewMark {
            sheet_id: group.bench.sheet_id,
            marking_point_id: point.id,
            revision_id,
            awarded: Some(i64::from(awarded)),
            suggested: suggested.map(i64::from),
            reason: String::new(),
            act: act.clone(),
            undoes: None,
            staff_id,
            marked_at: at,
        }
    });
    marks.collect()
}

/// What most would give: for a text by how much it says, for paper by luck.
fn by_eye(report: &MarkingReport, sheet: usize, judged: Judged, most: u32, eye: &mut Hand) -> u32 {
    let work = report.class.groups[sheet].work.as_ref();
    let said = match (judged, work) {
        (Judged::ByEye(Some(answer)), Some(work)) => {
            let answers = &work.revision.entry.answers;
            let text = match answer {
                Answer::Method => &answers.method,
                Answer::Conclusion => &answers.conclusion,
                Answer::Evaluation => &answers.evaluation,
            };
            // A full account has some four hundred letters, a line has sixty.
            let enough = if answer == Answer::Method { 400 } else { 60 };
            text.chars().count() as f64 / f64::from(enough)
        }
        _ => 0.4 + 0.7 * eye.share(),
    };
    let marks = (0..=most).rev();
    let earned = marks.filter(|marks| f64::from(*marks) <= f64::from(most) * said + 0.25);
    earned.max().unwrap_or(0)
}
