//! Storing a sheet: the rules by which two tabs, a double click and the Back
//! button never lose or double anything.

use super::query::{query, query_scalar};
use super::revision::{self, Entry, Kind, NewRevision, Revision, Writer};
use super::{Connection, Error, Writing, draft, kit};
use crate::ids::{SheetId, VisitId};

/// What a group's browser asks to be stored.
#[derive(Clone, Debug)]
pub struct Submission {
    /// The sheet.
    pub sheet_id: SheetId,
    /// The visit that sends it.
    pub visit_id: VisitId,
    /// Key of the draft that its page carried.
    pub draft: String,
    /// Save or hand in.
    pub kind: Kind,
    /// What was typed.
    pub entry: Entry,
    /// Now, Unix ms.
    pub at: i64,
}

/// What became of it.
#[derive(Clone, Debug)]
pub enum Outcome {
    /// It is this revision: stored now, or found to be there already.
    Kept(Revision),
    /// Somebody stored something else since the page was opened. Carries what
    /// is stored and a fresh draft to answer with.
    Conflict {
        /// What is stored.
        stored: Revision,
        /// A draft from that version.
        draft: String,
    },
    /// The page's key is none of this sheet's. Carries a fresh draft.
    UnknownDraft {
        /// A draft from the present version.
        draft: String,
    },
    /// The class set is closed.
    Closed,
}

/// Stores a submission. Runs as one job of the writer.
///
/// # Errors
/// When a query fails.
pub async fn submit(db: &mut Writing, new: &Submission) -> Result<Outcome, Error> {
    let page = draft::find(db, new.sheet_id, &new.draft).await?;
    let payload = payload_hash(new)?;
    // The same page sent twice is one act, whatever happened in between: a
    // class set that has been closed too.
    if let Some(page) = &page
        && let (Some(id), Some(spent_on)) = (page.spent_revision_id, &page.payload_hash)
        && *spent_on == payload
    {
        return Ok(Outcome::Kept(revision::get(db, id).await?));
    }
    if is_closed(db, new.sheet_id).await? {
        return Ok(Outcome::Closed);
    }
    let Some(page) = page else {
        let draft = draft::find_or_insert(db, new.sheet_id, new.visit_id, new.at).await?;
        return Ok(Outcome::UnknownDraft { draft });
    };
    let latest = revision::find_latest(db, new.sheet_id).await?;
    let version = latest.as_ref().map_or(0, |r| r.version);
    if let Some(stored) = latest {
        let same = stored.entry == new.entry;
        if same && (stored.kind == new.kind || stored.kind == Kind::HandedIn) {
            draft::update_spent(db, &new.draft, stored.id, &payload).await?;
            return Ok(Outcome::Kept(stored));
        }
        let is_stale = page.spent_revision_id.is_some() || page.base_version < stored.version;
        if is_stale && !same {
            let draft = draft::find_or_insert(db, new.sheet_id, new.visit_id, new.at).await?;
            return Ok(Outcome::Conflict { stored, draft });
        }
    }
    let kept = store(db, new, version + 1).await?;
    draft::update_spent(db, &new.draft, kept.id, &payload).await?;
    Ok(Outcome::Kept(kept))
}

async fn store(db: &mut Writing, new: &Submission, version: i64) -> Result<Revision, Error> {
    let row = NewRevision {
        sheet_id: new.sheet_id,
        version,
        kind: new.kind,
        entry: &new.entry,
        written_at: new.at,
        writer: Writer::Visit(new.visit_id),
    };
    let kept = revision::insert(db, &row).await?;
    update_kit(db, new.sheet_id, &new.entry.kit).await?;
    Ok(kept)
}

/// Ties a sheet to the kit that its text names, or to none.
///
/// # Errors
/// When a query fails.
pub async fn update_kit(db: &mut Writing, sheet: SheetId, label: &str) -> Result<(), Error> {
    let kit = kit::find_by_label(db, label).await?;
    query(db, sql!("UPDATE sheet SET kit_id = (SELECT id FROM kit WHERE id = $3 AND department_id = $1) WHERE id = (SELECT id FROM own_sheet WHERE id = $2 AND department_id = $1)"))
        .bind(sheet)
        .bind(kit)
        .execute(db)
        .await?;
    Ok(())
}

async fn is_closed(db: &mut Connection, sheet: SheetId) -> Result<bool, Error> {
    let sql = sql!("SELECT class_set.state FROM sheet JOIN bench ON bench.id = sheet.bench_id
               JOIN class_set ON class_set.id = bench.class_set_id WHERE sheet.id = (SELECT id FROM own_sheet WHERE id = $2 AND department_id = $1)");
    let state: super::class_set::State = query_scalar(db, sql).bind(sheet).fetch_one(db).await?;
    Ok(state == super::class_set::State::Closed)
}

fn payload_hash(new: &Submission) -> Result<String, Error> {
    let kind = match new.kind {
        Kind::Saved => "saved",
        Kind::HandedIn => "handed_in",
    };
    Ok(crate::secret::sha256(&format!(
        "{kind}\n{}",
        serde_json::to_string(&new.entry)?
    )))
}
