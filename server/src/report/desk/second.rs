//! The second marker's desk: one sheet of a round, with their own marks.
//!
//! First marks, decisions on slips and notes are not loaded, so that no page
//! can show them.
//!
//! # What keeps second marking blind
//! What is suggested comes from the sheet alone, so a slip that the first
//! marker dismissed still counts in it. The pages that show those are closed by
//! one guard. Sheets are marked in the order of their tickets, not of the rules
//! that took them, and the revision is the one of the draw.
//! `tests/moderation/blind.rs` marks two ways and compares the bytes.

use std::collections::HashMap;

use super::{Desk, Mark, MarkedSheet, OnDesk, PointStanding, Whose, suggestions};
use crate::db::round::{self, Round};
use crate::db::round_sheet::{self, RoundSheet};
use crate::db::second_mark::{self, SecondMark};
use crate::db::{Connection, Error, class_set, revision, ruling, scheme};
use crate::ids::{RoundSheetId, StaffId};
use crate::report::Work;

/// Why somebody has no such desk.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoDesk {
    /// There is no such sheet in the round.
    NoSuchSheet,
    /// They have not to mark it.
    NotTheirs,
}

/// Finds a sheet of a round for somebody who has to mark it, or had to.
pub async fn find(
    db: &mut Connection,
    round: &Round,
    id: RoundSheetId,
    reader: StaffId,
) -> Result<Result<RoundSheet, NoDesk>, Error> {
    let Some(sheet) = round_sheet::find(db, round.id, id).await? else {
        return Ok(Err(NoDesk::NoSuchSheet));
    };
    let is_theirs = match sheet.marker_id {
        Some(marker) => marker == reader,
        None => {
            let markers = round::list_markers(db, round.id).await?;
            markers.iter().any(|marker| marker.id == reader)
        }
    };
    Ok(is_theirs.then_some(sheet).ok_or(NoDesk::NotTheirs))
}

/// Loads a sheet of a round for one of its markers.
pub async fn load(db: &mut Connection, sheet: RoundSheet, marker: StaffId) -> Result<Desk, Error> {
    let version = scheme::get_version(db, sheet.scheme_version_id).await?;
    let points = scheme::list_points(db, version.id).await?;
    let work = match sheet.revision_id {
        Some(id) => Work::of(revision::get(db, id).await?, Vec::new()),
        None => None,
    };
    let marks = second_mark::list_own(db, sheet.id, marker).await?;
    let mut marks: HashMap<i64, SecondMark> =
        marks.into_iter().map(|mark| (mark.key, mark)).collect();
    let suggestions = suggestions(&points, work.as_ref());
    let standings = points.iter().zip(suggestions);
    let standings = standings.map(|(point, suggestion)| PointStanding {
        suggestion,
        mark: marks
            .remove(&point.key)
            .and_then(|mark| Mark::second(mark, &sheet)),
        newest: None,
        is_on_earlier_revision: false,
        is_of_earlier_version: false,
    });
    let on_desk = OnDesk {
        marks: MarkedSheet {
            points: standings.collect(),
        },
        sheet_id: sheet.sheet_id,
        label: sheet.label.clone(),
        bench: None,
        work,
    };
    Ok(Desk {
        class_set: class_set::get(db, sheet.class_set_id).await?,
        rulings: ruling::list_standing(db, version.scheme_id).await?,
        whose: Whose::Second(Box::new(sheet)),
        sheets: vec![on_desk],
        version,
        points,
    })
}

impl Mark {
    /// Returns `None` when it was taken back.
    fn second(mark: SecondMark, sheet: &RoundSheet) -> Option<Self> {
        Some(Self {
            awarded: mark.awarded?,
            why: mark.note.clone(),
            settlement_id: None,
            reason: mark.note,
            by: mark.by,
            marked_at: mark.marked_at,
            revision_id: sheet.revision_id,
            suggested: None,
        })
    }
}
