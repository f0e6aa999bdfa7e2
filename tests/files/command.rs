//! `crestcount assess` as it is typed.

use std::fs;
use std::io::Write as _;
use std::process::{Command, Output, Stdio};

use tempfile::TempDir;

use super::{THEIR_GROUPS, TWO_CLASSES, plainly};

/// A folder with these files in it.
fn folder(files: &[(&str, &str)]) -> TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    for (name, text) in files {
        fs::write(folder.path().join(name), text).expect("written");
    }
    folder
}

fn read(folder: &TempDir, name: &str) -> String {
    fs::read_to_string(folder.path().join(name)).expect(name)
}

/// Runs the program in a folder, with a text on its standard input; its
/// arguments stand apart by a blank.
fn crestcount(folder: &TempDir, arguments: &str, input: &str) -> Output {
    let mut child = Command::new(env!("CARGO_BIN_EXE_crestcount"))
        .arg("assess")
        .args(arguments.split(' '))
        .current_dir(folder.path())
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program starts");
    let mut stdin = child.stdin.take().expect("a pipe");
    // It may refuse its arguments before it reads.
    let _ = stdin.write_all(input.as_bytes());
    drop(stdin);
    child.wait_with_output().expect("the program ends")
}

fn said(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).expect("text")
}

fn names(folder: &TempDir) -> Vec<String> {
    let mut names: Vec<_> = fs::read_dir(folder.path())
        .expect("a folder")
        .map(|entry| entry.expect("an entry").file_name())
        .map(|name| name.into_string().expect("text"))
        .collect();
    names.sort();
    names
}

#[test]
fn files_are_read_and_written() {
    let folder = folder(&[("readings.csv", TWO_CLASSES), ("flags.csv", "old")]);
    let arguments = "readings.csv --flags flags.csv --groups groups.csv";
    let output = crestcount(&folder, arguments, "");
    assert!(output.status.success(), "{}", said(&output));
    let flags = plainly().report.flags;
    assert_eq!(
        said(&output),
        format!("Classes: 2. Sheets: 9. Flags: {flags}.\n")
    );
    assert_eq!(read(&folder, "flags.csv"), plainly().flags);
    assert_eq!(read(&folder, "groups.csv"), THEIR_GROUPS);
    assert_eq!(names(&folder), ["flags.csv", "groups.csv", "readings.csv"]);
}

#[test]
fn standard_streams_are_read_and_written() {
    let folder = folder(&[]);
    let arguments = "- --flags - --groups groups.csv --threads 1";
    let output = crestcount(&folder, arguments, TWO_CLASSES);
    assert!(output.status.success(), "{}", said(&output));
    assert_eq!(String::from_utf8_lossy(&output.stdout), plainly().flags);
    assert_eq!(names(&folder), ["groups.csv"]);
}

#[test]
fn bad_readings_leave_everything_as_it_was() {
    // The last line is wrong, when most has been written.
    let bad = TWO_CLASSES.replacen("41.2,m/s", "41.2,ft/s", 1);
    let folder = folder(&[("READINGS.csv", &bad), ("flags.csv", "old")]);
    let arguments = "READINGS.csv --flags flags.csv --groups groups.csv";
    let output = crestcount(&folder, arguments, "");
    assert_eq!(output.status.code(), Some(2));
    assert_eq!(
        said(&output),
        "READINGS.csv: line 29, column speed_unit: “ft/s” is not a unit for this column. Use mm/s, cm/s, m/s.\n"
    );
    assert_eq!(names(&folder), ["READINGS.csv", "flags.csv"]);
    assert_eq!(read(&folder, "flags.csv"), "old");
    // Nothing goes to a standard stream either.
    let output = crestcount(&folder, "- --flags - --groups g.csv", &bad);
    assert_eq!(output.status.code(), Some(2));
    assert!(output.stdout.is_empty(), "half of the flags were written");
    assert!(
        said(&output).starts_with("standard input: line 29, "),
        "{}",
        said(&output)
    );
}

#[test]
fn results_never_go_over_the_readings_or_each_other() {
    let folder = folder(&[("r.csv", TWO_CLASSES)]);
    for arguments in [
        "r.csv --flags ./r.csv --groups g.csv",
        "r.csv --flags f.csv --groups r.csv",
        "r.csv --flags f.csv --groups f.csv",
        "r.csv --flags f.csv --groups ./f.csv",
        "r.csv --flags - --groups -",
    ] {
        let output = crestcount(&folder, arguments, "");
        assert_eq!(output.status.code(), Some(1), "{arguments}");
        assert_eq!(names(&folder), ["r.csv"], "{arguments}");
    }
    assert_eq!(read(&folder, "r.csv"), TWO_CLASSES);
}

#[test]
fn what_cannot_be_opened_is_said() {
    let folder = folder(&[]);
    for (arguments, input, says) in [
        ("none.csv --flags f.csv --groups g.csv", "", "none.csv: "),
        (
            "- --flags no/f.csv --groups g.csv",
            TWO_CLASSES,
            "no/f.csv: ",
        ),
    ] {
        let output = crestcount(&folder, arguments, input);
        assert_eq!(output.status.code(), Some(1), "{arguments}");
        assert!(said(&output).starts_with(says), "{}", said(&output));
    }
    assert!(names(&folder).is_empty(), "nothing was written");
}

#[cfg(unix)]
#[test]
fn a_device_is_written_to_and_a_link_is_followed() {
    let folder = folder(&[("real.csv", "old")]);
    let link = folder.path().join("link.csv");
    std::os::unix::fs::symlink("real.csv", &link).expect("a link");
    let arguments = "- --flags /dev/null --groups link.csv";
    let output = crestcount(&folder, arguments, TWO_CLASSES);
    assert!(output.status.success(), "{}", said(&output));
    let device = fs::metadata("/dev/null").expect("still there");
    assert!(!device.is_file(), "the device was replaced by a file");
    assert_eq!(read(&folder, "real.csv"), THEIR_GROUPS);
    let link = fs::symlink_metadata(link).expect("there");
    assert!(link.is_symlink());
}
