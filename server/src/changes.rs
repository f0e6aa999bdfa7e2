//! What tells the open pages of a lesson that something has changed: a count
//! for each class set, which goes up with every change.
//!
//! Nothing is told but that there is something new; whoever listens asks for
//! it again.
//!
//! # Why nothing more is told
//! One template writes the page and its part, so both say the same, the session
//! is checked again, and many changes are one fetch. Minutes pass without any
//! change, so the script asks every half minute too; a change that nobody
//! announced is seen by then.

use std::collections::HashMap;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use tokio::sync::watch;

use crate::ids::ClassSetId;

/// Most pages that may listen to one class set at once; more are refused, and
/// refresh themselves now and then.
const MOST_LISTENERS: usize = 40;

/// The counts, cheap to clone.
#[derive(Clone, Debug)]
pub struct Changes {
    /// `None` once the program is ending.
    counts: Arc<Mutex<Option<Counts>>>,
}

#[derive(Debug)]
struct Counts {
    first: i64,
    by_set: HashMap<ClassSetId, watch::Sender<i64>>,
}

impl Counts {
    fn of(&mut self, id: ClassSetId) -> &watch::Sender<i64> {
        let first = self.first;
        let count = self.by_set.entry(id);
        count.or_insert_with(|| watch::Sender::new(first))
    }
}

/// One page's ear on one class set.
#[derive(Debug)]
pub struct Listener {
    count: watch::Receiver<i64>,
}

impl Changes {
    /// Counts that begin at `started_at`, the time of the start in Unix ms: so
    /// no count of an earlier run is ever taken for one of this.
    #[must_use]
    pub fn new(started_at: i64) -> Self {
        let counts = Counts {
            first: started_at,
            by_set: HashMap::new(),
        };
        Self {
            counts: Arc::new(Mutex::new(Some(counts))),
        }
    }

    /// Nothing that could panic is done while it is locked.
    fn counts(&self) -> MutexGuard<'_, Option<Counts>> {
        self.counts.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Says that something about a class set has changed.
    pub fn announce(&self, id: ClassSetId) {
        if let Some(counts) = self.counts().as_mut() {
            counts.of(id).send_modify(|count| *count += 1);
        }
    }

    /// Returns the count of a class set now. Taken before its tables are read,
    /// it is never newer than what they say.
    #[must_use]
    pub fn count(&self, id: ClassSetId) -> i64 {
        let counts = self.counts();
        counts.as_ref().map_or(0, |counts| {
            let count = counts.by_set.get(&id);
            count.map_or(counts.first, |count| *count.borrow())
        })
    }

    /// Listens to a class set from what a page has seen on: at once where that
    /// is not the present count, so that nothing falls between a page and its
    /// stream. Returns `None` when the program is ending or too many listen.
    #[must_use]
    pub fn listen(&self, id: ClassSetId, seen: Option<i64>) -> Option<Listener> {
        let mut counts = self.counts();
        let sender = counts.as_mut()?.of(id);
        if sender.receiver_count() >= MOST_LISTENERS {
            return None;
        }
        let mut count = sender.subscribe();
        if seen.is_some_and(|seen| seen != *count.borrow()) {
            count.mark_changed();
        }
        Some(Listener { count })
    }

    /// Ends every listener, and lets nobody listen any more: the program is to
    /// stop, and must not wait for pages that stay open.
    pub fn end(&self) {
        self.counts().take();
    }
}

impl Listener {
    /// Waits for the next change; the count then, many changes being told as
    /// one. `None` once the program is ending. Nothing is lost when it is
    /// given up waiting.
    pub async fn next(&mut self) -> Option<i64> {
        self.count.changed().await.ok()?;
        Some(*self.count.borrow_and_update())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SET: ClassSetId = ClassSetId(1);
    const OTHER: ClassSetId = ClassSetId(2);

    #[tokio::test]
    async fn many_changes_are_told_as_one_and_only_to_their_own_class_set() {
        let changes = Changes::new(100);
        let mut hears = changes.listen(SET, None).unwrap();
        let mut other = changes.listen(OTHER, None).unwrap();
        changes.announce(SET);
        changes.announce(SET);
        assert_eq!(hears.next().await, Some(102));
        changes.announce(OTHER);
        assert_eq!(other.next().await, Some(101));
        changes.end();
        assert_eq!(hears.next().await, None, "nothing else was to be told");
    }

    #[tokio::test]
    async fn change_since_the_page_was_made_is_told_at_once() {
        let changes = Changes::new(100);
        let page = changes.count(SET);
        changes.announce(SET);
        let mut late = changes.listen(SET, Some(page)).unwrap();
        assert_eq!(late.next().await, Some(101));
        // A page of an earlier run of the program.
        let mut old = changes.listen(SET, Some(7)).unwrap();
        assert_eq!(old.next().await, Some(101));
    }

    #[tokio::test]
    async fn end_of_the_program_ends_listeners_and_takes_no_more() {
        let changes = Changes::new(100);
        let mut hears = changes.listen(SET, Some(100)).unwrap();
        changes.clone().end();
        assert_eq!(hears.next().await, None);
        assert!(changes.listen(SET, None).is_none(), "nobody listens now");
        changes.announce(SET);
    }

    #[tokio::test]
    async fn too_many_listeners_are_refused_until_one_goes() {
        let changes = Changes::new(100);
        let mut all: Vec<_> = (0..MOST_LISTENERS)
            .map(|_| changes.listen(SET, None).unwrap())
            .collect();
        assert!(changes.listen(SET, None).is_none(), "one too many");
        assert!(changes.listen(OTHER, None).is_some(), "another set");
        all.pop();
        assert!(changes.listen(SET, None).is_some(), "one has gone");
    }
}
