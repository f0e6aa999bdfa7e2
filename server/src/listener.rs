//! Accepting connections: with a limit on how many, on how long a browser may
//! take over its headers, and with an orderly end.

use std::future::Future;
use std::sync::Arc;
use std::time::Duration;

use axum::Router;
use hyper::server::conn::http1;
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::server::graceful::GracefulShutdown;
use hyper_util::service::TowerToHyperService;
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::{OwnedSemaphorePermit, Semaphore, watch};

/// Most connections at once; more wait in the operating system's queue.
const MOST_CONNECTIONS: usize = 1024;
/// A request's headers must be complete within this.
const HEADER_TIME: Duration = Duration::from_secs(10);
/// Requests under way at the end get this long to finish.
const LAST_REQUESTS: Duration = Duration::from_secs(20);

/// Serves until `end` resolves and the requests under way are answered. What
/// is not answered in time is cut, and lets go of the application.
pub async fn serve(listener: TcpListener, app: Router, end: impl Future<Output = ()>) {
    let places = Arc::new(Semaphore::new(MOST_CONNECTIONS));
    let graceful = GracefulShutdown::new();
    let (cut, uncut) = watch::channel(());
    let mut end = std::pin::pin!(end);
    loop {
        tokio::select! {
            accepted = accept(&listener, &places) => match accepted {
                Ok((stream, place)) => attend(stream, place, app.clone(), &graceful, uncut.clone()),
                Err(error) => {
                    // Out of file handles, most likely: give some back first.
                    tracing::warn!(%error, "a connection could not be accepted");
                    tokio::time::sleep(Duration::from_millis(200)).await;
                }
            },
            () = &mut end => break,
        }
    }
    drop(listener);
    if tokio::time::timeout(LAST_REQUESTS, graceful.shutdown())
        .await
        .is_err()
    {
        tracing::warn!("some connections were cut");
    }
    // A browser that never reads its answer would hold the application, and
    // with it the data file, for ever.
    drop(cut);
}

async fn accept(
    listener: &TcpListener,
    places: &Arc<Semaphore>,
) -> std::io::Result<(TcpStream, OwnedSemaphorePermit)> {
    let place = Arc::clone(places)
        .acquire_owned()
        .await
        .map_err(std::io::Error::other)?;
    let (stream, _) = listener.accept().await?;
    Ok((stream, place))
}

fn attend(
    stream: TcpStream,
    place: OwnedSemaphorePermit,
    app: Router,
    graceful: &GracefulShutdown,
    mut uncut: watch::Receiver<()>,
) {
    let connection = http1::Builder::new()
        .timer(TokioTimer::new())
        .header_read_timeout(HEADER_TIME)
        .serve_connection(TokioIo::new(stream), TowerToHyperService::new(app));
    let connection = graceful.watch(connection);
    tokio::spawn(async move {
        tokio::select! {
            ended = connection => if let Err(error) = ended {
                tracing::debug!(%error, "a connection ended early");
            },
            // Nothing is ever sent: this ends when the other side is dropped.
            _ = uncut.changed() => {}
        }
        drop(place);
    });
}
