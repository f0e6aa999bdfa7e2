//! The README's way of backing up: stop the program, copy the one file.

use std::collections::BTreeSet;
use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::net::TcpStream;
use std::process::Command;
use std::time::{Duration, Instant};

use super::kill::{Program, hand_in, stored};
use super::ready;

fn tell_to_stop(program: &Program) {
    let told = Command::new("kill")
        .args(["-TERM", &program.process.id().to_string()])
        .status()
        .unwrap();
    assert!(told.success(), "the signal is sent");
}

#[tokio::test]
async fn data_file_of_a_program_that_was_told_to_stop_is_whole_by_itself() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().join("data.db");
    let code = ready::class_set(&data, 1).await;
    let mut program = Program::start(&data);
    for dial in [11, 12] {
        let reply = hand_in(program.address, &code, "A", dial).unwrap();
        assert!(reply.starts_with("HTTP/1.1 303"), "{reply}");
    }
    tell_to_stop(&program);
    assert!(program.process.wait().unwrap().success(), "an orderly end");

    let copy = folder.path().join("copy.db");
    std::fs::copy(&data, &copy).unwrap();
    let (store, _writing) = server::acts::open(&copy).await.unwrap();
    assert_eq!(stored(&store, &code, "A").await, BTreeSet::from([11, 12]));
}

/// A page that listens to a lesson has a request under way for as long as it
/// is open; requests under way get twenty seconds at the end.
#[tokio::test]
async fn program_that_is_told_to_stop_does_not_wait_for_open_pages() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().join("data.db");
    ready::class_set(&data, 1).await;
    let mut program = Program::start(&data);
    let mut page = TcpStream::connect(program.address).unwrap();
    page.set_read_timeout(Some(Duration::from_secs(60)))
        .unwrap();
    let cookie = format!("sid={}", ready::SESSION);
    let address = "/class-sets/1/room/changes?since=0";
    let request = format!("GET {address} HTTP/1.1\r\nhost: lab.test\r\ncookie: {cookie}\r\n\r\n");
    page.write_all(request.as_bytes()).unwrap();
    let mut reply = String::new();
    let mut lines = BufReader::new(page);
    while !reply.contains("event: changed") {
        assert!(lines.read_line(&mut reply).unwrap() > 0, "{reply}");
    }

    let told_at = Instant::now();
    tell_to_stop(&program);
    lines.read_to_string(&mut reply).unwrap();
    assert!(
        reply.ends_with("0\r\n\r\n"),
        "the stream has its end: {reply}"
    );
    assert!(program.process.wait().unwrap().success(), "an orderly end");
    let took = told_at.elapsed();
    assert!(took < Duration::from_secs(10), "it took {took:?}");
}
