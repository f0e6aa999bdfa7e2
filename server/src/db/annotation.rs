//! Markers' notes.

use super::{Connection, Error};
use crate::ids::{SheetId, StaffId};

/// A note with the name of who wrote it.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct Annotation {
    /// The row as typed; `None` where it is not about one row.
    pub row_label: Option<String>,
    /// Name of the box; `None` where it is not about one step.
    pub step: Option<String>,
    /// The note.
    pub body: String,
    /// Name of who wrote it.
    pub by: String,
    /// Unix ms.
    pub written_at: i64,
}

/// A note to add.
#[derive(Clone, Debug)]
pub struct NewAnnotation {
    /// On which sheet.
    pub sheet_id: SheetId,
    /// On which row, as typed.
    pub row_label: Option<String>,
    /// On which box.
    pub step: Option<String>,
    /// The note, 1 to 2000 characters.
    pub body: String,
    /// Who writes it.
    pub staff_id: StaffId,
    /// Now, Unix ms.
    pub written_at: i64,
}

/// The notes on a sheet, oldest first.
///
/// # Errors
/// When the query fails.
pub async fn list(db: &mut Connection, sheet: SheetId) -> Result<Vec<Annotation>, Error> {
    let sql = "SELECT row_label, step, body, staff.name AS \"by\", written_at
               FROM annotation JOIN staff ON staff.id = annotation.staff_id
               WHERE sheet_id = $1 ORDER BY annotation.id";
    Ok(sqlx::query_as(sql).bind(sheet).fetch_all(db).await?)
}

/// Adds a note.
///
/// # Errors
/// When the query fails.
pub async fn insert(db: &mut Connection, new: &NewAnnotation) -> Result<(), Error> {
    let sql = "INSERT INTO annotation (sheet_id, row_label, step, body, staff_id, written_at)
               VALUES ($1, $2, $3, $4, $5, $6)";
    sqlx::query(sql)
        .bind(new.sheet_id)
        .bind(&new.row_label)
        .bind(&new.step)
        .bind(&new.body)
        .bind(new.staff_id)
        .bind(new.written_at)
        .execute(db)
        .await?;
    Ok(())
}
