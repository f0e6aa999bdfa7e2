//! What is kept of a year is what would be made anew, and goes stale when
//! anything that it rests on changes.

use std::time::Duration;

use analysis::assess::assess;
use analysis::sheet::Sheet;
use analysis::year::Judgement;
use server::acts::{self, ChooseScheme, SaveScheme};
use server::clock::Zone;
use server::db::decision::Verdict;
use server::db::round_sheet::Closed;
use server::db::scheme::{self, NewPoint};
use server::db::{judgement, revision, year};
use server::ids::{ClassSetId, RevisionId};
use server::report;
use server::report::desk::{Desk, first};

use super::{class_sets, decide, head, sheets_with};
use crate::support::stored_year::MarkAll;
use crate::support::{Browser, DEPARTMENT, Group, HEAD, Lesson, Reply, TestApp};

const PAGES: [&str; 5] = [
    "/year",
    "/year/kits",
    "/year/slips",
    "/year/classes",
    "/year/kits/2",
];

async fn count(app: &TestApp, sql: &'static str) -> i64 {
    app.one(sql).await
}

async fn run(app: &TestApp, sql: &'static str) {
    app.run(sql).await.unwrap();
}

/// Waits until every judgement and the year's summary are written.
async fn kept(app: &TestApp, sheets: i64) {
    for _ in 0..2000 {
        let judged = count(app, "SELECT count(*) FROM judgement").await;
        let summaries = count(app, "SELECT count(*) FROM year_summary").await;
        if judged >= sheets && summaries > 0 {
            return;
        }
        tokio::time::sleep(Duration::from_millis(5)).await;
    }
    panic!("the year was not kept");
}

async fn all(head: &mut Browser) -> Vec<String> {
    let mut pages = Vec::new();
    for page in PAGES {
        pages.push(head.opens(page).await.text);
    }
    pages
}

/// The present summary's digest.
async fn state(app: &TestApp) -> String {
    app.one("SELECT state FROM year_summary WHERE school_year = 2026")
        .await
}

/// Opens the year until its summary is of another state than this.
async fn changed(head: &mut Browser, from: &str) -> Reply {
    let page = head.opens("/year/slips").await;
    for _ in 0..2000 {
        if state(&head.app).await != from {
            return page;
        }
        tokio::time::sleep(Duration::from_millis(5)).await;
    }
    panic!("the summary is still of {from}");
}

#[tokio::test]
async fn year_reads_the_same_anew_from_judgements_and_from_its_summary() {
    let mut head = head().await;
    let anew = all(&mut head).await;
    kept(&head.app, 144).await;
    assert_eq!(all(&mut head).await, anew, "from the summary");
    run(&head.app, "DELETE FROM year_summary").await;
    assert_eq!(all(&mut head).await, anew, "from judgements");
    run(&head.app, "DELETE FROM year_summary").await;
    run(&head.app, "DELETE FROM judgement").await;
    assert_eq!(all(&mut head).await, anew, "with both gone");
}

#[tokio::test]
async fn judgement_that_is_kept_is_the_one_made_anew() {
    let mut head = head().await;
    head.opens("/year").await;
    kept(&head.app, 144).await;
    let mut db = head.app.db().await;
    let version = format!("{}/{}", analysis::VERSION, analysis::year::VERSION);
    let stored = year::list_sheets(&mut db, 2026, &version).await.unwrap();
    assert_eq!(stored.len(), 144);
    for sheet in stored {
        let kept = sheet.judged.unwrap();
        let entry = revision::get(&mut db, sheet.revision_id)
            .await
            .unwrap()
            .entry;
        let typed = Sheet::check(&entry.sheet).unwrap();
        assert_eq!(kept.judgement, Judgement::of(&typed, &assess(&typed)));
        assert_eq!(kept.kit, entry.kit);
    }
}

#[tokio::test]
async fn judgements_are_not_made_on_the_way_of_a_hand_in() {
    let at = Lesson::handed_in(&Group::CAREFUL).await;
    assert_eq!(count(&at.app, "SELECT count(*) FROM judgement").await, 0);
}

#[tokio::test]
async fn decision_changes_the_summary() {
    let mut head = head().await;
    let sheets = sheets_with(&mut head, "working.scale-left-out").await;
    let made = sheets.len();
    head.get("/year/slips")
        .await
        .says(&format!(">{made} of 72</a>"));
    kept(&head.app, 144).await;
    let before = state(&head.app).await;
    let (set, label) = &sheets[0];
    let flag = ("wavelength", "scale-left-out");
    decide(&head.app, (set, label), flag, Verdict::Dismissed).await;
    let page = changed(&mut head, &before).await;
    page.says(&format!(">{} of 72</a>", made - 1));
}

