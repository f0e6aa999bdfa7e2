//! What the readings of a class set suggest and give reason to ask: read
//! together, and kept until one of its groups changes.
//!
//! # How it goes stale
//! It leans on all groups of the class set, and costs some milliseconds instead
//! of some tenths. `inference` has one row a class set, with a digest of all
//! that it was made from: the newest revisions' ids, the kits by label,
//! `analysis::VERSION`. Whoever looks works the digest out again and takes the
//! row only if it is the same, so no write has to remember to clear it; a group
//! that hands in, begins or names another kit makes it anew for the class.
//! Thresholds and decisions are no part of it: they are laid over the findings
//! each time. The row may be deleted at any time. It is written after the
//! reply, and nobody waits for it; where that fails it is traced and made
//! again. Raise `analysis::VERSION` when a judgement may differ.

use analysis::reading::copied::Question;
use analysis::sheet::Sheet;

use super::class_set::GroupReport;
use super::judge::{Infer, Submitted, read_together};
use super::{kit, shared};
use crate::db::derived::Derived;
use crate::db::inference::{self, NewInference, Together};
use crate::db::{Connection, Error};
use crate::ids::{ClassSetId, RevisionId, SheetId};
use crate::off_thread::off_thread;
use crate::secret;

/// Gives every group's work its inference, and returns the questions, by
/// places among the groups with work: what is kept, where no group has changed
/// since; else made again and handed back, to be kept.
pub(super) async fn fill(
    db: &mut Connection,
    class_set_id: ClassSetId,
    groups: &mut [GroupReport],
    infer: Infer,
) -> Result<(Vec<Question>, Option<Derived>), Error> {
    if groups.iter().all(|group| group.work.is_none()) {
        return Ok((Vec::new(), None));
    }
    let state = state(groups)?;
    if let Some(kept) = inference::find(db, class_set_id, &state).await? {
        return Ok((give(groups, kept), None));
    }
    let together = read(class_set_id, groups, infer).await;
    let questions = give(groups, together.clone());
    let made = Derived::Inference(NewInference {
        class_set_id,
        state,
        together,
    });
    Ok((questions, Some(made)))
}

/// Returns a digest of all that it rests on. A group that is new, has stored
/// another revision or names another kit changes it for the class.
fn state(groups: &[GroupReport]) -> Result<String, Error> {
    let works = groups.iter().filter_map(|group| {
        let work = group.work.as_ref()?;
        Some((work.revision.id, kit(&group.bench, Some(work))))
    });
    let works: Vec<(RevisionId, &str)> = works.collect();
    let basis = serde_json::to_string(&(analysis::VERSION, works))?;
    Ok(secret::sha256(&basis))
}

/// A group's work, on its way to another thread.
struct Lent {
    id: SheetId,
    label: String,
    sheet: Sheet,
    kit: String,
    shared: String,
}

/// Reads all groups' work together. The log names a sheet on which that panics.
async fn read(class_set: ClassSetId, groups: &[GroupReport], infer: Infer) -> Together {
    let lent = groups.iter().filter_map(|group| {
        let work = group.work.as_ref()?;
        Some(Lent {
            id: group.bench.sheet_id,
            label: group.bench.label.clone(),
            sheet: work.sheet.clone(),
            kit: kit(&group.bench, Some(work)).to_owned(),
            shared: shared(Some(work)).to_owned(),
        })
    });
    let lent: Vec<Lent> = lent.collect();
    let (lent, together) = off_thread(move || {
        let submitted = lent.iter().map(|one| Submitted {
            group: &one.label,
            sheet: &one.sheet,
            kit: &one.kit,
            shared: &one.shared,
        });
        let together = read_together(&submitted.collect::<Vec<_>>(), infer);
        (lent, together)
    })
    .await;
    for (one, inference) in lent.iter().zip(&together.inferences) {
        if inference.is_none() {
            tracing::error!(
                %class_set,
                sheet = %one.id,
                "the inference panicked; the class is shown without what this sheet suggests"
            );
        }
    }
    together
}

fn give(groups: &mut [GroupReport], together: Together) -> Vec<Question> {
    let works = groups.iter_mut().filter_map(|group| group.work.as_mut());
    for (work, inference) in works.zip(together.inferences) {
        work.inference = inference;
    }
    together.questions
}
