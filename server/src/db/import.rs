//! Taking in readings from a file: all groups in one act, or none.

use super::event::{self, NewEvent};
use super::revision::{self, Entry, Kind, NewRevision, Writer};
use super::{Connection, Error, Writing, bench, sheet};
use crate::ids::{ClassSetId, SheetId, StaffId};

/// What an event of such an act is called.
pub const IMPORTED: &str = "readings_imported";

/// What a member of staff asks to be taken in.
#[derive(Clone, Debug)]
pub struct Import {
    /// Into which class set.
    pub class_set_id: ClassSetId,
    /// Of which groups.
    pub groups: Vec<GroupWork>,
    /// By whom.
    pub staff_id: StaffId,
    /// Now, Unix ms.
    pub at: i64,
}

/// The work of one group.
#[derive(Clone, Debug)]
pub struct GroupWork {
    /// The label of its bench.
    pub label: String,
    /// What the file says.
    pub entry: Entry,
    /// The version of the sheet that was on the screen, 0 where nothing was
    /// stored; `None` where there was no such bench, and one is to be added.
    pub base: Option<i64>,
}

/// What became of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// All of it is stored: now, or before.
    Kept,
    /// These groups stored something else since the page was opened, or began
    /// a bench. Nothing was stored.
    Conflict(Vec<String>),
}

/// Where the work of a group goes.
enum Place {
    /// It is there already.
    Nowhere,
    /// To its sheet, after this version.
    After(SheetId, i64),
    /// To a bench that is to be added.
    NewBench,
}

/// Stores the work of all groups as handed in. Runs as one job of the
/// writer. Work that is stored already is not stored again, so the same page
/// sent twice is one act.
///
/// # Errors
/// When a query fails.
pub async fn store(db: &mut Writing, new: &Import) -> Result<Outcome, Error> {
    let mut places = Vec::new();
    let mut conflicts = Vec::new();
    for group in &new.groups {
        match place(db, new.class_set_id, group).await? {
            Some(place) => places.push((group, place)),
            None => conflicts.push(group.label.clone()),
        }
    }
    if !conflicts.is_empty() {
        return Ok(Outcome::Conflict(conflicts));
    }
    let mut said = Vec::new();
    for (group, place) in places {
        let (sheet, version) = match place {
            Place::Nowhere => continue,
            Place::After(sheet, version) => (sheet, version),
            Place::NewBench => {
                bench::insert(db, new.class_set_id, &group.label).await?;
                let added = bench::find(db, new.class_set_id, &group.label).await?;
                let added = added.ok_or(sqlx::Error::RowNotFound)?;
                (added.sheet_id, added.version)
            }
        };
        append(db, new, group, sheet, version + 1).await?;
        said.push(match group.base {
            None => format!("{} (new bench)", group.label),
            Some(_) => format!("{} (version {})", group.label, version + 1),
        });
    }
    if !said.is_empty() {
        let what = NewEvent {
            at: new.at,
            what: IMPORTED,
            staff_id: Some(new.staff_id),
            class_set_id: Some(new.class_set_id),
            detail: &said.join(", "),
        };
        event::insert(db, &what).await?;
    }
    Ok(Outcome::Kept)
}

/// Where a group's work goes; `None` where something else came in between.
async fn place(
    db: &mut Connection,
    class_set: ClassSetId,
    group: &GroupWork,
) -> Result<Option<Place>, Error> {
    let Some(bench) = bench::find(db, class_set, &group.label).await? else {
        return Ok(Some(Place::NewBench));
    };
    let latest = revision::find_latest(db, bench.sheet_id).await?;
    if latest.is_some_and(|latest| latest.entry == group.entry) {
        return Ok(Some(Place::Nowhere));
    }
    let is_as_seen = group.base == Some(bench.version);
    Ok(is_as_seen.then_some(Place::After(bench.sheet_id, bench.version)))
}

async fn append(
    db: &mut Writing,
    new: &Import,
    group: &GroupWork,
    sheet: SheetId,
    version: i64,
) -> Result<(), Error> {
    let row = NewRevision {
        sheet_id: sheet,
        version,
        kind: Kind::HandedIn,
        entry: &group.entry,
        written_at: new.at,
        writer: Writer::Staff(new.staff_id),
    };
    revision::insert(db, &row).await?;
    sheet::tie_kit(db, sheet, &group.entry.kit).await
}
