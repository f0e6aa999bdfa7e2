//! How `SQLite` answers what the pages ask: by an index whatever grows, and in
//! as many queries whatever the number of rounds and class sets.
//!
//! What is asked is read from the program's own log of statements. A log is
//! the whole process's, so each test here has one of its own.

use std::collections::BTreeSet;
use std::process::Command;
use std::sync::{LazyLock, Mutex};

use tracing::field::{Field, Visit};
use tracing::{Event, Subscriber};
use tracing_subscriber::layer::{Context, Layer, SubscriberExt as _};
use tracing_subscriber::util::SubscriberInitExt as _;

use crate::support::{Browser, TestApp};
use crate::upgrade::{unpacked, walk};

/// Every statement since it was last emptied.
static ASKED: LazyLock<Mutex<Vec<String>>> = LazyLock::new(Mutex::default);

struct Statements;

impl<S: Subscriber> Layer<S> for Statements {
    fn on_event(&self, event: &Event<'_>, _: Context<'_, S>) {
        if event.metadata().target() == "sqlx::query" {
            event.record(&mut Statement);
        }
    }
}

/// A statement in the log: its beginning and, where it is longer, the whole.
struct Statement;

impl Visit for Statement {
    fn record_str(&mut self, field: &Field, value: &str) {
        let text = value.trim();
        let is_whole = match field.name() {
            "summary" => !text.ends_with('…'),
            "db.statement" => !text.is_empty(),
            _ => false,
        };
        if is_whole {
            ASKED.lock().unwrap().push(text.to_owned());
        }
    }

    fn record_debug(&mut self, _: &Field, _: &dyn std::fmt::Debug) {}
}

fn asked() -> Vec<String> {
    let asked = std::mem::take(&mut *ASKED.lock().unwrap());
    let is_planned = |text: &String| {
        // An INSERT's plan has scans in it of rows that might refer to the new
        // one, and SQLite passes those over while no reference is broken.
        let verbs = ["SELECT", "WITH", "UPDATE", "DELETE"];
        verbs.iter().any(|verb| text.starts_with(verb))
    };
    asked.into_iter().filter(is_planned).collect()
}

/// Says to a test that it has a process of its own.
const ALONE: &str = "CRESTCOUNT_TEST_ALONE";

/// Whether this is a process of the test's own, with its statements in the log.
/// Else runs the test in one, and holds it to what comes of it there.
fn is_alone(name: &str) -> bool {
    if std::env::var_os(ALONE).is_some() {
        tracing_subscriber::registry().with(Statements).init();
        return true;
    }
    let done = Command::new(std::env::current_exe().unwrap())
        .args(["--exact", &format!("db::plans::{name}")])
        .env(ALONE, "yes")
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&done.stdout);
    assert!(said.contains("test result: ok. 1 passed"), "{said}");
    false
}

/// Pages that the walk through the data file does not open.
const MORE: [&str; 21] = [
    "/",
    "/class-sets/new",
    "/class-sets/15/room/tiles",
    "/class-sets/15/room/wall",
    "/class-sets/15/benches/A/new-number",
    "/class-sets/15/marking/points/2",
    "/class-sets/15/feedback/sheets/B",
    "/class-sets/15/files",
    "/class-sets/15/files/workbook.xlsx",
    "/schemes/1/edit",
    "/registers.csv",
    "/upkeep",
    "/moderation/new",
    "/moderation/new?scheme=1",
    "/moderation/sizes",
    "/moderation/2/comparison",
    "/moderation/2/sample",
    "/moderation/3/anchors",
    "/year?year=2025",
    "/year/classes?year=2025",
    "/year/sheets?year=2025",
];

/// What people do in a lesson and after it.
async fn act(app: &TestApp, head: &mut Browser) {
    let sql = "SELECT join_code FROM class_set WHERE id = 16";
    let code: String = app.one(sql).await;
    let mut pupil = app.browser();
    pupil.take_bench(&code, "B").await;
    let url = format!("/c/{code}/B");
    let draft = pupil.open_sheet(&url).await;
    let boxes = [("kit", "String 1"), ("r1.dial", "30"), ("r1.length", "1.2")];
    let kept = pupil.send_sheet(&url, &draft, "hand_in", &boxes).await;
    kept.expect(303);
    for page in ["", "/look-again", "/feedback", "/come-back"] {
        pupil.get(&format!("{url}{page}")).await;
    }
    pupil.post(&format!("{url}/leave"), &[]).await.expect(303);
    let acts: [(&str, &[(&str, &str)]); 9] = [
        ("/class-sets/15/marking/undo", &[]),
        (
            "/class-sets/15/room/seen",
            &[("bench", "B"), ("seen", "on")],
        ),
        ("/class-sets/15/sheets/B/notes", &[("note", "Look.")]),
        ("/class-sets/15/release", &[("release", "out")]),
        ("/class-sets/15/state", &[("state", "closed")]),
        ("/class-sets/15/benches/A/new-number", &[]),
        ("/kits", &[("label", "Tank 9"), ("kind", "tank")]),
        ("/schemes/1/copy", &[("name", "Another")]),
        ("/staff/invite", &[]),
    ];
    for (path, boxes) in acts {
        let reply = head.post_staff(path, boxes).await;
        assert!(reply.status.as_u16() < 400, "{path}: {}", reply.text);
    }
    head.post("/staff/sign-out", &[]).await;
}

