//! Stored states of a sheet, as typed. Appended, never changed.
//!
//! One revision is JSON and not columns, so that a new method needs no
//! migration, and what was typed is kept whole.

use analysis::scheme::Answer;
use analysis::sheet::TypedSheet;
use serde::{Deserialize, Serialize};

use super::{Connection, Error, Writing};
use crate::ids::{ClassSetId, RevisionId, SheetId, StaffId, VisitId};

/// What a group typed: its sheet, the kit that it worked with, and whose
/// readings these are.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Entry {
    /// The boxes.
    pub sheet: TypedSheet,
    /// What is written on the apparatus, as typed; blank if not given.
    #[serde(default)]
    pub kit: String,
    /// Whose readings they are, as typed; blank where they are the group's
    /// own. Written only where it is given, so that a hand-in from before
    /// there was such a box is still known when it comes again.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub shared: String,
    /// What it wrote in words, where it was asked to on the screen.
    #[serde(default, skip_serializing_if = "Answers::is_blank")]
    pub answers: Answers,
}

/// A group's own words, as typed; blank where there are none.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Answers {
    /// How it measured.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub method: String,
    /// What it found.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub conclusion: String,
    /// What was good and what was not.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub evaluation: String,
}

impl Answers {
    #[must_use]
    pub fn get(&self, answer: Answer) -> &str {
        match answer {
            Answer::Method => &self.method,
            Answer::Conclusion => &self.conclusion,
            Answer::Evaluation => &self.evaluation,
        }
    }

    /// Puts one of them in its place.
    pub fn set(&mut self, answer: Answer, text: String) {
        *match answer {
            Answer::Method => &mut self.method,
            Answer::Conclusion => &mut self.conclusion,
            Answer::Evaluation => &mut self.evaluation,
        } = text;
    }

    /// Says whether nothing is written.
    #[must_use]
    pub fn is_blank(&self) -> bool {
        let mut all = Answer::ALL.into_iter();
        all.all(|answer| self.get(answer).trim().is_empty())
    }
}

impl Entry {
    /// Says whether nothing at all is in it.
    #[must_use]
    pub fn is_blank(&self) -> bool {
        let blank = |text: &str| text.trim().is_empty();
        blank(&self.kit)
            && blank(&self.shared)
            && self.answers.is_blank()
            && self.sheet.whole.is_empty()
            && self.sheet.rows.is_empty()
    }
}

codes! {
    /// Which button stored it.
    pub enum Kind {
        /// Work in progress.
        Saved = "saved",
        HandedIn = "handed_in",
    }
}

/// Who wrote it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Writer {
    /// A group's browser.
    Visit(VisitId),
    /// A member of staff.
    Staff(StaffId),
}

/// A row of `revision`.
#[derive(Clone, Debug)]
pub struct Revision {
    pub id: RevisionId,
    pub sheet_id: SheetId,
    /// Counts up from 1 within the sheet.
    pub version: i64,
    /// Saved or handed in.
    pub kind: Kind,
    /// What was typed.
    pub entry: Entry,
    /// Unix ms.
    pub written_at: i64,
}

#[derive(sqlx::FromRow)]
struct RevisionRow {
    id: RevisionId,
    sheet_id: SheetId,
    version: i64,
    kind: Kind,
    body: String,
    written_at: i64,
}

impl TryFrom<RevisionRow> for Revision {
    type Error = Error;

    fn try_from(row: RevisionRow) -> Result<Self, Error> {
        let RevisionRow {
            id,
            sheet_id,
            version,
            kind,
            body,
            written_at,
        } = row;
        Ok(Self {
            id,
            sheet_id,
            version,
            kind,
            entry: serde_json::from_str(&body)?,
            written_at,
        })
    }
}

