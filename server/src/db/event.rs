//! Who did what and when. Appended, never changed.

use super::{Connection, Error};
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
///
/// # Errors
/// When the query fails.
pub async fn insert(db: &mut Connection, new: &NewEvent<'_>) -> Result<(), Error> {
    sqlx::query(
        "INSERT INTO event (at, what, staff_id, class_set_id, detail) VALUES ($1, $2, $3, $4, $5)",
    )
    .bind(new.at)
    .bind(new.what)
    .bind(new.staff_id)
    .bind(new.class_set_id)
    .bind(new.detail)
    .execute(db)
    .await?;
    Ok(())
}
