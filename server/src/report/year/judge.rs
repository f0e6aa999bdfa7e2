//! Judgements that are not kept yet: made when somebody looks, some hundred
//! at a time.

use analysis::assess::assess;
use analysis::sheet::Sheet;
use analysis::year::Judgement;
use rayon::prelude::*;

use super::frame::version;
use crate::acts::{KeepJudgements, perform_unheard};
use crate::db::judgement::{self, Judged};
use crate::db::revision::Entry;
use crate::db::{Connection, Error, Store};
use crate::ids::{DepartmentId, RevisionId};
use crate::off_thread::off_thread;

/// Revisions that are read, judged or written at once: what is in memory is
/// bounded, and no write keeps a hand-in waiting for long.
const BATCH: usize = 200;

/// Judges some revisions, away from the tasks that answer requests.
pub(super) async fn judge(
    db: &mut Connection,
    revisions: &[RevisionId],
) -> Result<Vec<(RevisionId, Judged)>, Error> {
    let mut judged = Vec::with_capacity(revisions.len());
    for batch in revisions.chunks(BATCH) {
        let entries = judgement::list_entries(db, batch).await?;
        let judging = off_thread(move || {
            let readable = entries.into_par_iter();
            let judged = readable.filter_map(|(id, entry)| Some((id, judged_of(entry)?)));
            judged.collect::<Vec<_>>()
        });
        judged.extend(judging.await);
    }
    Ok(judged)
}

/// `None` where the boxes cannot be read, which the door keeps from happening
/// for anything stored through a page.
fn judged_of(entry: Entry) -> Option<Judged> {
    let sheet = Sheet::check(&entry.sheet).ok()?;
    Some(Judged {
        kit: entry.kit,
        judgement: Judgement::of(&sheet, &assess(&sheet)),
    })
}

/// Keeps judgements for whoever looks next. Nobody waits for it, and what
/// cannot be kept is made again.
pub(super) fn keep(
    store: &Store,
    department: DepartmentId,
    judged: Vec<(RevisionId, Judged)>,
    now: i64,
) {
    let store = store.clone();
    tokio::spawn(async move {
        let mut judged = judged.into_iter().peekable();
        while judged.peek().is_some() {
            let act = KeepJudgements {
                version: version(),
                judged: judged.by_ref().take(BATCH).collect(),
            };
            if let Err(error) = perform_unheard(&store, now, department, act).await {
                tracing::warn!(%error, "judgements were not kept");
                return;
            }
        }
    });
}
