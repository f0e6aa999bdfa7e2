//! Settlements: what was decided where first and second marks differ.
//! Appended; the newest on the same thing counts.

use super::query::{query, query_as, query_scalar};
use super::{Connection, Error, Writing};
use crate::ids::{ClassSetId, MarkId, RoundId, RoundSheetId, SettlementId, StaffId};

/// What was decided.
#[derive(Clone, Copy, Debug, PartialEq, Eq, sqlx::Type)]
#[sqlx(rename_all = "snake_case")]
pub enum Kind {
    /// The first mark of a point stands, or all of a sheet's.
    FirstStands,
    /// The pair agreed the mark of a point.
    Agreed,
    /// A point is marked again for a whole class, or all of them are.
    Again,
    /// It is not marked again after all.
    NotAgain,
}

/// What a settlement is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum About {
    /// One sheet of the sample.
    Sheet(RoundSheetId),
    /// A whole class.
    Class(ClassSetId),
}

/// A settlement.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct Settlement {
    /// Its id.
    pub id: SettlementId,
    /// The sheet that it is about; `None`: a whole class.
    pub round_sheet_id: Option<RoundSheetId>,
    /// The class that it is about; `None`: one sheet.
    pub class_set_id: Option<ClassSetId>,
    /// The point; `None`: all of them.
    pub point_key: Option<i64>,
    /// What was decided.
    pub kind: Kind,
    /// The mark that was agreed, where one was.
    pub agreed: Option<i64>,
    /// The newest mark at that moment; 0: none.
    pub last_mark_id: MarkId,
    /// Why.
    pub reason: String,
    /// Who wrote it down.
    pub staff_id: StaffId,
    /// Their name.
    pub by: String,
    /// Unix ms.
    pub at: i64,
}

/// A settlement to add.
#[derive(Clone, Debug)]
pub struct NewSettlement {
    /// In which round.
    pub round_id: RoundId,
    /// What it is about: a sheet for the first two kinds, a class for the
    /// others.
    pub about: About,
    /// The point; `None`: all of them. Never `None` where a mark is agreed.
    pub point_key: Option<i64>,
    /// What is decided.
    pub kind: Kind,
    /// The mark, where one is agreed.
    pub agreed: Option<i64>,
    /// Why; 1 to 800 characters.
    pub reason: String,
    /// Who writes it down.
    pub staff_id: StaffId,
    /// Now, Unix ms.
    pub at: i64,
}

/// Everything that was settled in a round, oldest first.
///
/// # Errors
/// When the query fails.
pub async fn list(db: &mut Connection, round: RoundId) -> Result<Vec<Settlement>, Error> {
    let sql = sql!("SELECT settlement.id, round_sheet_id, class_set_id, point_key, kind, agreed, last_mark_id, reason,
                      staff_id, staff.name AS \"by\", at
               FROM settlement JOIN staff ON staff.id = staff_id
               WHERE round_id = (SELECT id FROM moderation_round WHERE id = $2 AND department_id = $1) ORDER BY settlement.id");
    Ok(query_as(db, sql).bind(round).fetch_all(db).await?)
}

/// Adds a settlement.
///
/// # Errors
/// When the query fails, or the round is closed.
pub async fn insert(db: &mut Writing, new: &NewSettlement) -> Result<SettlementId, Error> {
    let (sheet, class) = match new.about {
        About::Sheet(id) => (Some(id), None),
        About::Class(id) => (None, Some(id)),
    };
    let sql = sql!("INSERT INTO settlement (round_id, round_sheet_id, class_set_id, point_key, kind, agreed, last_mark_id,
                                       reason, staff_id, at)
               VALUES ((SELECT id FROM moderation_round WHERE id = $2 AND department_id = $1), $3, $4, $5, $6, $7, (SELECT coalesce(max(id), 0) FROM mark), $8, $9, $10) RETURNING id");
    Ok(query_scalar(db, sql)
        .bind(new.round_id)
        .bind(sheet)
        .bind(class)
        .bind(new.point_key)
        .bind(new.kind)
        .bind(new.agreed)
        .bind(&new.reason)
        .bind(new.staff_id)
        .bind(new.at)
        .fetch_one(db)
        .await?)
}

/// Says that a settlement gave a mark.
///
/// # Errors
/// When the query fails.
pub async fn insert_mark(
    db: &mut Writing,
    settlement: SettlementId,
    mark: MarkId,
) -> Result<(), Error> {
    let sql = sql!("INSERT INTO settled_mark (mark_id, settlement_id) VALUES ((SELECT mark.id FROM mark JOIN own_sheet ON own_sheet.id = sheet_id
                       WHERE mark.id = $2 AND department_id = $1), $3)");
    query(db, sql)
        .bind(mark)
        .bind(settlement)
        .execute(db)
        .await?;
    Ok(())
}

/// How far a class has come with marking a point again.
#[derive(Clone, Copy, Debug, PartialEq, Eq, sqlx::FromRow)]
pub struct Again {
    /// Marks that stood when it was decided, of the point or of all of them.
    pub of: i64,
    /// How many of those have been given anew since.
    pub done: i64,
}

/// Counts how far marking again has come since it was decided: marks that
/// somebody gave anew and did not undo, those of settlements aside. Points that
/// nobody had marked by then are not waited for.
///
/// # Errors
/// When the query fails.
pub async fn count_again(
    db: &mut Connection,
    class_set: ClassSetId,
    point: Option<i64>,
    last: MarkId,
) -> Result<Again, Error> {
    let sql = sql!("WITH stood AS (
                 SELECT sheet_id, key, scheme_version.scheme_id, max(mark.id) AS id
                 FROM mark JOIN marking_point ON marking_point.id = marking_point_id
                 JOIN scheme_version ON scheme_version.id = marking_point.scheme_version_id
                 JOIN sheet ON sheet.id = sheet_id JOIN bench ON bench.id = bench_id
                 JOIN class_set ON class_set.id = class_set_id
                 JOIN scheme_version AS of_set ON of_set.id = class_set.scheme_version_id
                 WHERE class_set_id = (SELECT id FROM own_set WHERE id = $2 AND department_id = $1) AND scheme_version.scheme_id = of_set.scheme_id
                 AND ($3 IS NULL OR key = $3) AND mark.id <= $4
                 GROUP BY sheet_id, key)
               SELECT count(*) AS \"of\", count(CASE WHEN EXISTS (
                 SELECT 1 FROM mark AS anew JOIN marking_point ON marking_point.id = anew.marking_point_id
                 JOIN scheme_version ON scheme_version.id = marking_point.scheme_version_id
                 WHERE anew.sheet_id = stood.sheet_id AND marking_point.key = stood.key
                 AND scheme_version.scheme_id = stood.scheme_id
                 AND anew.id > $4 AND anew.awarded IS NOT NULL AND anew.undoes IS NULL
                 AND NOT EXISTS (SELECT 1 FROM mark AS undoing WHERE undoing.undoes = anew.act)
                 AND NOT EXISTS (SELECT 1 FROM settled_mark WHERE mark_id = anew.id)) THEN 1 END) AS done
               FROM stood JOIN mark ON mark.id = stood.id AND mark.awarded IS NOT NULL");
    Ok(query_as(db, sql)
        .bind(class_set)
        .bind(point)
        .bind(last)
        .fetch_one(db)
        .await?)
}
