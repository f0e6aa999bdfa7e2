//! The sheets of a round: anchors that every marker marks, and the sample.

use super::{Connection, Error, Writing};
use crate::ids::{
    ClassSetId, RevisionId, RoundId, RoundSheetId, SchemeVersionId, SheetId, StaffId,
};
use crate::words::moderation::sheet_called;

codes! {
    /// What a sheet is in its round.
    pub enum Kind {
        /// Every marker marks it, to agree the standard.
        Anchor = "anchor",
        /// One marker marks it a second time.
        Sample = "sample",
    }
}

#[derive(Clone, Debug, sqlx::FromRow)]
pub struct RoundSheet {
    pub id: RoundSheetId,
    pub round_id: RoundId,
    pub sheet_id: SheetId,
    pub class_set_id: ClassSetId,
    pub class_name: String,
    /// Date of the lesson, `yyyy-mm-dd`.
    pub held_on: String,
    /// Label of the group.
    pub label: String,
    /// The sheet as it was then; `None`: nothing was stored, only paper.
    pub revision_id: Option<RevisionId>,
    /// What it is marked with.
    pub scheme_version_id: SchemeVersionId,
    /// Anchor or sample.
    pub kind: Kind,
    /// Which rule took it: for nobody who has still to mark it.
    pub why: String,
    /// Its second marker; `None` for an anchor.
    pub marker_id: Option<StaffId>,
    /// Their name.
    pub marker: Option<String>,
}

impl RoundSheet {
    /// Returns what staff call it.
    #[must_use]
    pub fn called(&self) -> String {
        sheet_called(&self.class_name, &self.held_on, &self.label)
    }
}

/// A sheet to take into a round.
#[derive(Clone, Debug)]
pub struct NewRoundSheet {
    pub round_id: RoundId,
    pub sheet_id: SheetId,
    /// As it is now.
    pub revision_id: Option<RevisionId>,
    /// What it is marked with.
    pub scheme_version_id: SchemeVersionId,
    /// Anchor or sample.
    pub kind: Kind,
    /// The order in which it is marked, from 1.
    pub place: i64,
    /// Which rule took it; at most 200 characters.
    pub why: String,
    /// Its second marker; `None` for an anchor.
    pub marker_id: Option<StaffId>,
}

/// How far one marker has come with one sheet.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct Progress {
    pub round_sheet_id: RoundSheetId,
    pub round_id: RoundId,
    /// Anchor or sample.
    pub kind: Kind,
    /// Whose work it is.
    pub staff_id: StaffId,
    /// Their name.
    pub marker: String,
    /// Points to mark.
    pub points: i64,
    /// Points that have a mark of theirs.
    pub marked: i64,
}

impl Progress {
    /// Says whether every point has a mark.
    #[must_use]
    pub fn is_complete(&self) -> bool {
        self.marked == self.points
    }
}

/// A query for sheets of rounds, with `$rest`.
macro_rules! select {
    ($rest:literal) => {
        concat!(
            "SELECT round_sheet.id, round_id, sheet_id, class_set_id, class.name AS class_name, held_on, bench.label,
                    revision_id, round_sheet.scheme_version_id, kind, why, marker_id, staff.name AS marker
             FROM round_sheet JOIN sheet ON sheet.id = sheet_id
             JOIN bench ON bench.id = bench_id
             JOIN class_set ON class_set.id = class_set_id
             JOIN class ON class.id = class_id
             LEFT JOIN staff ON staff.id = marker_id ",
            $rest
        )
    };
}

/// Returns the sheets of a round, anchors first, in the order in which they
/// are marked.
pub async fn list(db: &mut Connection, round: RoundId) -> Result<Vec<RoundSheet>, Error> {
    let sql = sql!(select!(
        "WHERE round_id = (SELECT id FROM moderation_round WHERE id = $2 AND department_id = $1) ORDER BY kind, place"
    ));
    query_as!(db, sql; round).fetch_all(db).await
}

