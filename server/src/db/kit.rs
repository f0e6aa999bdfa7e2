//! Numbered sets of apparatus.

pub use analysis::kit::Kind;
use analysis::text::folded;

use super::{Connection, Error, Writing};
use crate::ids::{KitId, SheetId};

/// A row of `kit`.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct Kit {
    pub id: KitId,
    /// What is written on it: `Tank 3`.
    pub label: String,
    #[sqlx(try_from = "String")]
    pub kind: Kind,
}

/// Returns all kits, by kind and label.
pub async fn list(db: &mut Connection) -> Result<Vec<Kit>, Error> {
    let sql = sql!(
        "SELECT id, label, kind FROM kit WHERE department_id = $1
               ORDER BY kind DESC, length(label_key), label_key"
    );
    query_as!(db, sql).fetch_all(db).await
}

/// Returns the kit that a sheet's text names, if there is one.
pub async fn find_by_label(db: &mut Connection, label: &str) -> Result<Option<KitId>, Error> {
    let sql = sql!("SELECT id FROM kit WHERE department_id = $1 AND label_key = $2");
    query_scalar!(db, sql; folded(label))
        .fetch_optional(db)
        .await
}

/// Adds a kit, and ties the sheets to it that name it already. Returns `None`
/// when the label is taken.
pub async fn insert(db: &mut Writing, label: &str, kind: Kind) -> Result<Option<KitId>, Error> {
    let sql = sql!(
        "INSERT INTO kit (department_id, label, label_key, kind) VALUES ($1, $2, $3, $4)
               ON CONFLICT (department_id, label_key) DO NOTHING RETURNING id"
    );
    let id: Option<KitId> = query_scalar!(db, sql; label, folded(label), kind.code())
        .fetch_optional(db)
        .await?;
    if let Some(id) = id {
        tie_sheets(db, id, label).await?;
    }
    Ok(id)
}

/// Ties the sheets to a new kit whose newest text names it.
async fn tie_sheets(db: &mut Writing, kit: KitId, label: &str) -> Result<(), Error> {
    let sql = sql!(
        "SELECT sheet.id, json_extract(body, '$.kit') FROM own_sheet JOIN sheet ON sheet.id = own_sheet.id
         JOIN revision ON revision.sheet_id = sheet.id AND revision.version = sheet.version
         WHERE own_sheet.department_id = $1 AND kit_id IS NULL AND json_extract(body, '$.kit') <> ''"
    );
    let untied: Vec<(SheetId, String)> = query_as!(db, sql).fetch_all(db).await?;
    let label = folded(label);
    for (sheet, _) in untied.iter().filter(|(_, text)| folded(text) == label) {
        let sql = sql!(
            "UPDATE sheet SET kit_id = (SELECT id FROM kit WHERE id = $3 AND department_id = $1) WHERE id = $2"
        );
        query!(db, sql; sheet, kit).execute(db).await?;
    }
    Ok(())
}
