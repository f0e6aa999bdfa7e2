//! How often something may be tried: token buckets by key.
//!
//! Keys are accounts, benches and browsers, never addresses: a whole class may sit
//! behind one address.

use std::collections::HashMap;
use std::sync::{Mutex, PoisonError};

use crate::clock::MINUTE;

/// More keys than this at once are someone's experiment: full buckets are
/// forgotten then.
const MOST_KEYS: usize = 10_000;

/// A set of buckets with one size.
#[derive(Debug)]
pub struct Rate {
    /// Tries in a full bucket.
    size: i64,
    /// Time for one try to come back, in ms.
    refill: i64,
    /// Key → the moment (Unix ms) at which its bucket will be full again.
    full_at: Mutex<HashMap<String, i64>>,
}

impl Rate {
    /// Buckets of so many tries, one of which comes back every `refill` ms.
    #[must_use]
    pub fn new(size: i64, refill: i64) -> Self {
        Self {
            size,
            refill,
            full_at: Mutex::default(),
        }
    }

    /// Takes one try. False when none is left.
    #[must_use]
    pub fn take(&self, key: &str, now: i64) -> bool {
        let mut full_at = self.full_at.lock().unwrap_or_else(PoisonError::into_inner);
        if full_at.len() >= MOST_KEYS {
            full_at.retain(|_, at| *at > now);
        }
        let at = full_at.get(key).copied().unwrap_or(now).max(now) + self.refill;
        let is_left = at - now <= self.size * self.refill;
        if is_left {
            full_at.insert(key.to_owned(), at);
        }
        is_left
    }

    /// Fills a bucket: the try was right.
    pub fn forgive(&self, key: &str) {
        self.full_at
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
            .remove(key);
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
}
