//! First marks are awarded.

use super::{Act, Doing, NotDone, Refused, Staff, refuse_if};
use crate::db::mark::{self, NewMark};
use crate::db::{Error, class_set};
use crate::ids::{ClassSetId, MarkId, RevisionId, SchemeVersionId, SettlementId, SheetId};
use crate::report::desk::{Desk, Unfit, first};

/// Awards marks in a class set, so that they are undone together.
///
/// All of them are given or none: only where nobody did anything since the
/// page that the marker looked at. The first ones settle by which version of a
/// scheme the class set is marked.
#[derive(Clone, Debug)]
pub struct Award {
    pub class_set: ClassSetId,
    /// The version that the page was about.
    pub version: SchemeVersionId,
    pub given: Vec<Given>,
}

/// What is given one point of one sheet.
#[derive(Clone, Debug)]
pub struct Given {
    pub sheet: SheetId,
    /// Key of the point.
    pub key: i64,
    /// How many; `None` takes an earlier mark back.
    pub marks: Option<i64>,
    /// Why: needed where it goes against what the group's own figures show.
    pub reason: String,
    /// The revision that was on the page.
    pub revision: Option<RevisionId>,
    /// The newest mark on the point that was on the page, taken back or not.
    pub newest: Option<MarkId>,
}

/// Why nothing is awarded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotAwarded {
    /// Somebody marked one of the points, stored one of the sheets or chose
    /// another version since the page was made.
    Met,
    /// One of the marks cannot be given.
    Unfit(Unfit),
}

/// A mark to write, by the places of its sheet and point on the desk.
pub(super) struct ToWrite {
    pub(super) sheet: usize,
    pub(super) point: usize,
    pub(super) marks: Option<i64>,
    pub(super) reason: String,
    /// The settlement whose word it is.
    pub(super) settlement_id: Option<SettlementId>,
}

impl Act<Staff> for Award {
    type Done = ();
    type Stop = NotDone<NotAwarded>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Self::Stop> {
        let first = self.given.first().map(|one| one.sheet);
        let only = first.filter(|id| self.given.iter().all(|one| one.sheet == *id));
        let desk = first::load(doing.db, self.class_set, only).await?;
        refuse_if(desk.version.id != self.version, NotAwarded::Met)?;
        let mut marks = Vec::new();
        for given in self.given {
            let mut sheets = desk.sheets.iter();
            let sheet = sheets.position(|one| one.sheet_id == given.sheet);
            let sheet = sheet.ok_or(Error::NoSuch)?;
            let point = desk.point(given.key).ok_or(Error::NoSuch)?;
            let is_as_seen = desk.sheets[sheet].revision_id() == given.revision
                && desk.standing(sheet, point).newest == given.newest;
            refuse_if(!is_as_seen, NotAwarded::Met)?;
            desk.check((sheet, point), given.marks, &given.reason)
                .map_err(|unfit| Refused(NotAwarded::Unfit(unfit)))?;
            marks.push(ToWrite {
                sheet,
                point,
                marks: given.marks,
                reason: given.reason,
                settlement_id: None,
            });
        }
        Ok(write(doing, by, &desk, marks).await?)
    }
}

/// Writes marks down under one name, and the version that they are of where
/// none was chosen.
pub(super) async fn write(
    doing: &mut Doing<'_>,
    by: Staff,
    desk: &Desk,
    marks: Vec<ToWrite>,
) -> Result<(), Error> {
    if marks.is_empty() {
        return Ok(());
    }
    let act = uuid::Uuid::new_v4().hyphenated().to_string();
    for mark in marks {
        let sheet = &desk.sheets[mark.sheet];
        let suggestion = desk.standing(mark.sheet, mark.point).suggestion.as_ref();
        let new = NewMark {
            sheet_id: sheet.sheet_id,
            marking_point_id: desk.points[mark.point].id,
            revision_id: sheet.revision_id(),
            awarded: mark.marks,
            suggested: suggestion.map(|s| i64::from(s.marks)),
            reason: mark.reason,
            settlement_id: mark.settlement_id,
            act: act.clone(),
            undoes: None,
            staff_id: by.id,
            marked_at: doing.at,
        };
        mark::insert(doing.db, &new).await?;
    }
    if desk.class_set.scheme_version_id.is_none() {
        class_set::choose_scheme(doing.db, desk.class_set.id, desk.version.id).await?;
    }
    Ok(())
}