pub async fn find(
    db: &mut Connection,
    round: RoundId,
    id: RoundSheetId,
) -> Result<Option<RoundSheet>, Error> {
    let sql = sql!(select!(
        "WHERE round_id = (SELECT id FROM moderation_round WHERE id = $2 AND department_id = $1) AND round_sheet.id = $3"
    ));
    query_as!(db, sql; round, id).fetch_optional(db).await
}

/// A query for the columns of [`Progress`], where `$which`.
macro_rules! select_progress {
    ($which:literal) => {
        concat!(
            "SELECT round_sheet.id AS round_sheet_id, round_sheet.round_id, kind, staff.id AS staff_id,
                    staff.name AS marker,
                    (SELECT count(*) FROM marking_point
                     WHERE marking_point.scheme_version_id = round_sheet.scheme_version_id) AS points,
                    (SELECT count(*) FROM second_mark WHERE awarded IS NOT NULL AND second_mark.id IN
                     (SELECT max(newest.id) FROM second_mark AS newest
                      WHERE newest.round_sheet_id = round_sheet.id AND newest.staff_id = staff.id
                      GROUP BY newest.marking_point_id)) AS marked
             FROM moderation_round JOIN round_sheet ON round_sheet.round_id = moderation_round.id
             JOIN round_marker ON round_marker.round_id = round_sheet.round_id
                  AND (marker_id IS NULL OR marker_id = round_marker.staff_id)
             JOIN staff ON staff.id = round_marker.staff_id
             WHERE moderation_round.department_id = $1 AND ",
            $which,
            " ORDER BY round_sheet.round_id, kind, place, staff.name_key"
        )
    };
}

/// Lists how far markers have come in a round, sheet by sheet in the order in
/// which they are marked: one marker or all of them.
pub async fn list_progress(
    db: &mut Connection,
    round: RoundId,
    marker: Option<StaffId>,
) -> Result<Vec<Progress>, Error> {
    let sql = sql!(select_progress!(
        "moderation_round.id = $2 AND ($3 IS NULL OR staff.id = $3)"
    ));
    query_as!(db, sql; round, marker).fetch_all(db).await
}

/// Returns the same of all markers in every round that is being marked.
pub async fn list_progress_of_all(db: &mut Connection) -> Result<Vec<Progress>, Error> {
    let sql = sql!(select_progress!(
        "(SELECT step FROM round_step WHERE round_step.round_id = moderation_round.id
          ORDER BY round_step.id DESC LIMIT 1) IN ('standard', 'drawn')"
    ));
    query_as!(db, sql).fetch_all(db).await
}

/// A query for the rounds, of those where `$which`, in which somebody marks a
/// sheet of the sample a second time, or gave one of its first marks that stood
/// when it was drawn.
macro_rules! select_with_marker {
    ($which:literal) => {
        concat!(
            "SELECT DISTINCT moderation_round.id FROM moderation_round
             JOIN round_step ON round_step.round_id = moderation_round.id AND step = 'drawn'
             JOIN round_sheet ON round_sheet.round_id = moderation_round.id AND kind = 'sample'
             WHERE moderation_round.department_id = $1
             AND (marker_id = $2 OR EXISTS (
               SELECT 1 FROM mark WHERE mark.staff_id = $2 AND awarded IS NOT NULL
               AND mark.id IN (SELECT max(newest.id) FROM mark AS newest
                               JOIN marking_point ON marking_point.id = marking_point_id
                               JOIN scheme_version ON scheme_version.id = marking_point.scheme_version_id
                               WHERE newest.sheet_id = round_sheet.sheet_id
                               AND scheme_version.scheme_id = moderation_round.scheme_id
                               AND newest.id <= round_step.last_mark_id
                               GROUP BY key)))
             AND ",
            $which
        )
    };
}

