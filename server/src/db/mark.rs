//! Marks: a marker's word on one point of one sheet. Appended; the newest
//! stands.

use super::{Connection, Error, Writing, settlement};
use crate::ids::{
    ClassSetId, MarkId, MarkingPointId, RevisionId, SchemeId, SchemeVersionId, SettlementId,
    SheetId, StaffId,
};
use crate::words::moderation::given;

/// A mark with the name of who gave it.
#[derive(Clone, Debug, PartialEq, Eq, sqlx::FromRow)]
pub struct Mark {
    pub id: MarkId,
    pub sheet_id: SheetId,
    /// On which point, of the version that it was marked with.
    pub marking_point_id: MarkingPointId,
    /// The point's key: the same in every version of the scheme.
    pub key: i64,
    /// The version that it was marked with.
    pub scheme_version_id: SchemeVersionId,
    /// The revision that was on the screen; `None` where nothing was stored.
    pub revision_id: Option<RevisionId>,
    /// Marks; `None` where an earlier mark was taken back.
    pub awarded: Option<i64>,
    /// What was suggested at that moment; `None`: nothing.
    pub suggested: Option<i64>,
    /// Why; blank where no reason was given.
    pub reason: String,
    /// The settlement whose word it is, and whose reason; `None`: the marker's
    /// own.
    pub settlement_id: Option<SettlementId>,
    /// What that decided.
    pub settled: Option<settlement::Kind>,
    /// Name of its round.
    pub settled_in: Option<String>,
    /// The act that it belongs to.
    pub act: String,
    /// The act that it undoes; `None`: none.
    pub undoes: Option<String>,
    /// Who gave it.
    pub staff_id: StaffId,
    /// Name of who gave it.
    pub by: String,
    /// Unix ms.
    pub marked_at: i64,
}

impl Mark {
    /// Returns what its settlement decided, and the name of the round. Returns
    /// `None` where it is the marker's own.
    #[must_use]
    pub fn settled(&self) -> Option<(settlement::Kind, &str)> {
        self.settled.zip(self.settled_in.as_deref())
    }

    /// Returns why it was given, in words. Blank where nothing was said.
    #[must_use]
    pub fn why(&self) -> String {
        self.settled().map_or_else(
            || self.reason.clone(),
            |(kind, round)| given(kind.code(), round, &self.reason),
        )
    }
}

/// A mark to add.
#[derive(Clone, Debug)]
pub struct NewMark {
    pub sheet_id: SheetId,
    pub marking_point_id: MarkingPointId,
    /// The revision that was on the screen.
    pub revision_id: Option<RevisionId>,
    /// Marks; `None` takes the mark back.
    pub awarded: Option<i64>,
    pub suggested: Option<i64>,
    /// Why; at most 1000 characters. Not kept with a settlement, which has it.
    pub reason: String,
    /// The settlement whose word it is.
    pub settlement_id: Option<SettlementId>,
    /// The act that it belongs to: a uuid.
    pub act: String,
    /// The act that it undoes.
    pub undoes: Option<String>,
    /// Who gives it.
    pub staff_id: StaffId,
    /// Now, Unix ms.
    pub marked_at: i64,
}

/// A query for marks: the columns of [`Mark`], then `$rest`.
macro_rules! select {
    ($rest:literal) => {
        concat!(
            "SELECT mark.id, sheet_id, marking_point_id, key, scheme_version_id, revision_id, awarded, suggested,
                    coalesce(settlement.reason, mark.reason) AS reason, settlement_id,
                    settlement.kind AS settled, moderation_round.name AS settled_in,
                    act, undoes, mark.staff_id, staff.name AS \"by\", marked_at
             FROM mark JOIN marking_point ON marking_point.id = marking_point_id
             JOIN staff ON staff.id = mark.staff_id
             LEFT JOIN settlement ON settlement.id = mark.settlement_id
             LEFT JOIN moderation_round ON moderation_round.id = settlement.round_id ",
            $rest
        )
    };
}

/// Returns the marks that stand in some class sets: for each sheet and point
/// of the scheme the newest, those taken back included. With `last`, as it was
/// when that was the newest mark of all.
pub async fn list_standing(
    db: &mut Connection,
    class_sets: &[ClassSetId],
    scheme: SchemeId,
    last: Option<MarkId>,
) -> Result<Vec<Mark>, Error> {
    let sql = sql!(select!(
        "WHERE mark.id IN (SELECT max(mark.id) FROM mark
                                 JOIN marking_point ON marking_point.id = marking_point_id
                                 JOIN scheme_version ON scheme_version.id = scheme_version_id
                                 JOIN sheet ON sheet.id = sheet_id
                                 JOIN bench ON bench.id = bench_id
                                 WHERE class_set_id IN (SELECT own_set.id FROM json_each($2) CROSS JOIN own_set WHERE own_set.id = value AND department_id = $1) AND scheme_id = $3 AND ($4 IS NULL OR mark.id <= $4)
                                 GROUP BY sheet_id, key)
         ORDER BY mark.id"
    ));
    query_as!(db, sql; serde_json::to_string(class_sets)?, scheme, last)
        .fetch_all(db)
        .await
}

