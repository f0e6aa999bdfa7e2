//! The listener on a real socket.

use std::sync::Arc;

use axum::Router;
use axum::body::Body;
use axum::routing::get;
use server::listener::serve;
use tokio::io::{AsyncReadExt as _, AsyncWriteExt as _};
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::oneshot;

use crate::support::TestApp;

#[tokio::test]
async fn answers_until_told_to_end_and_then_lets_go_of_the_port() {
    let app = TestApp::new().await;
    let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
    let address = listener.local_addr().unwrap();
    let (end, ended) = oneshot::channel::<()>();
    let serving = tokio::spawn(serve(listener, app.router.clone(), async {
        let _ = ended.await;
    }));

    let mut stream = TcpStream::connect(address).await.unwrap();
    let request = b"GET /privacy HTTP/1.1\r\nhost: lab.test\r\n\r\n";
    stream.write_all(request).await.unwrap();
    let mut first = [0; 15];
    stream.read_exact(&mut first).await.unwrap();
    assert_eq!(&first, b"HTTP/1.1 200 OK");

    end.send(()).unwrap();
    serving.await.unwrap();
    assert!(TcpStream::connect(address).await.is_err(), "nobody listens");
}

/// A browser that stops reading must not keep the program, or the data file,
/// from being closed. (Time is the runtime's own: it jumps ahead when nothing
/// else is left to do.)
#[tokio::test(start_paused = true)]
async fn browser_that_never_reads_its_answer_is_cut_in_the_end() {
    let held = Arc::new(());
    let watched = Arc::downgrade(&held);
    let answer = get(async move || {
        let _kept = &held;
        Body::from(vec![0; 64 << 20])
    });
    let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
    let address = listener.local_addr().unwrap();
    let (end, ended) = oneshot::channel::<()>();
    let app = Router::new().route("/", answer);
    let serving = tokio::spawn(serve(listener, app, async {
        let _ = ended.await;
    }));

    let mut stream = TcpStream::connect(address).await.unwrap();
    stream
        .write_all(b"GET / HTTP/1.1\r\nhost: lab.test\r\n\r\n")
        .await
        .unwrap();
    let mut first = [0; 15];
    stream.read_exact(&mut first).await.unwrap();
    end.send(()).unwrap();
    serving.await.unwrap();
    for _ in 0..100 {
        tokio::task::yield_now().await;
    }
    assert!(watched.upgrade().is_none(), "the application is let go");
}
