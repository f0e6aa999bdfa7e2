//! Walks in a real browser, against a server of the test's own.

use std::path::Path;
use std::process::Stdio;

use server::listener::serve;
use tokio::net::TcpListener;
use tokio::process::Command;
use tokio::sync::oneshot;

use super::{NAME, PASSWORD, TestApp};

/// What the walks need and this machine lacks.
fn lacking(folder: &Path) -> Option<&'static str> {
    let chromium = std::env::var("CHROMIUM").unwrap_or_else(|_| "/usr/bin/chromium".to_owned());
    if !Path::new(&chromium).exists() {
        return Some("there is no Chromium");
    }
    if !folder.join("node_modules/playwright-core").exists() {
        return Some("`npm ci` has not been run in tests/browser");
    }
    None
}

/// Runs a script of `tests/browser` against this application, with more for
/// it to know; fails with what it found. A machine without a browser is told
/// so, and CI must have one.
#[expect(clippy::print_stderr, reason = "a test that did not run must say so")]
pub(crate) async fn walk(app: &TestApp, script: &str, known: &[(&str, &str)]) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/browser");
    if let Some(reason) = lacking(&folder) {
        assert!(
            std::env::var_os("CI").is_none(),
            "{script} must run here, but {reason}"
        );
        eprintln!("SKIPPED: {script}: {reason}");
        return;
    }
    let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
    let address = listener.local_addr().unwrap();
    let (end, ended) = oneshot::channel::<()>();
    let serving = tokio::spawn(serve(listener, app.router.clone(), async {
        let _ = ended.await;
    }));
    let walk = Command::new("node")
        .arg(script)
        .current_dir(&folder)
        .env("CRESTCOUNT_URL", format!("http://{address}"))
        .env("CRESTCOUNT_STAFF", NAME)
        .env("CRESTCOUNT_PASSWORD", PASSWORD)
        .envs(known.iter().copied())
        .stdin(Stdio::null())
        .output()
        .await
        .unwrap();
    end.send(()).unwrap();
    serving.await.unwrap();
    assert!(
        walk.status.success(),
        "{script} found:\n{}{}",
        String::from_utf8_lossy(&walk.stdout),
        String::from_utf8_lossy(&walk.stderr)
    );
}
