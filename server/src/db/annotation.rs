//! Markers' notes.

use super::{Connection, Error, Writing};
use crate::ids::{AnnotationId, ClassSetId, SheetId, StaffId};

/// A note with the name of who wrote it.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct Annotation {
    pub id: AnnotationId,
    pub sheet_id: SheetId,
    /// The row as typed; `None` where it is not about one row.
    pub row_label: Option<String>,
    /// Name of the box; `None` where it is not about one step.
    pub step: Option<String>,
    /// The note.
    pub body: String,
    /// Whether the group reads it on its feedback sheet; else it is the
    /// staff's alone.
    pub for_group: bool,
    /// Name of who wrote it.
    pub by: String,
    /// Unix ms.
    pub written_at: i64,
}

/// A note to add.
#[derive(Clone, Debug)]
pub struct NewAnnotation {
    pub sheet_id: SheetId,
    /// On which row, as typed.
    pub row_label: Option<String>,
    /// On which box.
    pub step: Option<String>,
    /// The note, 1 to 2000 characters.
    pub body: String,
    /// Whether the group is to read it.
    pub for_group: bool,
    /// Who writes it.
    pub staff_id: StaffId,
    /// Now, Unix ms.
    pub written_at: i64,
}

/// Returns the notes on a sheet, oldest first, without those taken back.
pub async fn list(db: &mut Connection, sheet: SheetId) -> Result<Vec<Annotation>, Error> {
    let sql = sql!("SELECT annotation.id, sheet_id, row_label, step, body, for_group, staff.name AS \"by\", written_at
               FROM annotation JOIN staff ON staff.id = annotation.staff_id
               WHERE sheet_id = (SELECT id FROM own_sheet WHERE id = $2 AND department_id = $1)
               AND NOT EXISTS (SELECT 1 FROM annotation_withdrawal WHERE annotation_id = annotation.id)
               ORDER BY annotation.id");
    query_as!(db, sql; sheet).fetch_all(db).await
}

/// Returns the notes for the groups of a class set, oldest first, without
/// those taken back. With `last`, as they were when those were the newest note
/// and the newest withdrawal.
pub async fn list_for_groups(
    db: &mut Connection,
    class_set: ClassSetId,
    last: Option<(AnnotationId, i64)>,
) -> Result<Vec<Annotation>, Error> {
    let sql = sql!("SELECT annotation.id, sheet_id, row_label, step, body, for_group, staff.name AS \"by\", written_at
               FROM annotation JOIN staff ON staff.id = annotation.staff_id
               JOIN sheet ON sheet.id = sheet_id
               JOIN bench ON bench.id = bench_id
               WHERE class_set_id = (SELECT id FROM own_set WHERE id = $2 AND department_id = $1) AND for_group = 1 AND ($3 IS NULL OR annotation.id <= $3)
               AND NOT EXISTS (SELECT 1 FROM annotation_withdrawal WHERE annotation_id = annotation.id
                               AND ($4 IS NULL OR annotation_withdrawal.id <= $4))
               ORDER BY annotation.id");
    let (last_note, last_withdrawal) = last.unzip();
    query_as!(db, sql; class_set, last_note, last_withdrawal)
        .fetch_all(db)
        .await
}

/// Takes a note back. The note itself is kept; taking it back twice is once.
pub async fn insert_withdrawal(
    db: &mut Writing,
    note: AnnotationId,
    staff: StaffId,
    now: i64,
) -> Result<(), Error> {
    let sql = sql!("INSERT INTO annotation_withdrawal (annotation_id, staff_id, at) VALUES ((SELECT annotation.id FROM annotation JOIN own_sheet ON own_sheet.id = sheet_id
                       WHERE annotation.id = $2 AND department_id = $1), $3, $4)
               ON CONFLICT (annotation_id) DO NOTHING");
    query!(db, sql; note, staff, now).run(db).await
}

/// Adds a note.
pub async fn insert(db: &mut Writing, new: &NewAnnotation) -> Result<(), Error> {
    let sql = sql!("INSERT INTO annotation (sheet_id, row_label, step, body, for_group, staff_id, written_at)
               VALUES ((SELECT id FROM own_sheet WHERE id = $2 AND department_id = $1), $3, $4, $5, $6, $7, $8)");
    query!(db, sql;
        new.sheet_id, &new.row_label, &new.step, &new.body, new.for_group, new.staff_id,
        new.written_at)
    .run(db)
    .await
}
