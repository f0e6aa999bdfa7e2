//! A person's word on a slip that the tool named. The newest wins.

use super::{Connection, Error, Writing};
use crate::ids::{ClassSetId, RevisionId, SheetId, StaffId};

codes! {
    /// What was decided.
    pub enum Verdict {
        /// It is a slip.
        Confirmed = "confirmed",
        /// It is none.
        Dismissed = "dismissed",
    }
}

/// Which slip of a sheet is meant.
#[derive(Clone, Debug, PartialEq, Eq, Hash, sqlx::FromRow)]
pub struct FlagKey {
    /// Name of the box concerned.
    pub step: String,
    /// Code of the slip.
    pub slip: String,
    /// The row as typed; blank for the whole sheet.
    pub row_label: String,
}

impl FlagKey {
    /// Returns one text that tells this slip from the others of its sheet.
    #[must_use]
    pub fn name(&self) -> String {
        format!("{}.{}.{}", self.step, self.slip, self.row_label)
    }
}

impl Decision {
    /// Says whether it dismisses the slip.
    #[must_use]
    pub fn is_dismissal(&self) -> bool {
        self.verdict == Verdict::Dismissed
    }
}

/// A decision with the name of who made it.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct Decision {
    #[sqlx(flatten)]
    pub flag: FlagKey,
    /// The revision that was on the screen.
    pub revision_id: RevisionId,
    /// What was decided.
    pub verdict: Verdict,
    /// Why; blank where no reason was given.
    pub reason: String,
    /// Name of who decided.
    pub by: String,
}

/// A decision to add.
#[derive(Clone, Debug)]
pub struct NewDecision {
    /// Whose slip.
    pub sheet_id: SheetId,
    /// The revision that was on the screen.
    pub revision_id: RevisionId,
    pub flag: FlagKey,
    /// What was decided.
    pub verdict: Verdict,
    /// Why; at most 1000 characters.
    pub reason: String,
    /// Who decided.
    pub staff_id: StaffId,
    /// Now, Unix ms.
    pub decided_at: i64,
}

/// Returns the decisions that hold on a sheet: for each slip the newest.
pub async fn list(db: &mut Connection, sheet: SheetId) -> Result<Vec<Decision>, Error> {
    let sql = sql!("SELECT step, slip, row_label, revision_id, verdict, reason, staff.name AS \"by\"
               FROM decision JOIN staff ON staff.id = decision.staff_id
               WHERE decision.id IN (SELECT max(id) FROM decision WHERE sheet_id = (SELECT id FROM own_sheet WHERE id = $2 AND department_id = $1)
                                     GROUP BY step, slip, row_label)
               ORDER BY decision.id");
    query_as!(db, sql; sheet).fetch_all(db).await
}

#[derive(sqlx::FromRow)]
struct OnSheet {
    sheet_id: SheetId,
    #[sqlx(flatten)]
    decision: Decision,
}

/// Returns the decisions that hold on every sheet of a class set, each with
/// its sheet. With `last`, as it was when that was the newest decision of all.
pub async fn list_in_class_set(
    db: &mut Connection,
    class_set: ClassSetId,
    last: Option<i64>,
) -> Result<Vec<(SheetId, Decision)>, Error> {
    let sql = sql!("SELECT decision.sheet_id, step, slip, row_label, revision_id, verdict, reason,
                      staff.name AS \"by\"
               FROM decision JOIN staff ON staff.id = decision.staff_id
               WHERE decision.id IN (SELECT max(decision.id) FROM decision
                                     JOIN sheet ON sheet.id = decision.sheet_id
                                     JOIN bench ON bench.id = sheet.bench_id
                                     WHERE bench.class_set_id = (SELECT id FROM own_set WHERE id = $2 AND department_id = $1) AND ($3 IS NULL OR decision.id <= $3)
                                     GROUP BY decision.sheet_id, step, slip, row_label)
               ORDER BY decision.id");
    let rows: Vec<OnSheet> = query_as!(db, sql; class_set, last).fetch_all(db).await?;
    Ok(rows
        .into_iter()
        .map(|row| (row.sheet_id, row.decision))
        .collect())
}

/// Adds a decision.
pub async fn insert(db: &mut Writing, new: &NewDecision) -> Result<(), Error> {
    let sql = sql!("INSERT INTO decision (sheet_id, revision_id, step, slip, row_label, verdict, reason, staff_id, decided_at)
               VALUES ((SELECT id FROM own_sheet WHERE id = $2 AND department_id = $1), $3, $4, $5, $6, $7, $8, $9, $10)");
    query!(db, sql;
        new.sheet_id, new.revision_id, &new.flag.step, &new.flag.slip, &new.flag.row_label,
        new.verdict, &new.reason, new.staff_id, new.decided_at)
    .run(db)
    .await
}