#[tokio::test]
async fn hand_in_changes_the_summary() {
    let mut head = head().await;
    head.get("/year").await.says("144 of 144");
    kept(&head.app, 144).await;
    let before = state(&head.app).await;
    let (_, code) = head.make_class_set("ripple-tank").await;
    Group::FORGETFUL
        .sends("hand_in", &head.app, &code, "A")
        .await;
    let page = changed(&mut head, &before).await;
    page.says(" of 73</a>");
    head.get("/year").await.says("145 of 148");
}

/// Moves a class set to a version in which another point stands in the place
/// of the last: as many points, as many marks.
async fn swap_last_point(app: &TestApp, class_set: ClassSetId) {
    let desk = first::load(&mut app.db().await, class_set, None).await;
    let Desk {
        version, points, ..
    } = desk.unwrap();
    let last = points.len() - 1;
    let points = points.into_iter().enumerate().map(|(at, stored)| NewPoint {
        key: (at != last).then_some(stored.key),
        point: stored.point,
    });
    let save = SaveScheme {
        scheme: version.scheme_id,
        base: version.number,
        points: points.collect(),
    };
    app.act(HEAD, save).await.unwrap();
    let saved = scheme::find(&mut app.db().await, version.scheme_id).await;
    let choose = ChooseScheme {
        class_set,
        version: saved.unwrap().unwrap().version_id,
    };
    app.act(HEAD, choose).await.unwrap();
}

#[tokio::test]
async fn newer_version_of_a_scheme_changes_the_summary() {
    let mut head = head().await;
    let set = class_sets(&head.app).await[0];
    head.app.act(HEAD, MarkAll(set)).await;
    head.get("/year/classes").await.says("Groups marked");
    kept(&head.app, 144).await;
    head.get("/year/classes").await.says("Groups marked");
    swap_last_point(&head.app, set).await;
    // Nobody is marked on the new point yet.
    head.opens("/year/classes")
        .await
        .says_nothing_of("Groups marked");
}

#[tokio::test]
async fn kit_that_is_added_later_is_found_on_old_sheets() {
    let mut at = Lesson::new().await;
    let group = Group::CAREFUL.kit("Tank 9");
    at.hands_in(&group, "A").await;
    at.teacher
        .opens("/year/kits")
        .await
        .says_nothing_of("Tank 9");
    kept(&at.app, 1).await;
    let listed = [("label", "Tank 9"), ("kind", "tank")];
    at.teacher.sends("/kits", &listed).await;
    at.teacher
        .opens("/year/kits")
        .await
        .says("Tank 9: 1 sheet from 1 lesson");
}

#[tokio::test]
async fn judgement_of_another_version_or_that_nobody_can_read_is_made_again() {
    let mut head = head().await;
    let anew = all(&mut head).await;
    kept(&head.app, 144).await;
    run(
        &head.app,
        "UPDATE judgement SET version = '0', speed = 7 WHERE revision_id % 2 = 0",
    )
    .await;
    run(
        &head.app,
        "UPDATE judgement SET body = '{}', speed = 7 WHERE revision_id % 2 = 1",
    )
    .await;
    run(&head.app, "UPDATE year_summary SET body = '[]'").await;
    assert_eq!(all(&mut head).await, anew);
}

#[tokio::test]
async fn first_look_at_many_sheets_judges_them_in_batches() {
    let app = head().await.app;
    let mut db = app.db().await;
    let zone = Zone(jiff::tz::TimeZone::UTC);
    let frame = report::year::YearFrame::load(&mut db, &zone, 2026, &Closed::default())
        .await
        .unwrap();
    let first = report::year::sheets::load(&mut db, &frame).await.unwrap();
    // 144 judgements are one write.
    assert_eq!(first.to_keep.len(), 1);
    drop(db);
    let now = app.clock.now();
    acts::keep_derived(&app.store, now, DEPARTMENT, first.to_keep);
    run(&app, "DELETE FROM year_summary").await;
    for _ in 0..2000 {
        if count(&app, "SELECT count(*) FROM judgement").await == 144 {
            break;
        }
        tokio::time::sleep(Duration::from_millis(5)).await;
    }
    let mut db = app.db().await;
    let again = report::year::sheets::load(&mut db, &frame).await.unwrap();
    assert!(again.to_keep.is_empty());
    let version = format!("{}/{}", analysis::VERSION, analysis::year::VERSION);
    let one = judgement::list(&mut db, &version, &[RevisionId(1)])
        .await
        .unwrap();
    assert_eq!(one.len(), 1);
}
