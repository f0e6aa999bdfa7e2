//! Who did what and when. Appended, never changed.

use super::{Connection, Error, Writing};
use crate::ids::{ClassSetId, StaffId};

/// Something that happened.
#[derive(Clone, Debug)]
pub struct NewEvent<'a> {
    /// Now, Unix ms.
    pub at: i64,
    /// What, in one word: `signed_in`, `set_closed`.
    pub what: &'a str,
    /// By whom; `None` for pupils or nobody signed in.
    pub staff_id: Option<StaffId>,
    /// On which class set, if on one.
    pub class_set_id: Option<ClassSetId>,
    /// For a person to read. Never a secret; at most 2000 characters.
    pub detail: &'a str,
}

/// Adds an event.
pub async fn insert(db: &mut Writing, new: &NewEvent<'_>) -> Result<(), Error> {
    let sql = sql!(
        "INSERT INTO event (at, what, staff_id, class_set_id, detail, department_id) VALUES ($2, $3, $4, $5, $6, $1)"
    );
    query!(db, sql; new.at, new.what, new.staff_id, new.class_set_id, new.detail)
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

/// What happened of one kind on a class set, newest first.
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
