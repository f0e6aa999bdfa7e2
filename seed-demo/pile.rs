//! A pile of sheets on a teacher's desk: marked one after the other, and
//! given out when all are.

use server::acts::{self, Doing, Given, ReleaseMarks, Staff};
use server::clock::{HOUR, MINUTE};
use server::db::Error;
use server::ids::ClassSetId;
use server::report::desk::{Desk, first};

use crate::department::done;
use crate::lesson::Held;
use crate::marker::{Award, EVEN, Eye, SEVERE, Temper};
use crate::term::{Marked, Teacher};

/// Who marks, by name and as whom they act.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Marker {
    pub(crate) teacher: Teacher,
    pub(crate) staff: Staff,
}

impl Marker {
    /// Returns how they mark before anybody has agreed a standard.
    pub(crate) fn temper(self) -> Temper {
        if self.teacher == Teacher::Rook {
            SEVERE
        } else {
            EVEN
        }
    }

    /// Lists what they give every point of a sheet on a desk.
    pub(crate) fn awards(self, desk: &Desk, sheet: usize, temper: Temper) -> Vec<Award> {
        let sheet = &desk.sheets[sheet];
        let work = sheet.work.as_ref();
        let answers = work.map(|work| &work.revision.entry.answers);
        let mut eye = Eye::new(sheet.revision_id(), self.teacher.number(), temper);
        let standings = desk.points.iter().zip(&sheet.marks.points);
        let awards = standings.map(|(point, standing)| {
            eye.award(&point.point, standing.suggestion.as_ref(), answers)
        });
        awards.collect()
    }

    /// Returns the same as first marks.
    pub(crate) fn gives(self, desk: &Desk, sheet: usize, temper: Temper) -> Vec<Given> {
        let on_desk = &desk.sheets[sheet];
        let awards = self.awards(desk, sheet, temper).into_iter().enumerate();
        let given = awards.map(|(at, award)| Given {
            sheet: on_desk.sheet_id,
            key: desk.points[at].key,
            marks: Some(i64::from(award.marks)),
            reason: award.reason.to_owned(),
            revision: on_desk.revision_id(),
            newest: on_desk.marks.points[at].newest,
        });
        given.collect()
    }

    /// Awards first marks as one act.
    pub(crate) async fn award(
        self,
        doing: &mut Doing<'_>,
        at: i64,
        desk: &Desk,
        given: Vec<Given>,
    ) -> Result<(), Error> {
        let award = acts::Award {
            class_set: desk.class_set.id,
            version: desk.version.id,
            given,
        };
        done(doing.perform(at, self.staff, award).await?)
    }
}

/// Marks what is marked of the sheets that were handed in, from the second
/// evening on, each as one act.
pub(crate) async fn mark(
    doing: &mut Doing<'_>,
    held: &Held,
    class_set: ClassSetId,
    marked: Marked,
) -> Result<(), Error> {
    let most = match marked {
        Marked::No => return Ok(()),
        Marked::First(sheets) => sheets,
        Marked::All | Marked::GivenOut => usize::MAX,
    };
    let (marker, from) = (held.marker, held.starts + 55 * HOUR);
    let desk = first::load(doing.read(), class_set, None).await?;
    let handed_in = (0..desk.sheets.len()).filter(|sheet| {
        let bench = desk.sheets[*sheet].bench.as_ref();
        bench.is_some_and(|bench| bench.handed_in_at.is_some())
    });
    let mut at = from;
    for sheet in handed_in.take(most) {
        at += 4 * MINUTE;
        let given = marker.gives(&desk, sheet, marker.temper());
        marker.award(doing, at, &desk, given).await?;
    }
    if marked == Marked::GivenOut {
        give_out(doing, from + HOUR, marker.staff, class_set).await?;
    }
    Ok(())
}

/// Lets the groups read their marks.
pub(crate) async fn give_out(
    doing: &mut Doing<'_>,
    at: i64,
    by: Staff,
    class_set: ClassSetId,
) -> Result<(), Error> {
    let is_out = true;
    let release = ReleaseMarks { class_set, is_out };
    doing.perform(at, by, release).await
}
