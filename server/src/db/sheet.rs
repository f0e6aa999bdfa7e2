//! A group's one sheet: which kit it names. Its contents are its revisions.

use super::{Error, Writing, kit};
use crate::ids::SheetId;

/// Ties a sheet to the kit that its text names, or to none.
pub async fn tie_kit(db: &mut Writing, sheet: SheetId, label: &str) -> Result<(), Error> {
    let kit = kit::find_by_label(db, label).await?;
    let sql = sql!(
        "UPDATE sheet SET kit_id = (SELECT id FROM kit WHERE id = $3 AND department_id = $1) WHERE id = (SELECT id FROM own_sheet WHERE id = $2 AND department_id = $1)"
    );
    query!(db, sql; sheet, kit).run(db).await
}
