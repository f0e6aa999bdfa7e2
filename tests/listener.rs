//! The listener on a real socket.

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
