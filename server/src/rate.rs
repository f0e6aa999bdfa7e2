//! How often something may be tried: token buckets by key.
//!
//! Keys are accounts, benches and browsers, never addresses: a whole class may sit
//! behind one address.

use std::hash::{BuildHasher as _, RandomState};
use std::num::NonZeroUsize;
use std::sync::{Mutex, MutexGuard, PoisonError};

use lru::LruCache;

use crate::clock::MINUTE;

/// Buckets that are remembered, some 8 MB of them. Browsers and names can be
/// invented without end; whose last try is longest ago is forgotten then, and
/// has a full bucket again.
const MOST_KEYS: NonZeroUsize = NonZeroUsize::new(100_000).expect("more than none");

/// A set of buckets with one size.
#[derive(Debug)]
pub struct Rate {
    /// Tries in a full bucket.
    size: i64,
    /// Time for one try to come back, in ms.
    refill: i64,
    /// Hash of a key → the moment (Unix ms) at which its bucket will be full
    /// again. Keys are of any length, their hashes are not.
    full_at: Mutex<LruCache<u64, i64>>,
    /// Its hashes cannot be foretold, so nobody can aim at another's bucket.
    hasher: RandomState,
}

impl Rate {
    /// Returns buckets of so many tries, one of which comes back every `refill` ms.
    #[must_use]
    pub fn new(size: i64, refill: i64) -> Self {
        Self {
            size,
            refill,
            full_at: Mutex::new(LruCache::new(MOST_KEYS)),
            hasher: RandomState::new(),
        }
    }

    /// Takes one try. Returns false when none is left.
    #[must_use]
    pub fn take(&self, key: &str, now: i64) -> bool {
        let mut buckets = self.buckets();
        let full_at = buckets.get_or_insert_mut(self.hasher.hash_one(key), || now);
        let then = now.max(*full_at) + self.refill;
        let is_left = then - now <= self.size * self.refill;
        if is_left {
            *full_at = then;
        }
        is_left
    }

    /// Fills a bucket: the try was right.
    pub fn forgive(&self, key: &str) {
        self.buckets().pop(&self.hasher.hash_one(key));
    }

    fn buckets(&self) -> MutexGuard<'_, LruCache<u64, i64>> {
        self.full_at.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// The limits of the program.
#[derive(Debug)]
pub struct Rates {
    /// Passwords, by account.
    pub sign_in: Rate,
    /// Come-back numbers, by browser and bench: 5, then one a minute. A group
    /// that mistypes needs no more, and a joker at the next computer uses up
    /// only their own.
    pub come_back_by_browser: Rate,
    /// Come-back numbers, by bench, from whatever browsers: a browser can drop
    /// its cookie and be new, so this is what keeps guessing hopeless. It is
    /// large enough that eight browsers must have run out before it does. 40,
    /// then one a minute, make 100 tries in an hour's lesson: they find one of
    /// ten thousand numbers once in a hundred lessons given over to guessing.
    pub come_back_by_bench: Rate,
}

impl Default for Rates {
    fn default() -> Self {
        Self {
            sign_in: Rate::new(10, MINUTE / 2),
            come_back_by_browser: Rate::new(5, MINUTE),
            come_back_by_bench: Rate::new(40, MINUTE),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tries_run_out_and_come_back_one_by_one() {
        let rate = Rate::new(3, MINUTE);
        for n in 0..3 {
            assert!(rate.take("a", 0), "try {n}");
        }
        assert!(!rate.take("a", 0), "the fourth");
        assert!(rate.take("b", 0), "another key has its own");
        assert!(rate.take("a", MINUTE), "one came back");
        assert!(!rate.take("a", MINUTE), "and only one");
        rate.forgive("a");
        assert!(rate.take("a", MINUTE), "forgiven");
    }

    #[test]
    fn flood_of_invented_keys_is_forgotten_and_locks_nobody_out() {
        let rate = Rate::new(1, MINUTE);
        assert!(rate.take("joker", 0), "their one try");
        for n in 0..MOST_KEYS.get() - 1 {
            assert!(rate.take(&n.to_string(), 0), "invented key {n}");
        }
        assert!(!rate.take("joker", 0), "still remembered");
        for n in 0..MOST_KEYS.get() / 2 {
            assert!(rate.take(&format!("more {n}"), 0), "one more, {n}");
        }
        assert_eq!(rate.buckets().len(), MOST_KEYS.get(), "and not more");
        assert!(!rate.take("joker", 0), "a refused try is a try");
    }
}