/// Adds a mark.
pub async fn insert(db: &mut Writing, new: &NewMark) -> Result<MarkId, Error> {
    let sql = sql!("INSERT INTO mark (sheet_id, marking_point_id, revision_id, awarded, suggested, reason, settlement_id, act, undoes, staff_id, marked_at)
               VALUES ((SELECT id FROM own_sheet WHERE id = $2 AND department_id = $1), $3, $4, $5, $6, CASE WHEN $8 IS NULL THEN $7 ELSE '' END, $8, $9, $10, $11, $12) RETURNING id");
    query_scalar!(db, sql;
        new.sheet_id, new.marking_point_id, new.revision_id, new.awarded, new.suggested,
        &new.reason, new.settlement_id, &new.act, &new.undoes, new.staff_id, new.marked_at)
    .fetch_one(db)
    .await
}

pub async fn list_act(db: &mut Connection, act: &str) -> Result<Vec<Mark>, Error> {
    let sql = sql!(select!("WHERE act = $2 AND EXISTS (SELECT 1 FROM own_sheet WHERE own_sheet.id = mark.sheet_id AND own_sheet.department_id = $1)
         ORDER BY mark.id"));
    query_as!(db, sql; act).fetch_all(db).await
}

/// Returns the newest act of a marker in a class set that is not undone. What
/// was settled in a moderation round is none: it is settled anew there.
pub async fn find_newest_act(
    db: &mut Connection,
    class_set: ClassSetId,
    staff: StaffId,
) -> Result<Option<String>, Error> {
    let sql = sql!("SELECT act FROM mark JOIN sheet ON sheet.id = sheet_id JOIN bench ON bench.id = bench_id
               WHERE class_set_id = (SELECT id FROM own_set WHERE id = $2 AND department_id = $1) AND staff_id = $3 AND undoes IS NULL
               AND NOT EXISTS (SELECT 1 FROM mark AS undoing WHERE undoing.undoes = mark.act)
               AND NOT EXISTS (SELECT 1 FROM settled_mark WHERE mark_id = mark.id)
               ORDER BY mark.id DESC LIMIT 1");
    query_scalar!(db, sql; class_set, staff)
        .fetch_optional(db)
        .await
}

/// Returns the newest mark on a point of a sheet that was given and not
/// undone; with `before`, the newest that is older than that one.
pub async fn find_given(
    db: &mut Connection,
    sheet: SheetId,
    point: MarkingPointId,
    before: Option<MarkId>,
) -> Result<Option<Mark>, Error> {
    let sql = sql!(select!(
        "JOIN scheme_version ON scheme_version.id = scheme_version_id
         WHERE sheet_id = (SELECT id FROM own_sheet WHERE id = $2 AND department_id = $1) AND ($4 IS NULL OR mark.id < $4)
         AND (scheme_version.scheme_id, key) = (SELECT scheme_id, key FROM marking_point
                                 JOIN scheme_version ON scheme_version.id = scheme_version_id
                                 WHERE marking_point.id = $3)
         AND undoes IS NULL
         AND NOT EXISTS (SELECT 1 FROM mark AS undoing WHERE undoing.undoes = mark.act)
         ORDER BY mark.id DESC LIMIT 1"
    ));
    query_as!(db, sql; sheet, point, before)
        .fetch_optional(db)
        .await
}

/// Lists everybody who ever marked a point of a sheet of these class sets,
/// with the sheet.
///
/// Those who took their mark back are included, since they
/// have seen it too. With `last`, it lists them as they were when that was the
/// newest mark.
pub async fn list_hands(
    db: &mut Connection,
    class_sets: &[ClassSetId],
    last: Option<MarkId>,
) -> Result<Vec<(SheetId, StaffId)>, Error> {
    let sql = sql!("SELECT DISTINCT sheet_id, staff_id FROM mark
               JOIN sheet ON sheet.id = sheet_id
               JOIN bench ON bench.id = bench_id
               WHERE class_set_id IN (SELECT own_set.id FROM json_each($2) CROSS JOIN own_set WHERE own_set.id = value AND department_id = $1) AND ($3 IS NULL OR mark.id <= $3)
               ORDER BY sheet_id, staff_id");
    query_as!(db, sql; serde_json::to_string(class_sets)?, last)
        .fetch_all(db)
        .await
}
