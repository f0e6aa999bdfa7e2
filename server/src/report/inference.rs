//! What the readings suggest: inferred from all groups of a class set
//! together, and kept until one of them changes.

use std::collections::HashMap;
use std::panic::{AssertUnwindSafe, catch_unwind};

use analysis::reading::{Inference, Placed};
use analysis::sheet::Sheet;

use super::class_set::GroupReport;
use super::kit;
use crate::acts::{KeepInference, perform_later};
use crate::db::inference::{self, BySheet, NewInference};
use crate::db::{Connection, Error, Store};
use crate::ids::{ClassSetId, DepartmentId, RevisionId, SheetId};
use crate::off_thread::off_thread;
use crate::secret;

/// Gives every group's work its inference: the one kept, where no group has
/// changed since, else a new one. What is new is handed back, for
/// [`keep`].
pub(super) async fn fill(
    db: &mut Connection,
    class_set_id: ClassSetId,
    groups: &mut [GroupReport],
    infer: Infer,
) -> Result<Option<ToKeep>, Error> {
    if groups.iter().all(|group| group.work.is_none()) {
        return Ok(None);
    }
    let state = state(groups)?;
    if let Some(kept) = inference::find(db, class_set_id, &state).await? {
        give(groups, kept);
        return Ok(None);
    }
    let by_sheet = infer_all(class_set_id, groups, infer).await;
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

/// What infers: `analysis::reading::infer`, or a test's own.
pub type Infer = fn(&[Placed<'_>]) -> Vec<Inference>;

/// Infers what all groups' readings suggest. A sheet on which that panics is
/// left out, so that the class is shown without it, and the log names it.
async fn infer_all(class_set: ClassSetId, groups: &[GroupReport], infer: Infer) -> BySheet {
    let works = groups.iter().filter_map(|group| {
        let work = group.work.as_ref()?;
        let kit = kit(&group.bench, Some(work)).to_owned();
        Some((group.bench.sheet_id, work.sheet.clone(), kit))
    });
    let works: Vec<(SheetId, Sheet, String)> = works.collect();
    let inferred = off_thread(move || {
        let placed: Vec<_> = works
            .iter()
            .map(|(_, sheet, kit)| Placed { sheet, kit })
            .collect();
        let ids = works.iter().map(|(id, ..)| *id);
        Vec::from_iter(ids.zip(infer_around(&placed, infer)))
    });
    let mut by_sheet = BySheet::new();
    for (sheet, inference) in inferred.await {
        match inference {
            Some(inference) => by_sheet.push((sheet, inference)),
            None => tracing::error!(
                %class_set,
                %sheet,
                "the inference panicked; the class is shown without what this sheet suggests"
            ),
        }
    }
    by_sheet
}

/// Infers, and after a panic finds the sheet that brings it about: one that
/// panics alone, or without which the others do not. Returns `None` for that
/// sheet; for all of them where no such sheet is found.
fn infer_around(sheets: &[Placed<'_>], infer: Infer) -> Vec<Option<Inference>> {
    let attempt = |places: &[usize]| {
        let placed: Vec<_> = places.iter().map(|at| sheets[*at]).collect();
        let inferred = catch_unwind(AssertUnwindSafe(|| infer(&placed))).ok()?;
        let mut all = vec![None; sheets.len()];
        for (at, inference) in places.iter().zip(inferred) {
            all[*at] = Some(inference);
        }
        Some(all)
    };
    let all: Vec<usize> = (0..sheets.len()).collect();
    if let Some(inferred) = attempt(&all) {
        return inferred;
    }
    let mut fine = all;
    fine.retain(|at| attempt(&[*at]).is_some());
    let without_each = (0..fine.len()).map(|place| {
        let mut rest = fine.clone();
        rest.remove(place);
        rest
    });
    let mut attempts = std::iter::once(fine.clone()).chain(without_each);
    let inferred = attempts.find_map(|places| attempt(&places));
    inferred.unwrap_or_else(|| vec![None; sheets.len()])
}

fn give(groups: &mut [GroupReport], by_sheet: BySheet) {
    let mut by_sheet: HashMap<SheetId, Inference> = by_sheet.into_iter().collect();
    for group in groups {
        if let Some(work) = &mut group.work {
            work.inference = by_sheet.remove(&group.bench.sheet_id);
        }
    }
}
