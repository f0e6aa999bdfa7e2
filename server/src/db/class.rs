//! Teaching groups.

use super::{Connection, Error, Writing};
use crate::ids::ClassId;

/// Returns the class with this name in this school year, made if it is new.
pub async fn find_or_insert(
    db: &mut Writing,
    name: &str,
    school_year: i64,
) -> Result<ClassId, Error> {
    // The update changes nothing; it makes RETURNING answer for old rows too.
    let sql = sql!(
        "INSERT INTO class (department_id, name, school_year) VALUES ($1, $2, $3)
               ON CONFLICT (department_id, name, school_year) DO UPDATE SET name = excluded.name
               RETURNING id"
    );
    query_scalar!(db, sql; name, school_year)
        .fetch_one(db)
        .await
}

/// Names used before, newest year first, each once: for the list beside a box.
pub async fn list_names(db: &mut Connection) -> Result<Vec<String>, Error> {
    let sql = sql!(
        "SELECT name FROM class WHERE department_id = $1 GROUP BY name ORDER BY max(school_year) DESC, name"
    );
    query_scalar!(db, sql).fetch_all(db).await
}

/// Returns the school years in which there are class sets, newest first.
pub async fn list_years(db: &mut Connection) -> Result<Vec<i64>, Error> {
    let sql = sql!("SELECT DISTINCT school_year FROM class
               WHERE department_id = $1 AND EXISTS (SELECT 1 FROM class_set WHERE class_id = class.id)
               ORDER BY school_year DESC");
    query_scalar!(db, sql).fetch_all(db).await
}
