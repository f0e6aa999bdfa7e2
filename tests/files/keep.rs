//! Keeping what a preview showed.

use server::db::bench;
use server::db::revision::{self, Entry, Kind};
use server::ids::ClassSetId;

use crate::bench_sheet::revisions;
use crate::support::{Browser, Group, Lesson, NAME, Reply, TestApp, pairs};

const HEAD: &str = "group,method,kit,row,dial,last_crest,span,span_unit,method_text\n";

fn file(lines: &str) -> String {
    format!("{HEAD}{lines}")
}

/// The form of a preview as a browser holds it, ticks as they stand.
struct Form(Vec<(String, String)>);

impl Form {
    fn of(page: &Reply) -> Self {
        Self(page.at("form[action$='/import/keep']").fields())
    }

    fn tick(&mut self, label: &str) {
        self.0.push((format!("take.{label}"), "yes".to_owned()));
    }

    fn without(mut self, name: &str) -> Self {
        self.0.retain(|(of, _)| of != name);
        self
    }

    /// Presses the button.
    async fn send(&self, at: &mut Lesson) -> Reply {
        self.send_by(&mut at.teacher, &at.set).await
    }

    /// The same in this browser.
    async fn send_by(&self, browser: &mut Browser, set: &str) -> Reply {
        let path = format!("{set}/import/keep");
        browser.send_upload(&path, &pairs(&self.0), None).await
    }
}

async fn preview(at: &mut Lesson, file: &str) -> Form {
    let page = at.previews(file).await;
    Form::of(&page.expect(200))
}

/// What each bench stored last: its version, how, and what.
async fn stored(app: &TestApp) -> Vec<(String, i64, Kind, Entry)> {
    let mut db = app.db().await;
    let benches = bench::list(&mut db, ClassSetId(1)).await.unwrap();
    let latest = revision::list_latest(&mut db, ClassSetId(1)).await.unwrap();
    let line = |r: revision::Revision| {
        let bench = benches.iter().find(|b| b.sheet_id == r.sheet_id).unwrap();
        (bench.label.clone(), r.version, r.kind, r.entry)
    };
    latest.into_iter().map(line).collect()
}

async fn events(app: &TestApp) -> Vec<String> {
    app.values("SELECT detail FROM event WHERE what = 'readings_imported' ORDER BY id")
        .await
}

