//! Somebody's newest act of marking is undone.

use super::{Act, Doing, NotDone, Refused, Staff, refuse_if};
use crate::db::mark::{self, Mark, NewMark};
use crate::ids::ClassSetId;

/// Undoes the newest act of whoever asks, whole, by marks of its own: what
/// stood before stands again, and history is never rewritten.
#[derive(Clone, Debug)]
pub struct UndoMarks {
    pub class_set: ClassSetId,
}

/// Why nothing is undone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotUndone {
    /// They have given no mark that could be.
    Nothing,
    /// Somebody else marked one of the points since.
    Met,
}

impl Act<Staff> for UndoMarks {
    type Done = ();
    type Stop = NotDone<NotUndone>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Self::Stop> {
        let newest = mark::find_newest_act(doing.db, self.class_set, by.id).await?;
        let act = newest.ok_or(Refused(NotUndone::Nothing))?;
        let marks = mark::list_act(doing.db, &act).await?;
        for mark in &marks {
            let (sheet, point) = (mark.sheet_id, mark.marking_point_id);
            let newest = mark::find_given(doing.db, sheet, point, None).await?;
            let is_met = newest.is_some_and(|newest| newest.id != mark.id);
            refuse_if(is_met, NotUndone::Met)?;
        }
        let undoing = uuid::Uuid::new_v4().hyphenated().to_string();
        for mark in marks {
            let (sheet_id, point) = (mark.sheet_id, mark.marking_point_id);
            let before = mark::find_given(doing.db, sheet_id, point, Some(mark.id)).await?;
            // Where nothing stood before, the mark is taken back.
            let stands = before.unwrap_or(Mark {
                awarded: None,
                suggested: None,
                reason: String::new(),
                settlement_id: None,
                ..mark
            });
            let new = NewMark {
                sheet_id,
                marking_point_id: stands.marking_point_id,
                revision_id: stands.revision_id,
                awarded: stands.awarded,
                suggested: stands.suggested,
                reason: stands.reason,
                settlement_id: stands.settlement_id,
                act: undoing.clone(),
                undoes: Some(act.clone()),
                staff_id: by.id,
                marked_at: doing.at,
            };
            mark::insert(doing.db, &new).await?;
        }
        Ok(())
    }
}