/// Returns the newest revision of a sheet: what its page shows.
pub async fn find_latest(db: &mut Connection, sheet: SheetId) -> Result<Option<Revision>, Error> {
    let sql = sql!("SELECT id, sheet_id, version, kind, body, written_at FROM revision
               WHERE sheet_id = (SELECT id FROM own_sheet WHERE id = $2 AND department_id = $1) ORDER BY version DESC LIMIT 1");
    let row: Option<RevisionRow> = query_as!(db, sql; sheet).fetch_optional(db).await?;
    row.map(Revision::try_from).transpose()
}

/// Returns one revision.
///
/// # Errors
/// `RowNotFound` when there is none.
pub async fn get(db: &mut Connection, id: RevisionId) -> Result<Revision, Error> {
    let sql = sql!(
        "SELECT id, sheet_id, version, kind, body, written_at FROM revision WHERE id = $2 AND EXISTS (SELECT 1 FROM own_sheet WHERE own_sheet.id = revision.sheet_id AND own_sheet.department_id = $1)"
    );
    let row: RevisionRow = query_as!(db, sql; id).fetch_one(db).await?;
    row.try_into()
}

/// A line of a sheet's history.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct Past {
    /// Counts up from 1 within the sheet.
    pub version: i64,
    /// Saved or handed in.
    pub kind: Kind,
    /// Unix ms.
    pub written_at: i64,
    /// Name of the member of staff who took it in from a file; `None` where
    /// the group wrote it.
    pub by: Option<String>,
}