/// Says whether somebody marks a sheet of a round's sample a second time, or
/// gave one of its first marks that stood when it was drawn.
pub async fn has_marker(
    db: &mut Connection,
    round: RoundId,
    staff: StaffId,
) -> Result<bool, Error> {
    let sql = sql!(select_with_marker!("moderation_round.id = $3"));
    let round: Option<RoundId> = query_scalar!(db, sql; staff, round)
        .fetch_optional(db)
        .await?;
    Ok(round.is_some())
}

/// Lists the rounds with first and second marks side by side, not closed yet,
/// of which the same is true.
pub async fn list_shown_with_marker(
    db: &mut Connection,
    staff: StaffId,
) -> Result<Vec<RoundId>, Error> {
    let sql = sql!(select_with_marker!(
        "(SELECT newest.step FROM round_step AS newest WHERE newest.round_id = moderation_round.id
          ORDER BY newest.id DESC LIMIT 1) = 'shown'"
    ));
    query_scalar!(db, sql; staff).fetch_all(db).await
}

/// Takes a sheet into a round.
///
/// # Errors
/// When the query fails, or the sheet is in the round already.
pub async fn insert(db: &mut Writing, new: &NewRoundSheet) -> Result<RoundSheetId, Error> {
    let sql = sql!("INSERT INTO round_sheet (round_id, sheet_id, revision_id, scheme_version_id, kind, place, why, marker_id)
               VALUES ((SELECT id FROM moderation_round WHERE id = $2 AND department_id = $1),
                       (SELECT id FROM own_sheet WHERE id = $3 AND department_id = $1), $4, $5, $6, $7, $8, $9) RETURNING id");
    query_scalar!(db, sql;
        new.round_id, new.sheet_id, new.revision_id, new.scheme_version_id, new.kind, new.place,
        &new.why, new.marker_id)
    .fetch_one(db)
    .await
}

/// A sheet that somebody has still to mark blind, or whose marks they might
/// still change: it closes the first marks of its class set to them.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct Closing {
    pub sheet_id: SheetId,
    pub class_set_id: ClassSetId,
    pub round_id: RoundId,
    pub round_name: String,
    /// What of it is being marked.
    pub kind: Kind,
}

/// What is closed to somebody: the class sets of these sheets, whose first
/// marks they may not see, nor anything that was made while those were given.
#[derive(Clone, Debug, Default)]
pub struct Closed(Vec<Closing>);

impl Closed {
    /// Says why a class set is closed. Returns `None` when it is open.
    #[must_use]
    pub fn class_set(&self, id: ClassSetId) -> Option<&Closing> {
        self.0.iter().find(|closing| closing.class_set_id == id)
    }

    /// Says whether they have this very sheet to mark.
    #[must_use]
    pub fn has_sheet(&self, id: SheetId) -> bool {
        self.0.iter().any(|closing| closing.sheet_id == id)
    }
}

/// Returns what is closed to somebody.
///
/// An anchor's class set is closed to every marker of its round until the
/// standard is shown; a sampled sheet's to its second marker until the round
/// is. Not only until they have finished: until then they may change their
/// marks.
pub async fn list_closed(db: &mut Connection, staff: StaffId) -> Result<Closed, Error> {
    let sql = sql!("SELECT sheet_id, class_set_id, round_sheet.round_id, moderation_round.name AS round_name, kind
               FROM round_sheet JOIN moderation_round ON moderation_round.id = round_sheet.round_id
               JOIN round_marker ON round_marker.round_id = round_sheet.round_id AND round_marker.staff_id = $2
               JOIN sheet ON sheet.id = sheet_id
               JOIN bench ON bench.id = bench_id
               WHERE moderation_round.department_id = $1 AND (marker_id IS NULL OR marker_id = $2)
               AND NOT EXISTS (SELECT 1 FROM round_step WHERE round_step.round_id = round_sheet.round_id
                               AND (step = 'closed'
                                    OR step = CASE kind WHEN 'anchor' THEN 'standard_shown' ELSE 'shown' END))
               ORDER BY class_set_id, round_sheet.id");
    let closing = query_as!(db, sql; staff).fetch_all(db).await?;
    Ok(Closed(closing))
}
