//! Second marks: a marker's word on one point of a sheet of a round, given
//! without seeing anybody else's. Appended; the newest of each marker stands.

use super::{Connection, Error, Writing};
use crate::ids::{MarkingPointId, RoundId, RoundSheetId, StaffId};

#[derive(Clone, Debug, PartialEq, Eq, sqlx::FromRow)]
pub struct SecondMark {
    pub id: i64,
    /// On which sheet of the round.
    pub round_sheet_id: RoundSheetId,
    pub marking_point_id: MarkingPointId,
    /// The point's key: the same in every version of the scheme.
    pub key: i64,
    /// Marks; `None` where an earlier mark was taken back.
    pub awarded: Option<i64>,
    /// Why; blank where nothing was said.
    pub note: String,
    /// Who gave it.
    pub staff_id: StaffId,
    /// Name of who gave it.
    pub by: String,
    /// Unix ms.
    pub marked_at: i64,
}

/// A query for the marks that stand: of each marker the newest on each point
/// of each sheet `$of`.
macro_rules! select_standing {
    ($of:literal) => {
        concat!(
            "SELECT second_mark.id, round_sheet_id, marking_point_id, key, awarded, note,
                    second_mark.staff_id, staff.name AS \"by\", marked_at
             FROM second_mark JOIN marking_point ON marking_point.id = marking_point_id
             JOIN staff ON staff.id = second_mark.staff_id
             WHERE second_mark.id IN (SELECT max(newest.id) FROM second_mark AS newest
                                      JOIN round_sheet ON round_sheet.id = newest.round_sheet_id
                                      WHERE ",
            $of,
            "                         GROUP BY newest.round_sheet_id, newest.staff_id, newest.marking_point_id)
             ORDER BY second_mark.id"
        )
    };
}

/// Lists what one marker has given on one sheet, marks taken back included.
pub async fn list_own(
    db: &mut Connection,
    sheet: RoundSheetId,
    marker: StaffId,
) -> Result<Vec<SecondMark>, Error> {
    let sql = sql!(select_standing!(
        "newest.round_sheet_id = (SELECT id FROM own_round_sheet WHERE id = $2 AND department_id = $1) AND newest.staff_id = $3 "
    ));
    query_as!(db, sql; sheet, marker).fetch_all(db).await
}

/// Lists what all markers of a round have given, marks taken back included.
/// Nobody may see it before the marks are shown.
pub async fn list_in_round(db: &mut Connection, round: RoundId) -> Result<Vec<SecondMark>, Error> {
    let sql = sql!(select_standing!(
        "round_sheet.round_id = (SELECT id FROM moderation_round WHERE id = $2 AND department_id = $1) "
    ));
    query_as!(db, sql; round).fetch_all(db).await
}

/// Adds a mark; `None` takes one back.
///
/// # Errors
/// When the query fails, or the marks have been shown.
pub async fn insert(
    db: &mut Writing,
    sheet: RoundSheetId,
    point: MarkingPointId,
    awarded: Option<i64>,
    note: &str,
    staff: StaffId,
    now: i64,
) -> Result<(), Error> {
    let sql = sql!("INSERT INTO second_mark (round_sheet_id, marking_point_id, awarded, note, staff_id, marked_at)
               VALUES ((SELECT id FROM own_round_sheet WHERE id = $2 AND department_id = $1), $3, $4, $5, $6, $7)");
    query!(db, sql; sheet, point, awarded, note, staff, now)
        .run(db)
        .await
}
