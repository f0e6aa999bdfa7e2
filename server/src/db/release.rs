//! What pupils may see, from when. Appended; the newest counts.

use super::{Connection, Error, Writing};
use crate::ids::{AnnotationId, ClassSetId, MarkId, RevisionId, SchemeVersionId, StaffId};

/// A release, or the taking back of one, with how far each table had come:
/// what is newer waits for the next release.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct Release {
    /// Whether it is out; false: taken back.
    pub is_out: bool,
    /// The version that the marks are of.
    pub scheme_version_id: SchemeVersionId,
    /// The newest revision at that moment; 0: none.
    pub last_revision_id: RevisionId,
    /// The newest mark; 0: none.
    pub last_mark_id: MarkId,
    /// The newest note; 0: none.
    pub last_annotation_id: AnnotationId,
    /// The newest withdrawal of a note; 0: none.
    pub last_withdrawal_id: i64,
    /// The newest decision on a slip; 0: none.
    pub last_decision_id: i64,
    /// Name of who did it.
    pub by: String,
    /// Unix ms.
    pub at: i64,
}

/// Returns the newest release of a class set, taken back or not.
pub async fn find_newest(
    db: &mut Connection,
    class_set: ClassSetId,
) -> Result<Option<Release>, Error> {
    let sql = sql!("SELECT is_out, scheme_version_id, last_revision_id, last_mark_id, last_annotation_id,
                      last_withdrawal_id, last_decision_id, staff.name AS \"by\", at
               FROM release JOIN staff ON staff.id = staff_id
               WHERE class_set_id = (SELECT id FROM own_set WHERE id = $2 AND department_id = $1) ORDER BY release.id DESC LIMIT 1");
    query_as!(db, sql; class_set).fetch_optional(db).await
}

/// Returns the release of a class set that its groups may read. Returns `None`
/// when there is none, or it was taken back.
pub async fn find_out(
    db: &mut Connection,
    class_set: ClassSetId,
) -> Result<Option<Release>, Error> {
    let newest = find_newest(db, class_set).await?;
    Ok(newest.filter(|release| release.is_out))
}

/// Releases what there is now, or takes it back.
pub async fn insert(
    db: &mut Writing,
    class_set: ClassSetId,
    version: SchemeVersionId,
    is_out: bool,
    staff: StaffId,
    now: i64,
) -> Result<(), Error> {
    let sql = sql!("INSERT INTO release (class_set_id, is_out, scheme_version_id, last_revision_id, last_mark_id,
                                    last_annotation_id, last_withdrawal_id, last_decision_id, staff_id, at)
               VALUES ((SELECT id FROM own_set WHERE id = $2 AND department_id = $1), $3, $4,
                       (SELECT coalesce(max(id), 0) FROM revision),
                       (SELECT coalesce(max(id), 0) FROM mark),
                       (SELECT coalesce(max(id), 0) FROM annotation),
                       (SELECT coalesce(max(id), 0) FROM annotation_withdrawal),
                       (SELECT coalesce(max(id), 0) FROM decision),
                       $5, $6)");
    query!(db, sql; class_set, is_out, version, staff, now)
        .run(db)
        .await
}

/// What has come since a release.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, sqlx::FromRow)]
pub struct Since {
    /// Marks given or taken back.
    pub marks: i64,
    /// Notes for groups, written or taken back.
    pub notes: i64,
    /// Revisions of sheets.
    pub revisions: i64,
}

/// Counts what has come in a class set since a release.
pub async fn count_since(
    db: &mut Connection,
    class_set: ClassSetId,
    release: &Release,
) -> Result<Since, Error> {
    let sql = sql!("WITH own AS (SELECT sheet.id FROM sheet JOIN bench ON bench.id = bench_id WHERE class_set_id = (SELECT id FROM own_set WHERE id = $2 AND department_id = $1))
               SELECT (SELECT count(*) FROM mark WHERE sheet_id IN own AND id > $3) AS marks,
                      (SELECT count(*) FROM annotation WHERE sheet_id IN own AND for_group = 1 AND id > $4)
                      + (SELECT count(*) FROM annotation_withdrawal JOIN annotation ON annotation.id = annotation_id
                         WHERE sheet_id IN own AND for_group = 1 AND annotation_withdrawal.id > $5) AS notes,
                      (SELECT count(*) FROM revision WHERE sheet_id IN own AND id > $6) AS revisions");
    query_as!(db, sql;
        class_set, release.last_mark_id, release.last_annotation_id, release.last_withdrawal_id,
        release.last_revision_id)
    .fetch_one(db)
    .await
}
