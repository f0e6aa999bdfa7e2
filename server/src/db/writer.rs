//! The one writer: many writes to one commit.
//!
//! Every write of the program is a job on a queue that one task empties. It
//! takes what is waiting (up to [`BATCH`] jobs), runs each inside a savepoint
//! of one transaction, commits, and only then answers. Under a burst the cost
//! of a durable commit is shared; alone, a job waits for nobody. A job lives
//! in this task, so a browser that hangs up cannot stop it half-way.

use std::any::Any;
use std::future::Future;
use std::panic::AssertUnwindSafe;
use std::pin::Pin;
use std::time::{Duration, Instant};

use futures_util::FutureExt as _;
use tokio::sync::{mpsc, oneshot};
use tokio::task::JoinHandle;

use super::{Error, Writing};
use crate::ids::DepartmentId;

/// Most jobs to one commit.
pub(in crate::data) const BATCH: usize = 64;
/// Most jobs that may wait; beyond it a write is refused at once.
const QUEUE: usize = 1024;
/// How often `SQLite` looks whether tables have grown so much that it has to
/// plan anew.
const HOUR: Duration = Duration::from_secs(3600);

/// What a job returns: its result, borrowed from the connection while it runs.
pub(in crate::data) type Work<'c, T, E> = Pin<Box<dyn Future<Output = Result<T, E>> + Send + 'c>>;

/// A handle to the writer task.
#[derive(Clone, Debug)]
pub(in crate::data) struct Writer {
    queue: mpsc::Sender<Box<dyn Job>>,
}

impl Writer {
    /// Starts the task on a connection of its own, with at most `batch` jobs
    /// (one or more) to a commit. It ends well when every handle is gone, and
    /// with an error when a commit fails.
    pub(super) fn start(
        connection: Writing,
        batch: usize,
    ) -> (Self, JoinHandle<Result<(), Error>>) {
        let (queue, waiting) = mpsc::channel(QUEUE);
        let task = tokio::spawn(write(connection, waiting, batch.max(1)));
        (Self { queue }, task)
    }

    /// Runs a job in a transaction and returns what it returned, once that is
    /// on disk. Calls `tell` before that, as soon as it is on disk: also when
    /// nobody waits for the answer any more. `tell` must be quick, since every
    /// other write waits for it. A job that fails or panics leaves nothing
    /// behind, and the jobs that share its commit do not notice.
    ///
    /// # Errors
    /// The job's own; [`Error::Panicked`]; [`Error::Busy`] when too many are
    /// waiting; [`Error::Stopped`] when the commit failed or the task is gone.
    pub(in crate::data) async fn run<N, T, E, F>(
        &self,
        department: DepartmentId,
        tell: N,
        work: F,
    ) -> Result<T, E>
    where
        N: FnOnce(&T) + Send + 'static,
        T: Send + 'static,
        E: From<Error> + Send + 'static,
        F: for<'c> FnOnce(&'c mut Writing) -> Work<'c, T, E> + Send + 'static,
    {
        let (reply, answer) = oneshot::channel();
        let job = Task {
            department,
            work: Some(work),
            outcome: None,
            tell,
            reply,
        };
        self.queue
            .try_send(Box::new(job))
            .map_err(|refusal| match refusal {
                mpsc::error::TrySendError::Full(_) => Error::Busy,
                mpsc::error::TrySendError::Closed(_) => Error::Stopped,
            })?;
        answer.await.unwrap_or_else(|_| Err(Error::Stopped.into()))
    }
}

/// A job whose result type is hidden from the queue.
trait Job: Send {
    /// Runs the work and keeps its result. True: keep what it wrote.
    fn run<'c>(
        &'c mut self,
        connection: &'c mut Writing,
    ) -> Pin<Box<dyn Future<Output = bool> + Send + 'c>>;

    /// Answers the caller.
    fn answer(self: Box<Self>, committed: bool);
}

struct Task<T, E, F, N> {
    department: DepartmentId,
    work: Option<F>,
    outcome: Option<Result<T, E>>,
    tell: N,
    reply: oneshot::Sender<Result<T, E>>,
}

impl<T, E, F, N> Job for Task<T, E, F, N>
where
    T: Send,
    E: From<Error> + Send,
    F: for<'c> FnOnce(&'c mut Writing) -> Work<'c, T, E> + Send,
    N: FnOnce(&T) + Send,
{
    fn run<'c>(
        &'c mut self,
        connection: &'c mut Writing,
    ) -> Pin<Box<dyn Future<Output = bool> + Send + 'c>> {
        Box::pin(async move {
            connection.turn_to(self.department);
            if let Some(work) = self.work.take() {
                // The work is made inside, since that may panic too.
                let work = async { work(connection).await };
                let ended = AssertUnwindSafe(work).catch_unwind().await;
                self.outcome = Some(ended.unwrap_or_else(|panic| Err(panicked(&*panic).into())));
            }
            matches!(self.outcome, Some(Ok(_)))
        })
    }

    fn answer(self: Box<Self>, committed: bool) {
        let outcome = match self.outcome {
            Some(Ok(done)) if committed => {
                (self.tell)(&done);
                Ok(done)
            }
            Some(Err(own)) => Err(own),
            _ => Err(Error::Stopped.into()),
        };
        // Nobody listens where the browser has hung up; the write stands.
        let _ = self.reply.send(outcome);
    }
}

/// Returns the error for a job that panicked. The message goes to the log with
/// the request that failed.
fn panicked(panic: &(dyn Any + Send)) -> Error {
    let message = panic.downcast_ref::<String>().map(String::as_str);
    let message = message.or_else(|| panic.downcast_ref::<&str>().copied());
    Error::Panicked(message.unwrap_or("without a message").to_owned())
}

async fn write(
    mut connection: Writing,
    mut waiting: mpsc::Receiver<Box<dyn Job>>,
    most: usize,
) -> Result<(), Error> {
    let mut batch = Vec::with_capacity(most);
    let mut optimized = Instant::now();
    while waiting.recv_many(&mut batch, most).await > 0 {
        let outcome = commit(&mut connection, &mut batch).await;
        for job in batch.drain(..) {
            job.answer(outcome.is_ok());
        }
        if let Err(error) = outcome {
            // After a failed commit nobody knows what is on disk. Take no more;
            // whoever waits in the queue is told so when it is dropped.
            tracing::error!(%error, "the data file refused a commit; writing stops");
            return Err(error.into());
        }
        if optimized.elapsed() >= HOUR {
            connection.command("PRAGMA optimize").await?;
            optimized = Instant::now();
        }
    }
    connection.command("PRAGMA optimize").await?;
    connection
        .command("PRAGMA wal_checkpoint(TRUNCATE)")
        .await?;
    connection.close().await?;
    Ok(())
}

/// Runs the whole batch in one transaction, with a savepoint for each job.
async fn commit(connection: &mut Writing, batch: &mut [Box<dyn Job>]) -> Result<(), sqlx::Error> {
    connection.command("BEGIN IMMEDIATE").await?;
    for job in batch {
        connection.command("SAVEPOINT job").await?;
        if !job.run(connection).await {
            connection.command("ROLLBACK TO job").await?;
        }
        connection.command("RELEASE job").await?;
    }
    connection.command("COMMIT").await
}
