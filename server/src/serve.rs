//! Starting and stopping the server.
//!
//! # Why the streams are ended here
//! A stream is a request under way, and requests under way are waited for at
//! the end: each open page would hold the program for twenty seconds.

use std::io::Write as _;
use std::net::SocketAddr;
use std::path::Path;

use tokio::net::TcpListener;
use tokio::task::JoinHandle;

use crate::acts::{InviteFirst, perform_unheard};
use crate::app::app;
use crate::clock::Clock;
use crate::config::Config;
use crate::db::{Error, Lock, Store};
use crate::listener;
use crate::secret;
use crate::upkeep::every_hour;
use crate::web::state::AppState;

/// A data file that this program alone has open.
#[derive(Debug)]
pub struct DataFile {
    /// Its tables.
    pub store: Store,
    writing: JoinHandle<Result<(), Error>>,
    _lock: Lock,
}

impl DataFile {
    /// Opens a data file, or makes it with empty tables.
    ///
    /// # Errors
    /// When another program has it open, or it cannot be opened or migrated.
    pub async fn open(path: &Path) -> Result<Self, Error> {
        let lock = Lock::take(path)?;
        let (store, writing) = crate::acts::open(path).await?;
        Ok(Self {
            store,
            writing,
            _lock: lock,
        })
    }

    /// Closes it once every write is on disk.
    ///
    /// # Errors
    /// When a commit failed.
    pub async fn close(self) -> Result<(), Box<dyn std::error::Error>> {
        self.store.close().await;
        self.writing.await??;
        Ok(())
    }
}

/// Serves until the program is told to stop, or until the data file refuses a
/// commit.
///
/// # Errors
/// When the data file or the port cannot be opened, or a commit fails.
pub async fn serve(config: Config) -> Result<(), Box<dyn std::error::Error>> {
    let file = DataFile::open(&config.data).await?;
    let first = first_link(&file.store, Clock::System.now()).await?;
    serve_file(file, config, |address| announce(address, first.as_deref())).await
}

/// Serves a data file that is open already; `announce` is called once, when
/// the port is.
///
/// # Errors
/// When the port cannot be opened, or a commit fails.
pub async fn serve_file(
    file: DataFile,
    config: Config,
    announce: impl FnOnce(SocketAddr) -> std::io::Result<()>,
) -> Result<(), Box<dyn std::error::Error>> {
    let DataFile {
        store,
        mut writing,
        _lock,
    } = file;
    let upkeep = every_hour(store.clone(), Clock::System, config.zone.clone());
    let state = AppState {
        say: config.language,
        ..AppState::new(store, Clock::System, config.zone, config.pupils_address)
    };
    let changes = state.changes.clone();
    let listener = bind((config.address, config.port).into()).await?;
    announce(listener.local_addr()?)?;
    let upkeep = tokio::spawn(upkeep);

    let mut failed = None;
    let end = async {
        tokio::select! {
            () = told_to_stop() => {}
            ended = &mut writing => failed = Some(ended),
        }
        // Streams to open pages would be waited for as requests under way.
        changes.end();
    };
    listener::serve(listener, app(state), end).await;
    upkeep.abort();
    let _ended = upkeep.await;
    // The state went with the application, so the queue ends and the writer
    // finishes what is in it.
    match failed {
        Some(ended) => ended??,
        None => writing.await??,
    }
    Ok(())
}

async fn bind(address: SocketAddr) -> std::io::Result<TcpListener> {
    TcpListener::bind(address).await.map_err(|error| {
        let why = match error.kind() {
            std::io::ErrorKind::AddrInUse => {
                "another program uses it; choose another port with --port".to_owned()
            }
            _ => error.to_string(),
        };
        std::io::Error::new(error.kind(), format!("cannot listen at {address}: {why}"))
    })
}

/// Makes a new link to the first account, and returns its token. Returns
/// `None` when every department of the file has somebody. Links of earlier
/// starts are good no more.
///
/// # Errors
/// When the data file fails.
pub async fn first_link(store: &Store, now: i64) -> Result<Option<String>, Error> {
    let departments = store.door().await?.list().await?;
    for department in departments {
        let token = secret::token();
        let token_hash = secret::sha256(&token);
        if perform_unheard(store, now, department, InviteFirst { token_hash }).await? {
            return Ok(Some(token));
        }
    }
    Ok(None)
}

fn announce(address: SocketAddr, first: Option<&str>) -> std::io::Result<()> {
    let mut out = std::io::stdout().lock();
    writeln!(out, "Crestcount is at http://{address}/")?;
    if let Some(token) = first {
        writeln!(
            out,
            "Nobody has an account yet. Make the first one here (once, within a day):"
        )?;
        writeln!(out, "  http://{address}/staff/first/{token}")?;
    }
    out.flush()
}

async fn told_to_stop() {
    #[cfg(unix)]
    {
        use tokio::signal::unix::{SignalKind, signal};
        if let Ok(mut terminate) = signal(SignalKind::terminate()) {
            tokio::select! {
                _ = terminate.recv() => {}
                _ = tokio::signal::ctrl_c() => {}
            }
            return;
        }
    }
    let _ = tokio::signal::ctrl_c().await;
}
