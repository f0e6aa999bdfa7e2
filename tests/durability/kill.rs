use std::collections::BTreeSet;
use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::net::{SocketAddr, TcpStream};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;
use std::time::{Duration, Instant};

use analysis::field::Field;
use server::db::{Lock, Store, bench, class_set, revision};

use super::ready;
use crate::support::{DEPARTMENT, Part, sql};

/// Benches that hand in at the same time.
const GROUPS: [&str; 8] = ["A", "B", "C", "D", "E", "F", "G", "H"];

/// The program itself, killed at the latest when the test ends.
pub(super) struct Program {
    pub(super) process: Child,
    pub(super) address: SocketAddr,
}

impl Program {
    pub(super) fn start(data: &Path) -> Self {
        let mut process = Command::new(env!("CARGO_BIN_EXE_crestcount"))
            .args(["--address", "127.0.0.1", "--port", "0", "--data"])
            .arg(data)
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let mut line = String::new();
        let out = process.stdout.take().unwrap();
        BufReader::new(out).read_line(&mut line).unwrap();
        let address = line
            .trim()
            .trim_start_matches("Crestcount is at http://")
            .trim_end_matches('/');
        let address = address.parse().unwrap_or_else(|_| panic!("{line:?}"));
        Self { process, address }
    }
}

impl Drop for Program {
    fn drop(&mut self) {
        // SIGKILL: no handler of the program's runs.
        let _ = self.process.kill();
        let _ = self.process.wait();
    }
}

/// One request on a connection of its own; `None` once the program is gone.
fn ask(address: SocketAddr, head: &str, body: &str) -> Option<String> {
    let mut stream = TcpStream::connect(address).ok()?;
    let request = format!(
        "{head}\r\nhost: {address}\r\nconnection: close\r\ncontent-length: {}\r\n\r\n{body}",
        body.len()
    );
    stream.write_all(request.as_bytes()).ok()?;
    let mut reply = String::new();
    stream.read_to_string(&mut reply).ok()?;
    (!reply.is_empty()).then_some(reply)
}

/// Hands in one dial reading; the reply, or `None` once the program is gone.
pub(super) fn hand_in(address: SocketAddr, code: &str, label: &str, dial: usize) -> Option<String> {
    let cookie = format!("cookie: visit={}", ready::cookie(label));
    let path = format!("/c/{code}/{label}");
    let page = ask(address, &format!("GET {path} HTTP/1.1\r\n{cookie}"), "")?;
    let draft = Part::page(&page).value("draft");
    let head = format!(
        "POST {path} HTTP/1.1\r\n{cookie}\r\norigin: http://{address}\r\n\
         content-type: application/x-www-form-urlencoded"
    );
    let body = format!("draft={draft}&act=hand_in&r1.dial={dial}");
    ask(address, &head, &body)
}

/// Hands in one dial reading after the other until the program is gone; the
/// readings whose hand-in was acknowledged.
fn hand_in_for_ever(
    address: SocketAddr,
    code: &str,
    label: &str,
    acknowledged: &AtomicUsize,
) -> BTreeSet<usize> {
    let mut kept = BTreeSet::new();
    for dial in 1.. {
        let Some(reply) = hand_in(address, code, label, dial) else {
            break;
        };
        if !reply.starts_with("HTTP/1.1 303") {
            // Cut off in the middle of the reply's first line, or refused.
            assert!("HTTP/1.1 303".starts_with(&reply), "{reply}");
            break;
        }
        kept.insert(dial);
        acknowledged.fetch_add(1, Ordering::Relaxed);
    }
    kept
}

/// The readings on the sheets of each bench, whatever their version.
pub(super) async fn stored(store: &Store, code: &str, label: &str) -> BTreeSet<usize> {
    let mut db = store.reader(DEPARTMENT).await.unwrap();
    let set = class_set::find_by_code(&mut db, code)
        .await
        .unwrap()
        .unwrap();
    let bench = bench::find(&mut db, set.id, label).await.unwrap().unwrap();
    let mut revisions = Vec::new();
    for past in revision::list_past(&mut db, bench.sheet_id).await.unwrap() {
        let found = revision::find_version(&mut db, bench.sheet_id, past.version).await;
        revisions.push(found.unwrap().unwrap());
    }
    assert_eq!(
        usize::try_from(bench.version).unwrap(),
        revisions.len(),
        "no version is missing"
    );
    revisions
        .iter()
        .map(|r| {
            r.entry.sheet.rows[0].cells[&Field::Dial]
                .text
                .parse()
                .unwrap()
        })
        .collect()
}

#[tokio::test]
async fn killed_program_has_kept_every_hand_in_that_it_acknowledged() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().join("data.db");
    let groups = u8::try_from(GROUPS.len()).unwrap();
    let code = ready::class_set(&data, groups).await;
    let program = Program::start(&data);
    let acknowledged = Arc::new(AtomicUsize::new(0));
    let clients = GROUPS.map(|label| {
        let (address, code, count) = (program.address, code.clone(), Arc::clone(&acknowledged));
        thread::spawn(move || hand_in_for_ever(address, &code, label, &count))
    });

    let started = Instant::now();
    // A second; longer only where the machine is too busy for a fair trial.
    while started.elapsed() < Duration::from_secs(1)
        || (acknowledged.load(Ordering::Relaxed) < 50 && started.elapsed() < Duration::from_mins(1))
    {
        thread::sleep(Duration::from_millis(10));
    }
    drop(program);
    let kept = clients.map(|client| client.join().unwrap());
    assert!(
        acknowledged.load(Ordering::Relaxed) >= 50,
        "hardly anything was handed in: {kept:?}"
    );

    let _lock = Lock::take(&data).unwrap();
    let (store, _writing) = server::acts::open(&data).await.unwrap();
    for (label, kept) in GROUPS.iter().zip(kept) {
        let stored = stored(&store, &code, label).await;
        let lost: Vec<_> = kept.difference(&stored).collect();
        assert!(lost.is_empty(), "bench {label} lost {lost:?} of {kept:?}");
    }
    let check: String = sqlx::query_scalar("PRAGMA integrity_check")
        .fetch_one(&mut sql(&data).await)
        .await
        .unwrap();
    assert_eq!(check, "ok");
}
