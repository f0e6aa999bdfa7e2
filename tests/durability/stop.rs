//! The README's way of backing up: stop the program, copy the one file.

use std::collections::BTreeSet;
use std::process::Command;

use server::db::Store;

use super::kill::{Program, hand_in, stored};
use super::ready;

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
    let told = Command::new("kill")
        .args(["-TERM", &program.process.id().to_string()])
        .status()
        .unwrap();
    assert!(told.success(), "the signal is sent");
    assert!(program.process.wait().unwrap().success(), "an orderly end");

    let copy = folder.path().join("copy.db");
    std::fs::copy(&data, &copy).unwrap();
    let (store, _writing) = Store::open(&copy).await.unwrap();
    assert_eq!(stored(&store, &code, "A").await, BTreeSet::from([11, 12]));
}
