//! A pile of sheets on a teacher's desk: marked one after the other, and
//! given out when all are.

use server::acts::Staff;
use server::db::mark::{self, NewMark};
use server::db::{Error, Writing, class_set, release};
use server::ids::{ClassSetId, StaffId};
use server::report::marking::{self, MarkingReport};

use crate::marker::{EVEN, Eye, SEVERE, Temper};
use crate::term::Teacher;

/// Unix ms between two sheets.
const A_SHEET: i64 = 4 * 60_000;

/// Who marks first, by name and by row.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Marker {
    pub(crate) teacher: Teacher,
    pub(crate) id: StaffId,
}

impl Marker {
    /// As whom they act.
    pub(crate) fn staff(self) -> Staff {
        Staff {
            id: self.id,
            is_head: self.teacher == Teacher::Beck,
        }
    }

    /// How they mark before anybody has agreed a standard.
    pub(crate) fn temper(self) -> Temper {
        if self.teacher == Teacher::Rook {
            SEVERE
        } else {
            EVEN
        }
    }
}

/// Marks the sheets of a class set that were handed in, each as one act, or
/// the first so many of them; from a time on, in Unix ms.
pub(crate) async fn mark_sheets(
    db: &mut Writing,
    id: ClassSetId,
    marker: Marker,
    most: usize,
    from: i64,
) -> Result<(), Error> {
    let report = marking::load(db, id).await?;
    class_set::choose_scheme(db, id, report.version.id).await?;
    let groups = report.class.groups.iter().enumerate();
    let handed_in = groups.filter(|(_, group)| group.standing.is_some());
    let mut at = from;
    for (sheet, _) in handed_in.take(most) {
        at += A_SHEET;
        for new in marks(&report, sheet, marker, marker.temper(), at) {
            mark::insert(db, &new).await?;
        }
    }
    Ok(())
}

/// Lets the groups read their marks.
pub(crate) async fn give_out(
    db: &mut Writing,
    id: ClassSetId,
    by: StaffId,
    at: i64,
) -> Result<(), Error> {
    let version = class_set::get(db, id).await?.scheme_version_id;
    let version = version.ok_or(Error::Stopped)?;
    release::insert(db, id, version, true, by, at).await
}

/// What somebody gives every point of a sheet, as one act.
pub(crate) fn marks(
    report: &MarkingReport,
    sheet: usize,
    marker: Marker,
    temper: Temper,
    at: i64,
) -> Vec<NewMark> {
    let group = &report.class.groups[sheet];
    let revision = group.work.as_ref().map(|work| &work.revision);
    let revision_id = revision.map(|revision| revision.id);
    let answers = revision.map(|revision| &revision.entry.answers);
    let act = uuid::Uuid::new_v4().hyphenated().to_string();
    let mut eye = Eye::new(revision_id, marker.teacher.number(), temper);
    let standings = report.points.iter().zip(&report.sheets[sheet].points);
    let marks = standings.map(|(point, standing)| {
        let suggestion = standing.suggestion.as_ref();
        let award = eye.award(&point.point, suggestion, answers);
        NewMark {
            sheet_id: group.bench.sheet_id,
            marking_point_id: point.id,
            revision_id,
            awarded: Some(i64::from(award.marks)),
            suggested: suggestion.map(|s| i64::from(s.marks)),
            reason: award.reason.to_owned(),
            act: act.clone(),
            undoes: None,
            staff_id: marker.id,
            marked_at: at,
        }
    });
    marks.collect()
}
