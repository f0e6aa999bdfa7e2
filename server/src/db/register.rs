//! Who did the practical: one row a pupil. Not history, but corrected in
//! place; and initials are blanked where they are no more kept.
//!
//! It holds what a school may have to blank: initials. Its events have numbers
//! only, since events are kept. `secure_delete` is on, so that what is blanked
//! is not left in free pages.

use serde::Serialize;

use super::{Connection, Error, Writing};
use crate::ids::{BenchId, ClassSetId};
use crate::secret::sha256;

/// A row of `register_line`: one pupil.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, sqlx::FromRow)]
pub struct RegisterLine {
    /// The group; `None` for somebody who was absent.
    pub bench_id: Option<BenchId>,
    /// Blank where the school keeps none.
    pub initials: String,
    /// Whether the pupil was there.
    pub was_present: bool,
    /// Of an absentee: the day of catching up, `yyyy-mm-dd`; `None`: not yet.
    pub caught_up_on: Option<String>,
}

/// Returns the lines of a class set, in the order in which they were written.
pub async fn list(db: &mut Connection, class_set: ClassSetId) -> Result<Vec<RegisterLine>, Error> {
    let sql = sql!("SELECT bench_id, initials, was_present, caught_up_on FROM register_line
               WHERE class_set_id = (SELECT id FROM own_set WHERE id = $2 AND department_id = $1) ORDER BY id");
    query_as!(db, sql; class_set).fetch_all(db).await
}

/// Returns a digest of the lines of a class set, which differs once any is
/// changed.
///
/// # Errors
/// When they cannot be written as JSON.
pub fn digest(lines: &[RegisterLine]) -> Result<String, Error> {
    Ok(sha256(&serde_json::to_string(lines)?))
}

/// Puts other lines in the place of those of a class set.
pub async fn keep(
    db: &mut Writing,
    class_set: ClassSetId,
    lines: &[RegisterLine],
) -> Result<(), Error> {
    let sql = sql!(
        "DELETE FROM register_line WHERE class_set_id = (SELECT id FROM own_set WHERE id = $2 AND department_id = $1)"
    );
    query!(db, sql; class_set).execute(&mut *db).await?;
    for line in lines {
        let sql = sql!("INSERT INTO register_line (class_set_id, bench_id, initials, was_present, caught_up_on)
             VALUES ((SELECT id FROM own_set WHERE id = $2 AND department_id = $1), $3, $4, $5, $6)");
        query!(db, sql;
            class_set, line.bench_id, &line.initials, line.was_present, &line.caught_up_on)
        .execute(&mut *db)
        .await?;
    }
    Ok(())
}

/// Counts the pupils whose initials are kept.
pub async fn count_initials(db: &mut Connection) -> Result<i64, Error> {
    let sql = sql!("SELECT count(*) FROM register_line WHERE initials <> ''
               AND EXISTS (SELECT 1 FROM own_set WHERE own_set.id = class_set_id AND department_id = $1)");
    query_scalar!(db, sql).fetch_one(db).await
}

/// Blanks all initials, and returns how many there were.
pub async fn blank_initials(db: &mut Writing) -> Result<u64, Error> {
    let sql = sql!("UPDATE register_line SET initials = '' WHERE initials <> ''
               AND EXISTS (SELECT 1 FROM own_set WHERE own_set.id = class_set_id AND department_id = $1)");
    query!(db, sql).execute(db).await
}

/// A class set in the list of a year.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct Listed {
    pub id: ClassSetId,
    pub class_name: String,
    /// Code of the method.
    pub method: String,
    /// Date of the lesson, `yyyy-mm-dd`.
    pub held_on: String,
    /// Its benches.
    pub groups: i64,
    /// How many of them have handed in.
    pub handed_in: i64,
    /// Pupils who were there.
    pub present: i64,
    /// Pupils who were not.
    pub absent: i64,
    /// How many of those have caught up.
    pub caught_up: i64,
}

/// Returns the class sets of a school year, by class and date.
pub async fn list_year(db: &mut Connection, school_year: i64) -> Result<Vec<Listed>, Error> {
    let sql = sql!(
        "SELECT class_set.id, class.name AS class_name, method, held_on,
        (SELECT count(*) FROM bench WHERE bench.class_set_id = class_set.id) AS groups,
        (SELECT count(*) FROM bench JOIN sheet ON sheet.bench_id = bench.id
            WHERE bench.class_set_id = class_set.id AND EXISTS
            (SELECT 1 FROM revision WHERE sheet_id = sheet.id AND kind = 'handed_in')) AS handed_in,
        count(CASE WHEN was_present = 1 THEN 1 END) AS present,
        count(CASE WHEN was_present = 0 THEN 1 END) AS absent,
        count(caught_up_on) AS caught_up
        FROM class_set JOIN class ON class.id = class_set.class_id
        LEFT JOIN register_line ON register_line.class_set_id = class_set.id
        WHERE class.department_id = $1 AND class.school_year = $2
        GROUP BY class_set.id, class.name ORDER BY class.name, held_on, class_set.id"
    );
    query_as!(db, sql; school_year).fetch_all(db).await
}

/// A group, for the file of a register.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct RegisterGroup {
    pub class_set_id: ClassSetId,
    pub bench_id: BenchId,
    /// The label of its bench.
    pub label: String,
    /// When it last handed in, Unix ms; `None` if never.
    pub handed_in_at: Option<i64>,
}

/// Returns the groups of all class sets of a school year, by label.
pub async fn list_groups_of_year(
    db: &mut Connection,
    school_year: i64,
) -> Result<Vec<RegisterGroup>, Error> {
    let sql = sql!(
        "SELECT bench.class_set_id, bench.id AS bench_id, label,
        (SELECT max(written_at) FROM revision JOIN sheet ON sheet.id = revision.sheet_id
            WHERE sheet.bench_id = bench.id AND kind = 'handed_in') AS handed_in_at
        FROM bench JOIN class_set ON class_set.id = bench.class_set_id
        JOIN class ON class.id = class_set.class_id
        WHERE class.department_id = $1 AND class.school_year = $2 ORDER BY label"
    );
    query_as!(db, sql; school_year).fetch_all(db).await
}

/// A line with its class set.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct LineOfYear {
    pub class_set_id: ClassSetId,
    /// The pupil.
    #[sqlx(flatten)]
    pub line: RegisterLine,
}

/// Returns the lines of all class sets of a school year, in the order in which
/// they were written.
pub async fn list_lines_of_year(
    db: &mut Connection,
    school_year: i64,
) -> Result<Vec<LineOfYear>, Error> {
    let sql = sql!(
        "SELECT register_line.class_set_id, bench_id, initials, was_present, caught_up_on
        FROM register_line JOIN class_set ON class_set.id = register_line.class_set_id
        JOIN class ON class.id = class_set.class_id
        WHERE class.department_id = $1 AND class.school_year = $2 ORDER BY register_line.id"
    );
    query_as!(db, sql; school_year).fetch_all(db).await
}
