//! Attempts at a sheet: what makes a hand-in happen once.
//!
//! A draft carries the version that it started from. The later one is shown
//! both and chooses. The key belongs to the row and not to a page view:
//! browsers fetch the page again on Back, and a key minted for each view would
//! let the same sheet in twice.

use super::{Connection, Error, Writing};
use crate::ids::{RevisionId, SheetId, VisitId};

/// A row of `draft`.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct Draft {
    /// Version of the sheet that the attempt started from.
    pub base_version: i64,
    /// What it stored; `None` while it is open.
    pub spent_revision_id: Option<RevisionId>,
    /// SHA-256 of what it stored; `None` while it is open.
    pub payload_hash: Option<String>,
}

pub async fn find(db: &mut Connection, sheet: SheetId, uuid: &str) -> Result<Option<Draft>, Error> {
    let sql = sql!("SELECT base_version, spent_revision_id, payload_hash FROM draft
               WHERE uuid = $2 AND sheet_id = (SELECT id FROM own_sheet WHERE id = $3 AND department_id = $1)");
    query_as!(db, sql; uuid, sheet).fetch_optional(db).await
}

/// Returns this visit's open draft from the sheet's present version, if it has
/// one.
pub async fn find_open(
    db: &mut Connection,
    sheet: SheetId,
    visit: VisitId,
) -> Result<Option<String>, Error> {
    let sql = sql!("SELECT uuid FROM draft JOIN sheet ON sheet.id = draft.sheet_id
               WHERE visit_id = $2 AND sheet_id = (SELECT id FROM own_sheet WHERE id = $3 AND department_id = $1) AND spent_revision_id IS NULL
               AND base_version = sheet.version LIMIT 1");
    query_scalar!(db, sql; visit, sheet)
        .fetch_optional(db)
        .await
}

/// Opens a draft from the sheet's present version. Returns its key.
pub async fn insert(
    db: &mut Writing,
    sheet: SheetId,
    visit: VisitId,
    now: i64,
) -> Result<String, Error> {
    let sql = sql!("INSERT INTO draft (uuid, sheet_id, visit_id, base_version, opened_at)
               SELECT $2, id, $4, version, $5 FROM sheet WHERE id = (SELECT id FROM own_sheet WHERE id = $3 AND department_id = $1) RETURNING uuid");
    query_scalar!(db, sql; uuid::Uuid::new_v4().hyphenated().to_string(), sheet, visit, now)
        .fetch_one(db)
        .await
}

/// Writes down what an open draft stored.
pub async fn spend(
    db: &mut Writing,
    uuid: &str,
    revision: RevisionId,
    payload: &str,
) -> Result<(), Error> {
    let sql = sql!("UPDATE draft SET spent_revision_id = $3, payload_hash = $4
               WHERE uuid = $2 AND spent_revision_id IS NULL
               AND EXISTS (SELECT 1 FROM own_sheet WHERE own_sheet.id = draft.sheet_id AND own_sheet.department_id = $1)");
    query!(db, sql; uuid, revision, payload).run(db).await
}
