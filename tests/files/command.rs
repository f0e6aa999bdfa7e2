//! `crestcount assess` as it is typed.

use std::fs;
use std::io::Write as _;
use std::path::Path;
use std::process::{Command, Output, Stdio};

use super::{THEIR_GROUPS, TWO_CLASSES, plainly};

/// Runs the program in a folder, with a text on its standard input.
fn crestcount(folder: &Path, arguments: &[&str], input: &str) -> Output {
    let mut child = Command::new(env!("CARGO_BIN_EXE_crestcount"))
        .arg("assess")
        .args(arguments)
        .current_dir(folder)
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

fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<_> = fs::read_dir(folder)
        .expect("a folder")
        .map(|entry| entry.expect("an entry").file_name())
        .map(|name| name.into_string().expect("text"))
        .collect();
    names.sort();
    names
}

#[test]
fn files_are_read_and_written() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path();
    fs::write(path.join("readings.csv"), TWO_CLASSES).expect("written");
    fs::write(path.join("flags.csv"), "old").expect("written");
    let arguments = [
        "readings.csv",
        "--flags",
        "flags.csv",
        "--groups",
        "groups.csv",
    ];
    let output = crestcount(path, &arguments, "");
    assert!(output.status.success(), "{}", said(&output));
    let flags = plainly().report.flags;
    assert_eq!(
        said(&output),
        format!("Classes: 2. Sheets: 9. Flags: {flags}.\n")
    );
    let read = |name| fs::read_to_string(path.join(name)).expect("a result");
    assert_eq!(read("flags.csv"), plainly().flags);
    assert_eq!(read("groups.csv"), THEIR_GROUPS);
    assert_eq!(names(path), ["flags.csv", "groups.csv", "readings.csv"]);
}

#[test]
fn standard_streams_are_read_and_written() {
    let folder = tempfile::tempdir().expect("a folder");
    let output = crestcount(
        folder.path(),
        &[
            "-",
            "--flags",
            "-",
            "--groups",
            "groups.csv",
            "--threads",
            "1",
        ],
        TWO_CLASSES,
    );
    assert!(output.status.success(), "{}", said(&output));
    assert_eq!(String::from_utf8_lossy(&output.stdout), plainly().flags);
    assert_eq!(names(folder.path()), ["groups.csv"]);
}

#[test]
fn bad_readings_leave_everything_as_it_was() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path();
    // The last line is wrong, when most has been written.
    let bad = TWO_CLASSES.replacen("41.2,m/s", "41.2,ft/s", 1);
    fs::write(path.join("READINGS.csv"), bad).expect("written");
    fs::write(path.join("flags.csv"), "old").expect("written");
    let arguments = [
        "READINGS.csv",
        "--flags",
        "flags.csv",
        "--groups",
        "groups.csv",
    ];
    let output = crestcount(path, &arguments, "");
    assert_eq!(output.status.code(), Some(2));
    assert_eq!(
        said(&output),
        "READINGS.csv: line 29, column speed_unit: “ft/s” is not a unit for this column. Use mm/s, cm/s, m/s.\n"
    );
    assert_eq!(names(path), ["READINGS.csv", "flags.csv"]);
    let old = fs::read_to_string(path.join("flags.csv")).expect("still there");
    assert_eq!(old, "old");
    // Nothing goes to a standard stream either.
    let bad = fs::read_to_string(path.join("READINGS.csv")).expect("there");
    let output = crestcount(path, &["-", "--flags", "-", "--groups", "g.csv"], &bad);
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
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path();
    fs::write(path.join("r.csv"), TWO_CLASSES).expect("written");
    for arguments in [
        ["r.csv", "--flags", "./r.csv", "--groups", "g.csv"],
        ["r.csv", "--flags", "f.csv", "--groups", "r.csv"],
        ["r.csv", "--flags", "f.csv", "--groups", "f.csv"],
        ["r.csv", "--flags", "f.csv", "--groups", "./f.csv"],
        ["r.csv", "--flags", "-", "--groups", "-"],
    ] {
        let output = crestcount(path, &arguments, "");
        assert_eq!(output.status.code(), Some(1), "{arguments:?}");
        assert_eq!(names(path), ["r.csv"], "{arguments:?}");
    }
    let kept = fs::read_to_string(path.join("r.csv")).expect("there");
    assert_eq!(kept, TWO_CLASSES);
}

#[test]
fn what_cannot_be_opened_is_said() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path();
    let missing = crestcount(
        path,
        &["none.csv", "--flags", "f.csv", "--groups", "g.csv"],
        "",
    );
    assert_eq!(missing.status.code(), Some(1));
    assert!(
        said(&missing).starts_with("none.csv: "),
        "{}",
        said(&missing)
    );
    let nowhere = crestcount(
        path,
        &["-", "--flags", "no/f.csv", "--groups", "g.csv"],
        TWO_CLASSES,
    );
    assert_eq!(nowhere.status.code(), Some(1));
    assert!(
        said(&nowhere).starts_with("no/f.csv: "),
        "{}",
        said(&nowhere)
    );
    assert!(names(path).is_empty(), "nothing was written");
}

#[cfg(unix)]
#[test]
fn a_device_is_written_to_and_a_link_is_followed() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path();
    fs::write(path.join("real.csv"), "old").expect("written");
    std::os::unix::fs::symlink("real.csv", path.join("link.csv")).expect("a link");
    let arguments = ["-", "--flags", "/dev/null", "--groups", "link.csv"];
    let output = crestcount(path, &arguments, TWO_CLASSES);
    assert!(output.status.success(), "{}", said(&output));
    let device = fs::metadata("/dev/null").expect("still there");
    assert!(!device.is_file(), "the device was replaced by a file");
    let real = fs::read_to_string(path.join("real.csv")).expect("there");
    assert_eq!(real, THEIR_GROUPS);
    assert!(
        fs::symlink_metadata(path.join("link.csv"))
            .expect("there")
            .is_symlink()
    );
}
