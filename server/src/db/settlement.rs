//! Settlements: what was decided where first and second marks differ.
//! Appended; the newest on the same thing counts.

use super::{Connection, Error, Writing};
use crate::ids::{ClassSetId, MarkId, RoundId, RoundSheetId, SettlementId, StaffId};
use crate::words::moderation::{class_called, settled};

codes! {
    /// What was decided.
    pub enum Kind {
        /// The first mark of a point stands, or all of a sheet's.
        FirstStands = "first_stands",
        /// The pair agreed the mark of a point.
        Agreed = "agreed",
        /// A point is marked again for a whole class, or all of them are.
        Again = "again",
        /// It is not marked again after all.
        NotAgain = "not_again",
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum About {
    /// One sheet of the sample.
    Sheet(RoundSheetId),
    Class(ClassSetId),
}

#[derive(Clone, Debug, sqlx::FromRow)]
pub struct Settlement {
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
    pub reason: String,
    /// Name of who wrote it down.
    pub by: String,
    /// Unix ms.
    pub at: i64,
}

impl Settlement {
    /// Returns what was decided, in words.
    #[must_use]
    pub fn what(&self) -> String {
        settled(self.kind.code(), self.agreed, self.point_key.is_some())
    }
}

/// A settlement to add.
#[derive(Clone, Debug)]
pub struct NewSettlement {
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

/// Lists everything that was settled in a round, oldest first.
pub async fn list(db: &mut Connection, round: RoundId) -> Result<Vec<Settlement>, Error> {
    let sql = sql!("SELECT settlement.id, round_sheet_id, class_set_id, point_key, kind, agreed, reason,
                      staff.name AS \"by\", at
               FROM settlement JOIN staff ON staff.id = staff_id
               WHERE round_id = (SELECT id FROM moderation_round WHERE id = $2 AND department_id = $1) ORDER BY settlement.id");
    query_as!(db, sql; round).fetch_all(db).await
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
    query_scalar!(db, sql;
        new.round_id, sheet, class, new.point_key, new.kind, new.agreed, &new.reason,
        new.staff_id, new.at)
    .fetch_one(db)
    .await
}

/// Says that a settlement gave a mark.
pub async fn insert_mark(
    db: &mut Writing,
    settlement: SettlementId,
    mark: MarkId,
) -> Result<(), Error> {
    let sql = sql!("INSERT INTO settled_mark (mark_id, settlement_id) VALUES ((SELECT mark.id FROM mark JOIN own_sheet ON own_sheet.id = sheet_id
                       WHERE mark.id = $2 AND department_id = $1), $3)");
    query!(db, sql; mark, settlement).run(db).await
}

/// How far a class has come with marking a point again.
#[derive(Clone, Copy, Debug, PartialEq, Eq, sqlx::FromRow)]
pub struct Again {
    /// Marks that stood when it was decided, of the point or of all of them.
    pub of: i64,
    /// How many of those have been given anew since.
    pub done: i64,
}

/// What is to be marked again for a whole class, and how far that has come.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct ToMarkAgain {
    /// Who said so, why and when.
    pub settlement_id: SettlementId,
    pub round_id: RoundId,
    pub class_set_id: ClassSetId,
    pub class_name: String,
    /// Date of the lesson, `yyyy-mm-dd`.
    pub held_on: String,
    /// The point's key; `None`: all of them.
    pub point_key: Option<i64>,
    /// How far they have come.
    #[sqlx(flatten)]
    pub again: Again,
}

impl ToMarkAgain {
    /// Returns what staff call the class.
    #[must_use]
    pub fn called(&self) -> String {
        class_called(&self.class_name, &self.held_on)
    }
}

/// A query for the columns of [`ToMarkAgain`], where `$which`: of each class
/// and point the newest word, where it was not taken back. Counted are the
/// marks that stood when it was said, and those of them that were given anew.
/// A cross join is done from left to right: from the few that are asked for to
/// their marks.
macro_rules! select_again {
    ($which:literal) => {
        concat!(
            "WITH asked AS (
               SELECT settlement.id, round_id, class_set.id AS class_set_id, class.name AS class_name, held_on,
                      point_key, last_mark_id, of_set.scheme_id
               FROM settlement JOIN moderation_round ON moderation_round.id = settlement.round_id
               JOIN class_set ON class_set.id = settlement.class_set_id
               JOIN class ON class.id = class_set.class_id
               LEFT JOIN scheme_version AS of_set ON of_set.id = class_set.scheme_version_id
               WHERE moderation_round.department_id = $1 AND kind = 'again' AND ",
            $which,
            "  AND NOT EXISTS (SELECT 1 FROM settlement AS newer WHERE newer.round_id = settlement.round_id
                               AND newer.class_set_id = settlement.class_set_id
                               AND newer.point_key IS NOT DISTINCT FROM settlement.point_key
                               AND newer.id > settlement.id)),
             stood AS (
               SELECT asked.id AS settlement_id, last_mark_id, mark.sheet_id, key, asked.scheme_id, max(mark.id) AS id
               FROM asked CROSS JOIN bench CROSS JOIN sheet CROSS JOIN mark
               JOIN marking_point ON marking_point.id = marking_point_id
               JOIN scheme_version ON scheme_version.id = marking_point.scheme_version_id
               WHERE bench.class_set_id = asked.class_set_id AND sheet.bench_id = bench.id
               AND mark.sheet_id = sheet.id AND mark.id <= last_mark_id
               AND scheme_version.scheme_id = asked.scheme_id AND (point_key IS NULL OR key = point_key)
               GROUP BY asked.id, mark.sheet_id, key),
             counted AS (
               SELECT stood.settlement_id, count(*) AS \"of\", count(CASE WHEN EXISTS (
                 SELECT 1 FROM mark AS anew JOIN marking_point ON marking_point.id = anew.marking_point_id
                 JOIN scheme_version ON scheme_version.id = marking_point.scheme_version_id
                 WHERE anew.sheet_id = stood.sheet_id AND marking_point.key = stood.key
                 AND scheme_version.scheme_id = stood.scheme_id
                 AND anew.id > last_mark_id AND anew.awarded IS NOT NULL AND anew.undoes IS NULL
                 AND NOT EXISTS (SELECT 1 FROM mark AS undoing WHERE undoing.undoes = anew.act)
                 AND NOT EXISTS (SELECT 1 FROM settled_mark WHERE mark_id = anew.id)) THEN 1 END) AS done
               FROM stood JOIN mark ON mark.id = stood.id AND mark.awarded IS NOT NULL
               GROUP BY stood.settlement_id)
             SELECT asked.id AS settlement_id, round_id, class_set_id, class_name, held_on, point_key,
                    coalesce(\"of\", 0) AS \"of\", coalesce(done, 0) AS done
             FROM asked LEFT JOIN counted ON counted.settlement_id = asked.id
             ORDER BY held_on DESC, class_name, class_set_id, asked.id"
        )
    };
}

/// Lists what is to be marked again in a round, by class.
pub async fn list_again(db: &mut Connection, round: RoundId) -> Result<Vec<ToMarkAgain>, Error> {
    let sql = sql!(select_again!("settlement.round_id = $2"));
    query_as!(db, sql; round).fetch_all(db).await
}

/// Lists what is to be marked again, in any round, of the classes that
/// somebody teaches.
pub async fn list_again_of_teacher(
    db: &mut Connection,
    teacher: StaffId,
) -> Result<Vec<ToMarkAgain>, Error> {
    let sql = sql!(select_again!("class_set.created_by = $2"));
    query_as!(db, sql; teacher).fetch_all(db).await
}
