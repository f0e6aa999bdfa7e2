//! Long work, away from the threads that answer requests.

use std::future::pending;
use std::panic::resume_unwind;

use tokio::task::spawn_blocking;

/// Does work on a thread of its own, and returns what came of it.
///
/// For work of more than a millisecond or so. Whoever calls it holds no
/// connection meanwhile: there are few, and a page that only reads would wait.
///
/// # Panics
/// When the work does.
pub async fn off_thread<T: Send + 'static>(work: impl FnOnce() -> T + Send + 'static) -> T {
    match spawn_blocking(work).await {
        Ok(done) => done,
        Err(failed) => match failed.try_into_panic() {
            Ok(panic) => resume_unwind(panic),
            // The program is ending, and nobody waits for an answer.
            Err(_) => pending().await,
        },
    }
}
