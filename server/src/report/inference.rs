//! What the readings suggest: inferred from all groups of a class set
//! together, and kept until one of them changes.

use std::collections::HashMap;
use std::panic::resume_unwind;

use analysis::reading::{Inference, Placed, infer};
use analysis::sheet::Sheet;
use tokio::task::spawn_blocking;

use super::class_set::GroupReport;
use super::kit;
use crate::acts::{KeepInference, perform_later};
use crate::db::inference::{self, BySheet, NewInference};
use crate::db::{Connection, Error, Store};
use crate::ids::{ClassSetId, DepartmentId, RevisionId, SheetId};
use crate::secret;

/// Gives every group's work its inference: the one kept, where no group has
/// changed since, else a new one. What is new is handed back, for
/// [`keep`].
pub(super) async fn fill(
    db: &mut Connection,
    class_set_id: ClassSetId,
    groups: &mut [GroupReport],
) -> Result<Option<ToKeep>, Error> {
    if groups.iter().all(|group| group.work.is_none()) {
        return Ok(None);
    }
    let state = state(groups)?;
    if let Some(kept) = inference::find(db, class_set_id, &state).await? {
        give(groups, kept);
        return Ok(None);
    }
    let by_sheet = infer_all(groups).await;
    give(groups, by_sheet.clone());
    Ok(Some(ToKeep {
        department: db.department(),
        new: NewInference {
            class_set_id,
            state,
            by_sheet,
        },
    }))
}

/// An inference that had to be made anew.
#[derive(Clone, Debug)]
pub struct ToKeep {
    department: DepartmentId,
    new: NewInference,
}

/// Keeps an inference for whoever looks next. Nobody waits for it, and where
/// it cannot be kept it is made again.
pub fn keep(store: &Store, made: ToKeep, now: i64) {
    let act = KeepInference(made.new);
    perform_later(
        store,
        now,
        made.department,
        act,
        "an inference was not kept",
    );
}

/// A digest of all that the inference rests on. A group that is new, has
/// stored another revision or names another kit changes it for the class.
fn state(groups: &[GroupReport]) -> Result<String, Error> {
    let works = groups.iter().filter_map(|group| {
        let work = group.work.as_ref()?;
        Some((work.revision.id, kit(&group.bench, Some(work))))
    });
    let works: Vec<(RevisionId, &str)> = works.collect();
    let basis = serde_json::to_string(&(analysis::VERSION, works))?;
    Ok(secret::sha256(&basis))
}

/// Some milliseconds of arithmetic, away from the tasks that answer requests.
async fn infer_all(groups: &[GroupReport]) -> BySheet {
    let works = groups.iter().filter_map(|group| {
        let work = group.work.as_ref()?;
        let kit = kit(&group.bench, Some(work)).to_owned();
        Some((group.bench.sheet_id, work.sheet.clone(), kit))
    });
    let works: Vec<(SheetId, Sheet, String)> = works.collect();
    let inferring = spawn_blocking(move || {
        let placed: Vec<_> = works
            .iter()
            .map(|(_, sheet, kit)| Placed { sheet, kit })
            .collect();
        let ids = works.iter().map(|(id, ..)| *id);
        ids.zip(infer(&placed)).collect()
    });
    inferring
        .await
        .unwrap_or_else(|failed| resume_unwind(failed.into_panic()))
}

fn give(groups: &mut [GroupReport], by_sheet: BySheet) {
    let mut by_sheet: HashMap<SheetId, Inference> = by_sheet.into_iter().collect();
    for group in groups {
        if let Some(work) = &mut group.work {
            work.inference = by_sheet.remove(&group.bench.sheet_id);
        }
    }
}
