//! Long work is done on threads of its own, and no connection is held for it.

use std::sync::mpsc;
use std::time::Duration;

use axum::body::Body;
use axum::http::Request;
use tokio::runtime::Builder;
use tokio::time::sleep;

use crate::support::TestApp;
use crate::upgrade::unpacked;

/// Long enough for any of these pages where nothing keeps it waiting.
const LONG: Duration = Duration::from_millis(700);

/// Asks while the one thread for long work is taken: the page has to wait for
/// it, every connection for reading is free meanwhile, and then it comes.
async fn waits(app: &TestApp, what: &str, request: Request<Body>) {
    let (open, gate) = mpsc::channel::<()>();
    let taken = tokio::task::spawn_blocking(move || gate.recv());
    let mut reply = std::pin::pin!(app.send(request));
    let meanwhile = async {
        sleep(LONG).await;
        let mut connections = Vec::new();
        for _ in 0..4 {
            connections.push(app.db().await);
        }
    };
    tokio::select! {
        reply = &mut reply => panic!("{what} did not wait: {}", reply.status),
        () = meanwhile => {}
    }
    open.send(()).unwrap();
    taken.await.unwrap().unwrap();
    assert_eq!(reply.await.status, 200, "{what}");
}

/// One thread for all that answers, and one for long work.
fn run(test: impl Future<Output = ()>) {
    let runtime = Builder::new_current_thread()
        .enable_all()
        .max_blocking_threads(1)
        .build();
    runtime.unwrap().block_on(test);
}

#[test]
fn pages_and_files_wait_for_their_work_without_a_connection() {
    run(async {
        let app = TestApp::on(unpacked()).await;
        let mut head = app.signed_in().await;
        // Judgements of single sheets are kept, the year's comparison is not.
        head.opens("/year/kits?year=2025").await;
        sleep(Duration::from_millis(200)).await;
        app.written().await;
        for page in [
            "/year/kits?year=2025",
            "/year/kits/2?year=2025",
            "/year/kits.csv?year=2025",
            "/year/workbook.xlsx?year=2025",
            "/class-sets/15/files/workbook.xlsx",
            "/moderation/3/anchors",
        ] {
            let mut db = app.sql().await;
            let forget = sqlx::query("DELETE FROM year_summary");
            forget.execute(&mut db).await.unwrap();
            let request = head.request("GET", page).body(Body::empty()).unwrap();
            waits(&app, page, request).await;
        }
    });
}

#[test]
fn file_that_is_taken_in_waits_without_a_connection() {
    run(async {
        let app = TestApp::on(unpacked()).await;
        let mut head = app.signed_in().await;
        let file =
            "group,method,row,dial,last_crest,span,span_unit\nA,ripple-tank,1,10,6,24.7,cm\n";
        let token = head.opens("/class-sets").await.hidden("token");
        let boxes = [("token", token.as_str())];
        let request = head.uploading("/class-sets/15/import", &boxes, Some(file.as_bytes()));
        waits(&app, "a preview", request).await;
    });
}
