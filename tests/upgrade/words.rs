//! Sentences that the program once kept, and what is kept in their place.

use std::path::Path;

use super::unpacked;
use crate::support::{TestApp, sql};

/// What an event kept, and what it keeps now.
const EVENTS: [(&str, &str, &str); 22] = [
    ("set_made", "live pages off", r#"{"live":false}"#),
    (
        "initials_kept",
        "until 2027-08-31",
        r#"{"until":"2027-08-31"}"#,
    ),
    ("initials_blanked", "of 12 pupils", r#"{"pupils":12}"#),
    (
        "help_set",
        "live pages off, look again: point",
        r#"{"live":false,"look_again":"point"}"#,
    ),
    (
        "thresholds_set",
        "bench 85 %, summary 40 %",
        r#"{"bench":85,"summary":40}"#,
    ),
    (
        "register_kept",
        "present 24, absent 2, caught up 1",
        r#"{"absent":2,"caught_up":1,"present":24}"#,
    ),
    (
        "readings_imported",
        "A (version 2), E (new bench), F (version 12)",
        r#"[["A",2],["E",null],["F",12]]"#,
    ),
    ("readings_imported", "E (new bench)", r#"[["E",null]]"#),
    (
        "scheme_saved",
        "Ours, version 3, version 12",
        r#"{"name":"Ours, version 3","version":12}"#,
    ),
    (
        "scheme_chosen",
        "Ours, version 1",
        r#"{"name":"Ours","version":1}"#,
    ),
    (
        "sample_sizes_set",
        "up to 20: 6; up to 50: all; up to any: all",
        "[[20,6],[50,null],[null,null]]",
    ),
    (
        "round_made",
        "round 3: A, seed b, seed c: d",
        r#"{"round":3}"#,
    ),
    (
        "anchors_picked",
        "round 3: 4 sheets",
        r#"{"round":3,"sheets":4}"#,
    ),
    (
        "ruling_written",
        "round 3, point 7",
        r#"{"point":7,"round":3}"#,
    ),
    (
        "sample_drawn",
        "round 3, seed four crests: 2/D 1/C",
        r#"{"round":3,"sheets":"2/D 1/C"}"#,
    ),
    (
        "second_marks_shown",
        "round 3, before these had finished: Mr Tarn, Mrs Gill",
        r#"{"round":3,"unfinished":["Mr Tarn","Mrs Gill"]}"#,
    ),
    (
        "settled",
        "round 3, settlement 9",
        r#"{"round":3,"settlement":9}"#,
    ),
    (
        "round_closed",
        "round 3, with work left",
        r#"{"is_pending":true,"round":3}"#,
    ),
    ("record_entry", "round 3", r#"{"round":3}"#),
    // Names stay, and so does what the program did not write in this shape.
    ("kit_added", "round 3", "round 3"),
    ("readings_imported", "A, as I was told", "A, as I was told"),
    (
        "sample_drawn",
        "round 3, seed another: 2/D",
        "round 3, seed another: 2/D",
    ),
];

#[tokio::test]
async fn events_keep_facts() {
    let folder = unpacked();
    let mut db = sql(&folder.path().join("data.db")).await;
    let insert = "INSERT INTO event (at, what, detail) VALUES (7, $1, $2)";
    for (what, said, _) in EVENTS {
        let row = sqlx::query(insert).bind(what).bind(said);
        row.execute(&mut db).await.unwrap();
    }
    let app = TestApp::on(folder).await;
    let kept = "SELECT detail FROM event WHERE at = 7 ORDER BY id";
    let kept: Vec<String> = app.values(kept).await;
    assert_eq!(kept, EVENTS.map(|(_, _, facts)| facts));
    let words =
        "SELECT detail FROM event WHERE detail LIKE '%, %' AND NOT json_valid(detail) AND at <> 7";
    let words: Vec<String> = app.values(words).await;
    assert!(words.is_empty(), "{words:?}");
}

/// What a mark kept that the pair of round 2 agreed.
const AGREED: &str = "Agreed in the moderation round Autumn: both too mild";

/// Adds a settlement of a sheet, the mark that it gave, and two marks after it:
/// one that says the same, as after an undoing, and one of a marker's own.
async fn settle(path: &Path) {
    let mut db = sql(path).await;
    for statement in [
        "INSERT INTO settlement (id, round_id, round_sheet_id, point_key, kind, agreed, last_mark_id, reason, staff_id, at)
            SELECT 90, 2, min(id), 1, 'agreed', 1, 0, 'both too mild', 1, 1 FROM round_sheet WHERE round_id = 2 AND kind = 'sample'",
        "INSERT INTO mark (id, sheet_id, marking_point_id, awarded, reason, act, staff_id, marked_at)
            SELECT 900 + said.place, sheet_id, 1, 1, words, printf('00000000-0000-4000-8000-9%011d', said.place), 1, 1
            FROM (SELECT 1 AS place, 'Agreed in the moderation round Autumn: both too mild' AS words
                  UNION SELECT 2, 'Agreed in the moderation round Autumn: or so'
                  UNION SELECT 3, 'Agreed in the moderation round Autumn: both too mild') AS said
            JOIN settlement ON settlement.id = 90 JOIN round_sheet ON round_sheet.id = round_sheet_id",
        "INSERT INTO settled_mark (mark_id, settlement_id) VALUES (901, 90)",
    ] {
        sqlx::query(statement).execute(&mut db).await.unwrap();
    }
}

#[tokio::test]
async fn settled_marks_name_their_settlement_and_say_what_they_said() {
    let folder = unpacked();
    settle(&folder.path().join("data.db")).await;
    let app = TestApp::on(folder).await;
    let kept = "SELECT reason FROM mark WHERE id > 900 ORDER BY id";
    let kept: Vec<String> = app.values(kept).await;
    assert_eq!(
        kept,
        ["", "Agreed in the moderation round Autumn: or so", ""]
    );
    let whose = "SELECT coalesce(settlement_id, 0) FROM mark WHERE id > 900 ORDER BY id";
    let whose: Vec<i64> = app.values(whose).await;
    assert_eq!(whose, [90, 0, 90]);
    let set = "SELECT class_set_id FROM mark JOIN sheet ON sheet.id = sheet_id JOIN bench ON bench.id = bench_id WHERE mark.id = 903";
    let set: Vec<i64> = app.values(set).await;
    let mut head = app.signed_in().await;
    let marks = format!("/class-sets/{}/files/marks.csv", set[0]);
    let said = head.opens(&marks).await.text;
    assert_eq!(said.matches(AGREED).count(), 1, "{said}");
}
