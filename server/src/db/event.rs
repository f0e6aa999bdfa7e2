//! Who did what and when. Appended, never changed.

use super::{Connection, Error, Writing};
use crate::ids::{ClassSetId, StaffId};

/// Adds an event: what happened in one word, on which class set if on one, and
/// in at most 2000 characters what more there is to say, never a secret.
pub async fn insert(
    db: &mut Writing,
    now: i64,
    what: &str,
    staff: Option<StaffId>,
    class_set: Option<ClassSetId>,
    detail: &str,
) -> Result<(), Error> {
    let sql = sql!(
        "INSERT INTO event (at, what, staff_id, class_set_id, detail, department_id) VALUES ($2, $3, $4, $5, $6, $1)"
    );
    query!(db, sql; now, what, staff, class_set, detail)
        .run(db)
        .await
}

/// Something that happened, for a person to read.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct Event {
    /// When, Unix ms.
    pub at: i64,
    /// Name of the member of staff who did it; `None` for pupils or nobody
    /// signed in.
    pub by: Option<String>,
    /// What more there is to say.
    pub detail: String,
}

/// Lists what happened of one kind on a class set, newest first.
pub async fn list_of_class_set(
    db: &mut Connection,
    class_set: ClassSetId,
    what: &str,
) -> Result<Vec<Event>, Error> {
    let sql = sql!("SELECT at, staff.name AS by, detail FROM event
               LEFT JOIN staff ON staff.id = event.staff_id
               WHERE event.department_id = $1 AND class_set_id = $2 AND what = $3 ORDER BY event.id DESC");
    query_as!(db, sql; class_set, what).fetch_all(db).await
}
