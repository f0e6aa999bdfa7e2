//! A pile of sheets on a teacher's desk, marked one after the other.

use server::acts::{Award, Doing, Given, Staff};
use server::db::Error;
use server::ids::ClassSetId;
use server::report::desk::{Desk, first};

use crate::department::done;
use crate::marker::{EVEN, Eye, SEVERE, Temper};
use crate::term::Teacher;

/// Unix ms between two sheets.
const A_SHEET: i64 = 4 * 60_000;

/// Who marks first, by name and by row.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Marker {
    pub(crate) teacher: Teacher,
    pub(crate) staff: Staff,
}

impl Marker {
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
    doing: &mut Doing<'_>,
    id: ClassSetId,
    marker: Marker,
    most: usize,
    from: i64,
) -> Result<(), Error> {
    let desk = first::load(doing.read(), id, None).await?;
    let sheets = desk.sheets.iter().enumerate();
    let handed_in = sheets.filter(|(_, sheet)| {
        let bench = sheet.bench.as_ref();
        bench.is_some_and(|bench| bench.handed_in_at.is_some())
    });
    let mut at = from;
    for (sheet, _) in handed_in.take(most) {
        at += A_SHEET;
        let given = marks(&desk, sheet, marker, marker.temper());
        award(doing, &desk, marker, given, at).await?;
    }
    Ok(())
}

/// Awards marks as one act.
pub(crate) async fn award(
    doing: &mut Doing<'_>,
    desk: &Desk,
    marker: Marker,
    given: Vec<Given>,
    at: i64,
) -> Result<(), Error> {
    let act = Award {
        class_set: desk.class_set.id,
        version: desk.version.id,
        given,
    };
    done(doing.perform(at, marker.staff, act).await?)
}

/// What somebody gives every point of a sheet.
pub(crate) fn marks(desk: &Desk, sheet: usize, marker: Marker, temper: Temper) -> Vec<Given> {
    let on_desk = &desk.sheets[sheet];
    let revision = on_desk.revision_id();
    let answers = on_desk
        .work
        .as_ref()
        .map(|work| &work.revision.entry.answers);
    let mut eye = Eye::new(revision, marker.teacher.number(), temper);
    let standings = desk.points.iter().zip(&on_desk.marks.points);
    let marks = standings.map(|(point, standing)| {
        let award = eye.award(&point.point, standing.suggestion.as_ref(), answers);
        Given {
            sheet: on_desk.sheet_id,
            key: point.key,
            marks: Some(i64::from(award.marks)),
            reason: award.reason.to_owned(),
            revision,
            newest: standing.newest,
        }
    });
    marks.collect()
}
