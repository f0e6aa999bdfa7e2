//! Accepting connections: with a limit on how many, on how long a browser may
//! take over its headers, and with an orderly end.

use std::future::Future;
use std::time::Duration;

use axum::Router;
use hyper::server::conn::http1;
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::server::graceful::GracefulShutdown;
use hyper_util::service::TowerToHyperService;
use tokio::net::{TcpListener, TcpStream};
use tokio::task::JoinSet;
use tokio::time::{sleep, timeout};

/// Most connections at once; more wait in the operating system's queue.
const MOST_CONNECTIONS: usize = 1024;
/// A request's headers must be complete within this.
const HEADER_TIME: Duration = Duration::from_secs(10);
/// Requests under way at the end get this long to finish.
const LAST_REQUESTS: Duration = Duration::from_secs(20);

/// Serves until `end` resolves and the requests under way are answered.
///
/// What is not answered in time is cut: a browser that never reads its answer
/// would hold the application, and with it the data file, for ever.
pub async fn serve(listener: TcpListener, app: Router, end: impl Future<Output = ()>) {
    let mut connections = JoinSet::new();
    let graceful = GracefulShutdown::new();
    let mut end = std::pin::pin!(end);
    loop {
        tokio::select! {
            accepted = listener.accept(), if connections.len() < MOST_CONNECTIONS => match accepted {
                Ok((stream, _)) => {
                    connections.spawn(attend(stream, app.clone(), &graceful));
                }
                Err(error) => {
                    // Out of file handles, most likely: give some back first.
                    tracing::warn!(%error, "a connection could not be accepted");
                    sleep(Duration::from_millis(200)).await;
                }
            },
            Some(_) = connections.join_next() => {}
            () = &mut end => break,
        }
    }
    drop(listener);
    if timeout(LAST_REQUESTS, graceful.shutdown()).await.is_err() {
        tracing::warn!("some connections were cut");
    }
    connections.shutdown().await;
}

/// Returns the work of one connection, which ends early when `graceful` does.
fn attend(
    stream: TcpStream,
    app: Router,
    graceful: &GracefulShutdown,
) -> impl Future<Output = ()> + use<> {
    let connection = http1::Builder::new()
        .timer(TokioTimer::new())
        .header_read_timeout(HEADER_TIME)
        .serve_connection(TokioIo::new(stream), TowerToHyperService::new(app));
    let connection = graceful.watch(connection);
    async move {
        if let Err(error) = connection.await {
            tracing::debug!(%error, "a connection ended early");
        }
    }
}
