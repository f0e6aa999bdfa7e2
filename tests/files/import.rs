//! A file that was chosen, and what is said of it before anything is kept.

use crate::bench_sheet::revisions;
use crate::support::{Group, Lesson, Reply};

/// A file of two groups as somebody types it in a spreadsheet.
const FILE: &str = "group;method;kit;row;dial;last_crest;span;span_unit;scale_image;scale_image_unit;scale_true;scale_true_unit;left_out
A;ripple-tank;Tank 3;1;10;6;24,7;cm;14,0;cm;8,0;cm;
A;ripple-tank;;2;20;9;19.6;;;;;;yes
Z;ripple-tank;;1;10;6;24.9;cm;;;;;
";

/// What the one row of a table says that begins with these cells.
fn row(page: &Reply, begins: [&str; 2]) -> String {
    let rows = page.page().all("tbody tr");
    let mut rows = rows.iter().filter(|row| row.cells()[..2] == begins);
    let row = rows.next().unwrap_or_else(|| panic!("{begins:?}"));
    assert!(rows.next().is_none(), "{begins:?}");
    row.words()
}

#[tokio::test]
async fn preview_says_line_by_line_what_was_understood_and_keeps_nothing() {
    let mut at = Lesson::new().await;
    let page = at.previews(FILE).await.expect(200);
    let page = page
        .says("The fields are separated by semicolons.")
        .says("A comma in a figure is its decimal point (3, first in line 2, column span).")
        .says("A blank first number called is nought (3, first in line 2, column first_crest).")
        .says_nothing_of("as deep as in most tanks");
    assert_eq!(page.count("This bench has stored nothing yet."), 1);
    let page = page
        .says("There is no bench Z.")
        .says("Keep these readings for group A")
        .says("Add bench Z and keep these readings");
    page.at("[name='take.A'][value=yes][checked]");
    page.at("[name='take.Z'][value=yes]:not([checked])");
    let line = row(&page, ["2", "1"]);
    for words in [
        "kit: Tank 3",
        "length of the object on the screen: 14,0 cm (read as 14)",
        "dial: 10 Hz",
        "number at the far end: 6",
        "distance between the crests: 24,7 cm (read as 24.7)",
    ] {
        assert!(line.contains(words), "{words}: {line}");
    }
    let line = row(&page, ["3", "2"]);
    for words in [
        "19.6 (no unit given: read as cm)",
        "left out by the group as an anomaly",
    ] {
        assert!(line.contains(words), "{words}: {line}");
    }
    assert_eq!(revisions(&at.app).await, 0);
}

#[tokio::test]
async fn preview_tells_what_would_change_from_what_is_the_same() {
    let mut at = Lesson::new().await;
    for label in ["A", "B"] {
        at.hands_in(&Group::CAREFUL, label).await;
    }
    let readings = at.url("/files/readings.csv");
    let file = at.teacher.opens(&readings).await.text;
    // The first span of B alone.
    let from = file.rfind("22.4").unwrap();
    let changed = format!("{}25.4{}", &file[..from], &file[from + 4..]);
    let page = at.previews(&changed).await.expect(200);
    let page = page
        .says("1 group has stored just this.")
        .says("1 group has stored something else");
    let page = page.page();
    let a = page.with("section", "Nothing would change.");
    assert_eq!(a.at("h2").words(), "Group A");
    a.lacks("[name^='take.']");
    let b = page.with("section", "these readings would be version 2");
    assert_eq!(b.at("h2").words(), "Group B");
    let [changed] = &b.at("table").all("tbody tr")[..] else {
        panic!("{}", b.html());
    };
    assert_eq!(changed.cells()[1..], ["22.4 cm", "25.4 cm"]);
}

#[tokio::test]
async fn file_with_faults_is_refused_with_every_one_of_them() {
    let mut at = Lesson::new().await;
    let file = "group,method,row,dial,last_crest,span,span_unit,kit,left_out
A,ripple-tank,1,10,6,24.7,furlong,,maybe
A,ripple-tank,2,ten,6,24.7,cm,,
A,ripple-tank,2,10,6,24.7,cm,,
A,ripple-tank,4,10
,ripple-tank,1,10,6,24.7,cm,,
B,ripple-tank,1,10,6.5,-3,cm,A kit with a label that goes on and on and on and on,
B,slinky,1,10,6,24.7,cm,,
";
    let page = at.previews(file).await.expect(422);
    let page = page.says("Nothing was kept.").says("choose the file again");
    for (line, column, words) in [
        (2, "span_unit", "not a unit for this column"),
        (2, "left_out", "yes, no or blank"),
        (3, "dial", "not a number"),
        (4, "row", "in line 3 already"),
        (
            5,
            "(whole line)",
            "4 fields here where the header line has 9",
        ),
        (6, "group", "blank"),
        (7, "last_crest", "whole number"),
        (7, "span", "negative"),
        (7, "kit", "at most 40 characters"),
        (8, "method", "not a method"),
    ] {
        let what = row(&page, [&line.to_string(), column]);
        assert!(what.contains(words), "{words}: {what}");
    }
    page.says("these 10 places").says("name=\"file\"");
    assert_eq!(revisions(&at.app).await, 0);
}

#[tokio::test]
async fn what_is_no_readings_file_is_told_where_it_stops_to_be_one() {
    let mut at = Lesson::new().await;
    let path = at.url("/import");
    for (file, words) in [
        (&b"name,mark\nAnn,3\n"[..], "no column of this name"),
        (
            b"group,method,row,kit\nA,ripple-tank,1,caf\xe9\n",
            "not UTF-8 text",
        ),
        (b"\xff\xfeg\0r\0o\0u\0p\0", "not UTF-8 text"),
        (
            b"group,method\nA,ripple-tank\n",
            "must be there, and is not",
        ),
        (b"\n", "empty"),
    ] {
        let page = at.teacher.upload(&path, &[], Some(file)).await.expect(422);
        page.says("cannot be taken in")
            .says("Nothing was kept.")
            .says(words);
    }
}

#[tokio::test]
async fn form_without_a_file_or_with_too_long_a_one_says_so_beside_the_box() {
    let mut at = Lesson::new().await;
    let path = at.url("/import");
    let page = at.teacher.upload(&path, &[], None).await.expect(422);
    page.says("id=\"file-error\">Choose a file first.");
    let long = vec![b'a'; 2 * 1024 * 1024 + 1];
    let page = at.teacher.upload(&path, &[], Some(&long)).await.expect(422);
    page.says("longer than 2 MB");
    let endless = vec![b'a'; 5 * 1024 * 1024];
    at.teacher
        .upload(&path, &[], Some(&endless))
        .await
        .expect(413);
}

#[tokio::test]
async fn only_staff_with_a_form_of_their_own_session_take_files_in() {
    let mut at = Lesson::new().await;
    let (path, file) = (at.url("/import"), Some(FILE.as_bytes()));
    let nobody = at.app.browser().send_upload(&path, &[], file).await;
    assert_eq!(nobody.expect(303).location(), "/staff/sign-in");
    let forged = [("token", "another")];
    at.teacher
        .send_upload(&path, &forged, file)
        .await
        .expect(403);
    at.teacher.send_upload(&path, &[], file).await.expect(403);
    let plain = [("file", FILE)];
    at.teacher.post_staff(&path, &plain).await.expect(400);
    let elsewhere = "/class-sets/9/import";
    at.teacher.upload(elsewhere, &[], file).await.expect(404);
    let again = at.teacher.get(&path).await.expect(303);
    assert_eq!(again.location(), at.url("/files"));
}