/// Tables that stay small, whatever a department does, and lists that are read
/// whole: what was asked for, or what the same statement made.
fn may_be_read_whole(name: &str, statement: &str) -> bool {
    let small = [
        "department",
        "staff",
        "scheme",
        "kit",
        "comment",
        "invitation",
        "sign_in",
        "sqlite_schema",
        "_sqlx_migrations",
    ];
    let made = format!("{name} AS (");
    small.contains(&name)
        || ["CONSTANT", "json_each"].contains(&name)
        || name.starts_with('(')
        || statement.contains(&made)
}

#[tokio::test]
async fn what_grows_is_found_by_an_index() {
    if !is_alone("what_grows_is_found_by_an_index") {
        return;
    }
    let app = TestApp::on(unpacked()).await;
    let mut head = app.signed_in().await;
    walk(&app).await;
    for page in MORE {
        let reply = head.get(page).await;
        assert_eq!(reply.status, 200, "{page}");
    }
    act(&app, &mut head).await;
    let statements: BTreeSet<String> = asked().into_iter().collect();
    assert!(statements.len() > 80, "{} statements", statements.len());
    // Nothing is in it: plans are for tables of any size.
    let new = TestApp::new().await;
    let mut empty = new.sql().await;
    let mut scans = Vec::new();
    let mut all = String::new();
    for statement in &statements {
        let sql = sqlx::AssertSqlSafe(format!("EXPLAIN QUERY PLAN {statement}"));
        let plan: Vec<(i64, i64, i64, String)> = sqlx::query_as(sql)
            .fetch_all(&mut empty)
            .await
            .unwrap_or_else(|error| panic!("{statement}: {error}"));
        for (.., line) in plan {
            let read = line.strip_prefix("SCAN ").and_then(|l| l.split(' ').next());
            let is_partial = line.ends_with("register_line_initials");
            if read.is_some_and(|read| !may_be_read_whole(read, statement)) && !is_partial {
                scans.push(format!("{line}: {statement}"));
            }
            all.push_str(&line);
            all.push('\n');
        }
    }
    assert!(scans.is_empty(), "{}", scans.join("\n"));
    for index in [
        "visit USING INDEX visit_bench",
        "event USING INDEX event_class_set (class_set_id=? AND what=?)",
        "mark USING INDEX mark_staff (staff_id=?)",
    ] {
        assert!(all.contains(index), "{index} is not in:\n{all}");
    }
}

/// Another of every round and of every class set, and more in each.
const ANOTHER: [&str; 10] = [
    "INSERT INTO moderation_round SELECT id + (SELECT max(id) FROM moderation_round), department_id, name, scheme_id,
        tolerance_total, tolerance_point, seed, staff_id, made_at FROM moderation_round",
    "INSERT INTO class_set (id, class_id, method, held_on, join_code, state, created_by, made_at, scheme_version_id)
        SELECT id + 100, class_id, method, held_on, printf('%05d', id), state, created_by, made_at, scheme_version_id
        FROM class_set",
    "INSERT INTO bench (id, class_set_id, label) SELECT id + 1000, class_set_id + 100, label FROM bench",
    "INSERT INTO sheet (id, bench_id, version) SELECT id + 1000, bench_id + 1000, version FROM sheet",
    "INSERT INTO revision (sheet_id, version, kind, body, written_at, visit_id)
        SELECT sheet_id + 1000, version, kind, body, written_at, visit_id FROM revision",
    "INSERT INTO round_class_set SELECT round_id + 3, class_set_id FROM round_class_set",
    "INSERT INTO round_class_set SELECT round_id, class_set_id + 100 FROM round_class_set",
    "INSERT INTO round_marker SELECT round_id + 3, staff_id FROM round_marker",
    "INSERT INTO round_step (round_id, step, last_mark_id, asked, staff_id, at)
        SELECT round_id + 3, step, last_mark_id, asked, staff_id, at FROM round_step",
    "INSERT INTO settlement (round_id, class_set_id, point_key, kind, last_mark_id, reason, staff_id, at)
        SELECT round_id, class_set_id, 1 + point_key, kind, last_mark_id, reason, staff_id, at FROM settlement
        WHERE kind = 'again'",
];

#[tokio::test]
async fn pages_ask_as_often_whatever_there_is() {
    if !is_alone("pages_ask_as_often_whatever_there_is") {
        return;
    }
    let app = TestApp::on(unpacked()).await;
    let mut head = app.signed_in().await;
    let pages = [
        "/moderation",
        "/moderation/new",
        "/moderation/new?scheme=1",
        "/moderation/2",
        "/moderation/2/settle",
        "/moderation/2/comparison",
        "/moderation/2/sample",
        "/moderation/3/anchors",
        "/moderation/3/sample",
        "/class-sets",
        "/registers",
    ];
    let mut count = async || {
        let mut counts = Vec::new();
        for page in pages {
            asked();
            head.opens(page).await;
            counts.push((page, asked().len()));
        }
        counts
    };
    let before = count().await;
    let mut db = app.sql().await;
    for sql in ANOTHER {
        if let Err(error) = sqlx::query(sql).execute(&mut db).await {
            panic!("{sql}: {error}");
        }
    }
    assert_eq!(before, count().await);
    for (page, count) in before {
        assert!((2..=20).contains(&count), "{page}: {count}");
    }
}

#[tokio::test]
async fn what_tables_hold_is_counted_when_the_file_is_opened() {
    let app = TestApp::on(unpacked()).await;
    let sql = "SELECT stat FROM sqlite_stat1 WHERE tbl = 'mark' AND idx = 'mark_sheet'";
    let stat: String = app.one(sql).await;
    assert!(stat.starts_with("307 "), "marks and marks a sheet: {stat}");
}