/// Lists every revision of a sheet, newest first, without what was typed.
pub async fn list_past(db: &mut Connection, sheet: SheetId) -> Result<Vec<Past>, Error> {
    let sql = sql!("SELECT version, kind, written_at, staff.name AS by FROM revision
               LEFT JOIN staff ON staff.id = revision.staff_id
               WHERE sheet_id = (SELECT id FROM own_sheet WHERE id = $2 AND department_id = $1) ORDER BY version DESC");
    query_as!(db, sql; sheet).fetch_all(db).await
}

/// Lists every revision of a class set's sheets, with its version.
pub async fn list_versions(
    db: &mut Connection,
    class_set: ClassSetId,
) -> Result<Vec<(RevisionId, i64)>, Error> {
    let sql = sql!("SELECT revision.id, revision.version FROM revision
               JOIN sheet ON sheet.id = revision.sheet_id
               JOIN bench ON bench.id = sheet.bench_id WHERE bench.class_set_id = (SELECT id FROM own_set WHERE id = $2 AND department_id = $1)");
    query_as!(db, sql; class_set).fetch_all(db).await
}

/// Returns one revision of a sheet by its version.
pub async fn find_version(
    db: &mut Connection,
    sheet: SheetId,
    version: i64,
) -> Result<Option<Revision>, Error> {
    let sql = sql!("SELECT id, sheet_id, version, kind, body, written_at FROM revision
               WHERE sheet_id = (SELECT id FROM own_sheet WHERE id = $2 AND department_id = $1) AND version = $3");
    let row: Option<RevisionRow> = query_as!(db, sql; sheet, version)
        .fetch_optional(db)
        .await?;
    row.map(Revision::try_from).transpose()
}

/// A query for the newest revision of every sheet that has one, where
/// `$which`.
macro_rules! latest {
    ($which:literal) => {
        concat!(
            "SELECT revision.id, sheet_id, revision.version, kind, body, written_at FROM revision
             JOIN sheet ON sheet.id = revision.sheet_id AND sheet.version = revision.version
             JOIN bench ON bench.id = sheet.bench_id
             WHERE bench.class_set_id ",
            $which,
            " ORDER BY bench.label"
        )
    };
}

/// Returns the newest revision of every sheet of a class set that has one.
pub async fn list_latest(
    db: &mut Connection,
    class_set: ClassSetId,
) -> Result<Vec<Revision>, Error> {
    let sql = sql!(latest!(
        "= (SELECT id FROM own_set WHERE id = $2 AND department_id = $1)"
    ));
    let rows: Vec<RevisionRow> = query_as!(db, sql; class_set).fetch_all(db).await?;
    rows.into_iter().map(Revision::try_from).collect()
}

/// Returns the newest revision of every sheet of some class sets that has one.
pub async fn list_latest_in(
    db: &mut Connection,
    class_sets: &[ClassSetId],
) -> Result<Vec<Revision>, Error> {
    let sql = sql!(latest!(
        "IN (SELECT own_set.id FROM json_each($2) CROSS JOIN own_set WHERE own_set.id = value AND department_id = $1)"
    ));
    let rows: Vec<RevisionRow> = query_as!(db, sql; serde_json::to_string(class_sets)?)
        .fetch_all(db)
        .await?;
    rows.into_iter().map(Revision::try_from).collect()
}

/// Returns the newest revision of every sheet of a class set as it was when
/// `last` was the newest of all; with `None`, as it is now.
pub async fn list_at(
    db: &mut Connection,
    class_set: ClassSetId,
    last: Option<RevisionId>,
) -> Result<Vec<Revision>, Error> {
    let sql = sql!("SELECT id, sheet_id, version, kind, body, written_at FROM revision
               WHERE id IN (SELECT max(revision.id) FROM revision
                            JOIN sheet ON sheet.id = sheet_id
                            JOIN bench ON bench.id = bench_id
                            WHERE class_set_id = (SELECT id FROM own_set WHERE id = $2 AND department_id = $1) AND ($3 IS NULL OR revision.id <= $3)
                            GROUP BY sheet_id)");
    let rows: Vec<RevisionRow> = query_as!(db, sql; class_set, last).fetch_all(db).await?;
    rows.into_iter().map(Revision::try_from).collect()
}

/// Returns the newest revision of every sheet of some class sets that has one,
/// by its id alone.
pub async fn list_latest_ids(
    db: &mut Connection,
    class_sets: &[ClassSetId],
) -> Result<Vec<(SheetId, RevisionId)>, Error> {
    let sql = sql!("SELECT sheet_id, revision.id FROM revision
               JOIN sheet ON sheet.id = revision.sheet_id AND sheet.version = revision.version
               JOIN bench ON bench.id = sheet.bench_id
               WHERE bench.class_set_id IN (SELECT own_set.id FROM json_each($2) CROSS JOIN own_set WHERE own_set.id = value AND department_id = $1)");
    query_as!(db, sql; serde_json::to_string(class_sets)?)
        .fetch_all(db)
        .await
}

/// Adds a revision and makes it the sheet's newest: `version` is one more than
/// the sheet's.
///
/// # Errors
/// [`Error::Missing`] when the sheet is not at the version before it.
pub async fn insert(
    db: &mut Writing,
    sheet: SheetId,
    version: i64,
    kind: Kind,
    entry: &Entry,
    writer: Writer,
    now: i64,
) -> Result<RevisionId, Error> {
    let sql = sql!(
        "UPDATE sheet SET version = $3 WHERE id = (SELECT id FROM own_sheet WHERE id = $2 AND department_id = $1) AND version = $3 - 1"
    );
    let moved = query!(db, sql; sheet, version).execute(db);
    if moved.await? == 0 {
        return Err(Error::Missing);
    }
    let (visit, staff) = match writer {
        Writer::Visit(id) => (Some(id), None),
        Writer::Staff(id) => (None, Some(id)),
    };
    let sql = sql!("INSERT INTO revision (sheet_id, version, kind, body, written_at, visit_id, staff_id)
               VALUES ((SELECT id FROM own_sheet WHERE id = $2 AND department_id = $1), $3, $4, $5, $6, $7, $8) RETURNING id");
    let body = serde_json::to_string(entry)?;
    query_scalar!(db, sql; sheet, version, kind, body, now, visit, staff)
        .fetch_one(db)
        .await
}
