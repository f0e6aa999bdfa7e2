//! How long things take.

use std::hint::black_box;
use std::time::{Duration, Instant};

/// How long some work takes.
pub(crate) fn took<T>(work: impl FnOnce() -> T) -> Duration {
    let started = Instant::now();
    black_box(work());
    started.elapsed()
}

/// How long something takes that is waited for.
pub(crate) async fn awaited<T>(work: impl Future<Output = T>) -> Duration {
    let started = Instant::now();
    black_box(work.await);
    started.elapsed()
}
