//! A group saves its sheet or hands it in: the rules by which two tabs, a
//! double click and the Back button never lose or double anything.

use super::open_draft::open;
use super::{Act, Doing, Event};
use crate::db::class_set::State;
use crate::db::revision::{self, Entry, Kind, Revision, Writer};
use crate::db::visit::{self, Place};
use crate::db::{Error, draft, sheet};
use crate::ids::{RevisionId, VisitId};
use crate::secret::sha256;

/// Stores what a group typed on the sheet of its bench, as typed. One page sent
/// twice is stored once; what is stored is never written over unseen.
#[derive(Clone, Debug)]
pub struct HandIn {
    /// Key of the draft that its page carried.
    pub draft: String,
    /// Save or hand in.
    pub kind: Kind,
    /// What was typed.
    pub entry: Entry,
}

/// What became of it.
#[derive(Clone, Debug)]
pub enum Sent {
    /// It is this revision: stored now, or found to be there already.
    Kept(RevisionId),
    /// Somebody stored something else since the page was opened.
    Conflict {
        stored: Box<Revision>,
        /// A fresh draft from that version, to answer with.
        draft: String,
    },
    /// The page's key is none of this sheet's.
    UnknownDraft {
        /// A fresh draft from the present version.
        draft: String,
    },
    /// The class set is closed.
    Closed,
    /// The visit is over: the number is asked for again.
    Left,
}

impl Act<VisitId> for HandIn {
    type Done = Sent;
    type Stop = Error;

    async fn perform(self, by: VisitId, doing: &mut Doing<'_>) -> Result<Sent, Error> {
        let Some(place) = visit::find_place(doing.db, by, doing.at).await? else {
            return Ok(Sent::Left);
        };
        let page = draft::find(doing.db, place.sheet_id, &self.draft).await?;
        let payload = self.payload_hash()?;
        // The same page sent twice is one act, whatever happened in between: a
        // class set that has been closed too.
        if let Some(page) = &page
            && let (Some(id), Some(spent_on)) = (page.spent_revision_id, &page.payload_hash)
            && *spent_on == payload
        {
            return Ok(Sent::Kept(id));
        }
        if place.state == State::Closed {
            return Ok(Sent::Closed);
        }
        let Some(page) = page else {
            let draft = open(doing, place.sheet_id, by).await?;
            return Ok(Sent::UnknownDraft { draft });
        };
        let latest = revision::find_latest(doing.db, place.sheet_id).await?;
        let version = latest.as_ref().map_or(0, |r| r.version);
        if let Some(stored) = latest {
            let same = stored.entry == self.entry;
            if same && (stored.kind == self.kind || stored.kind == Kind::HandedIn) {
                draft::spend(doing.db, &self.draft, stored.id, &payload).await?;
                return Ok(Sent::Kept(stored.id));
            }
            let is_stale = page.spent_revision_id.is_some() || page.base_version < stored.version;
            if is_stale && !same {
                let draft = open(doing, place.sheet_id, by).await?;
                let stored = Box::new(stored);
                return Ok(Sent::Conflict { stored, draft });
            }
        }
        let kept = self.store(by, doing, &place, version + 1).await?;
        draft::spend(doing.db, &self.draft, kept, &payload).await?;
        Ok(Sent::Kept(kept))
    }
}

impl HandIn {
    async fn store(
        &self,
        by: VisitId,
        doing: &mut Doing<'_>,
        place: &Place,
        version: i64,
    ) -> Result<RevisionId, Error> {
        let (id, entry, writer, at) = (place.sheet_id, &self.entry, Writer::Visit(by), doing.at);
        let kept = revision::insert(doing.db, id, version, self.kind, entry, writer, at).await?;
        sheet::tie_kit(doing.db, id, &entry.kit).await?;
        doing.record(by, &Event::Stored(place.class_set_id)).await?;
        Ok(kept)
    }

    fn payload_hash(&self) -> Result<String, Error> {
        let kind = match self.kind {
            Kind::Saved => "saved",
            Kind::HandedIn => "handed_in",
        };
        let entry = serde_json::to_string(&self.entry)?;
        Ok(sha256(&format!("{kind}\n{entry}")))
    }
}