#[tokio::test]
async fn ticked_groups_are_kept_as_handed_in_by_whoever_took_them_in() {
    let mut at = Lesson::new().await;
    let text = "A,ripple-tank,Tank 3,1,10,6,\" 24,7\",cm,\"First we\nthen \"\"we\"\".\"\nE,ripple-tank,,1,10,6,24.9,,\n";
    let mut form = preview(&mut at, &file(text)).await;
    form.tick("E");
    let done = form.send(&mut at).await.expect(303);
    assert_eq!(done.location(), at.url("/files#taken-in"));
    let stored = stored(&at.app).await;
    let labels: Vec<_> = stored
        .iter()
        .map(|(l, v, k, _)| (l.as_str(), *v, *k))
        .collect();
    assert_eq!(labels, [("A", 1, Kind::HandedIn), ("E", 1, Kind::HandedIn)]);
    let a = &stored[0].3;
    assert_eq!(a.kit, "Tank 3");
    assert_eq!(a.answers.method, "First we\nthen \"we\".");
    let span = analysis::field::Field::Span;
    assert_eq!(a.sheet.rows[0].cells[&span].text, " 24,7");
    assert_eq!(events(&at.app).await, [r#"[["A",1],["E",null]]"#]);

    let page = at.page("/files").await;
    page.says(&format!(
        "<li>{NAME} at 10:42: A (version 1), E (new bench)</li>"
    ));
    let sheet = at.page("/sheets/E").await;
    sheet.says(&format!("Handed in at 10:42, from a file by {NAME}"));
}

#[tokio::test]
async fn benches_are_added_only_where_they_are_ticked() {
    let mut at = Lesson::new().await;
    let text = "A,ripple-tank,,1,10,6,24.7,cm,\nE,ripple-tank,,1,10,6,24.9,cm,\n";
    let form = preview(&mut at, &file(text)).await;
    form.send(&mut at).await.expect(303);
    at.teacher.get(&at.url("/sheets/E")).await.expect(404);
    assert_eq!(events(&at.app).await, [r#"[["A",1]]"#]);
}

#[tokio::test]
async fn same_form_sent_twice_stores_once() {
    let mut at = Lesson::new().await;
    at.hands_in(&Group::CAREFUL, "A").await;
    let text = "A,ripple-tank,,1,10,6,24.7,cm,\nE,ripple-tank,,1,10,6,24.9,cm,\n";
    let mut form = preview(&mut at, &file(text)).await;
    form.tick("E");
    for _ in 0..3 {
        form.send(&mut at).await.expect(303);
    }
    assert_eq!(revisions(&at.app).await, 3);
    assert_eq!(events(&at.app).await.len(), 1);
}

#[tokio::test]
async fn earlier_work_stays_in_the_history() {
    let mut at = Lesson::new().await;
    at.hands_in(&Group::CAREFUL, "A").await;
    let text = file("A,ripple-tank,,1,10,6,24.7,cm,\n");
    let form = preview(&mut at, &text).await;
    form.send(&mut at).await.expect(303);
    let page = at.page("/sheets/A").await;
    page.says("2 stored versions").says("from a file by");
    at.page("/sheets/A/versions/1").await.says("22.4 cm");
}

#[tokio::test]
async fn work_stored_since_the_preview_is_told_and_nothing_is_kept() {
    let mut at = Lesson::new().await;
    let text = "A,ripple-tank,,1,10,6,24.7,cm,\nB,ripple-tank,,1,10,6,24.9,cm,\n";
    let form = preview(&mut at, &file(text)).await;
    at.saves(&Group::CAREFUL, "B").await;
    let page = form.send(&mut at).await.expect(409);
    let page = page
        .says("Something else was stored since you opened this preview: by group B. Nothing was kept.")
        .says("What would change");
    assert_eq!(revisions(&at.app).await, 1, "B’s own");
    assert_eq!(events(&at.app).await.len(), 0);
    // Pressed again, it is meant.
    let again = Form::of(&page);
    again.send(&mut at).await.expect(303);
    let versions: Vec<_> = stored(&at.app)
        .await
        .into_iter()
        .map(|(l, v, ..)| (l, v))
        .collect();
    assert_eq!(versions, [("A".to_owned(), 1), ("B".to_owned(), 2)]);
}

#[tokio::test]
async fn bench_that_came_since_the_preview_is_a_conflict() {
    let mut at = Lesson::new().await;
    let mut form = preview(&mut at, &file("E,ripple-tank,,1,10,6,24.7,cm,\n")).await;
    form.tick("E");
    let mut other = preview(&mut at, &file("E,ripple-tank,,1,10,6,25.0,cm,\n")).await;
    other.tick("E");
    form.send(&mut at).await.expect(303);
    let page = other.send(&mut at).await.expect(409);
    page.says("by group E").says("24.7 cm");
    assert_eq!(revisions(&at.app).await, 1);
}

#[tokio::test]
async fn pupils_who_were_writing_meanwhile_are_shown_both() {
    let mut at = Lesson::new().await;
    let (mut pupil, url) = at.saves(&Group::CAREFUL, "A").await;
    let draft = pupil.open_sheet(&url).await;
    let form = preview(&mut at, &file("A,ripple-tank,,1,10,6,24.7,cm,\n")).await;
    form.send(&mut at).await.expect(303);
    let boxes = [("r1.dial", "11"), ("r1.span", "20.0"), ("unit.span", "cm")];
    let page = pupil.send_sheet(&url, &draft, "save", &boxes).await;
    page.expect(409).says("24.7 cm");
}

#[tokio::test]
async fn nothing_ticked_keeps_nothing_and_loses_nothing() {
    let mut at = Lesson::new().await;
    let text = file("A,ripple-tank,,1,10,6,24.7,cm,\n");
    let form = preview(&mut at, &text).await.without("take.A");
    let page = form.send(&mut at).await.expect(422);
    let mut again = Form::of(&page.says("No group is ticked, so nothing was kept."));
    again.tick("A");
    again.send(&mut at).await.expect(303);
    assert_eq!(revisions(&at.app).await, 1);
}

#[tokio::test]
async fn form_that_lost_its_readings_or_its_session_keeps_nothing() {
    let mut at = Lesson::new().await;
    let text = file("A,ripple-tank,,1,10,6,24.7,cm,\n");
    let form = preview(&mut at, &text).await.without("readings");
    form.send(&mut at).await.expect(400);
    let form = preview(&mut at, &text).await.without("token");
    form.send(&mut at).await.expect(403);
    let form = preview(&mut at, &text).await;
    form.send_by(&mut at.app.browser(), &at.set)
        .await
        .expect(303);
    assert_eq!(revisions(&at.app).await, 0);
}

#[tokio::test]
async fn class_set_exported_and_taken_in_elsewhere_is_the_same_to_the_letter() {
    let mut at = Lesson::new().await;
    let odd = Group::FORGETFUL.kit("'=1+1").odd(2, 1.2);
    at.hands_in(&odd, "A").await;
    at.saves(&Group::CAREFUL, "B").await;
    let mut pupil = at.app.browser();
    pupil.take_bench(&at.code, "C").await;
    let url = at.own("C");
    let boxes = [
        ("kit", " @tank\r\n"),
        ("shared", "-B"),
        ("w.gradient", "-1.5"),
        ("w.temperature_c", "+3"),
        ("w.uncertainty", "0.02"),
        ("unit.uncertainty", "m/s"),
        ("w.magnification", "+1.75x"),
        ("r1.dial", "5,60"),
        ("r1.span", " 1.20 "),
        ("r1.left_out", "yes"),
        ("r4.span", "1.2e1 mm"),
        ("words.conclusion", "=HYPERLINK(\"x\");\r\n'quoted', twice"),
    ];
    pupil.keeps(&url, "hand_in", &boxes).await;
    let before = stored(&at.app).await;
    assert_eq!(before.len(), 3);
    let readings = at.url("/files/readings.csv");
    let exported = at.teacher.opens(&readings).await.text;

    // Into the same class set: nothing would change.
    let page = at.previews(&exported).await;
    page.expect(200).says("3 groups have stored just this.");

    // Into one on another machine.
    let mut elsewhere = Lesson::new().await;
    let form = preview(&mut elsewhere, &exported).await;
    form.send(&mut elsewhere).await.expect(303);
    let entries = |stored: Vec<(String, i64, Kind, Entry)>| -> Vec<_> {
        stored
            .into_iter()
            .map(|(label, _, _, entry)| (label, entry))
            .collect()
    };
    assert_eq!(entries(stored(&elsewhere.app).await), entries(before));
    let again = elsewhere.page("/files/readings.csv").await;
    assert_eq!(again.text, exported);
}
