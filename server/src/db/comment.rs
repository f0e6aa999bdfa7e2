//! The department's own comments, to be used again.

use super::{Connection, Error, Writing, found};
use crate::ids::{CommentId, StaffId};
use crate::words::house::COMMENTS;

/// A comment of the bank.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct Comment {
    pub id: CommentId,
    pub body: String,
    /// Whether it is no more offered.
    pub is_retired: bool,
}

/// Returns all comments, those still offered first, in the order in which they
/// were made.
pub async fn list(db: &mut Connection) -> Result<Vec<Comment>, Error> {
    let sql = sql!(
        "SELECT id, body, is_retired FROM comment WHERE department_id = $1 ORDER BY is_retired, id"
    );
    query_as!(db, sql).fetch_all(db).await
}

/// Puts a comment into the bank; one that is there already is offered again.
pub async fn insert(
    db: &mut Writing,
    body: &str,
    staff: Option<StaffId>,
    now: i64,
) -> Result<(), Error> {
    let sql = sql!(
        "INSERT INTO comment (department_id, body, staff_id, made_at) VALUES ($1, $2, $3, $4)
               ON CONFLICT (department_id, body) DO UPDATE SET is_retired = 0"
    );
    query!(db, sql; body, staff, now).run(db).await
}

/// Offers a comment no more, or again.
///
/// # Errors
/// [`Error::NoSuch`] when there is none.
pub async fn retire(db: &mut Writing, id: CommentId, is_retired: bool) -> Result<(), Error> {
    let sql = sql!("UPDATE comment SET is_retired = $3 WHERE id = $2 AND department_id = $1");
    let done = query!(db, sql; id, is_retired).execute(db).await?;
    found(done)
}

/// Fills an empty bank with the comments that come with the program.
pub async fn insert_house(db: &mut Writing) -> Result<(), Error> {
    let sql = sql!("SELECT count(*) FROM comment WHERE department_id = $1");
    let comments: i64 = query_scalar!(db, sql).fetch_one(&mut *db).await?;
    if comments == 0 {
        for body in COMMENTS {
            insert(db, body, None, 0).await?;
        }
    }
    Ok(())
}
