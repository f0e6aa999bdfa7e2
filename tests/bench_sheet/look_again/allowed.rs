//! Who may look again, when, and at what.

use analysis::field::Field;
use analysis::reading::Cause;
use analysis::slip::Slip;

use super::{sheets, told};
use crate::support::{Browser, Group, Lesson, TestApp, finding, pairs, suggest};

const SWITCHED_OFF: &str = "Your teacher has not switched this on.";

/// Checks that the bench sheet offers nothing and that the page is none.
async fn is_off(at: &mut Lesson) {
    at.pupil
        .get(&format!("{}/look-again", at.bench))
        .await
        .expect(404)
        .says(SWITCHED_OFF)
        .says_nothing_of("wavelength");
    at.reads()
        .await
        .says_nothing_of("look-again")
        .says_nothing_of("look_again");
}

async fn slip_saved() -> Lesson {
    let mut at = told(TestApp::new().await, "ripple-tank", "explain").await;
    let (_, boxes) = sheets::of(Slip::ScaleLeftOut);
    at.keeps("save", &boxes).await;
    at
}

#[tokio::test]
async fn new_class_set_tells_pupils_nothing() {
    let mut at = slip_saved().await;
    let (set, code) = at.teacher.make_class_set("ripple-tank").await;
    at.pupil.take_bench(&code, "B").await;
    (at.set, at.bench) = (set, format!("/c/{code}/B"));
    let (_, boxes) = sheets::of(Slip::ScaleLeftOut);
    at.keeps("save", &boxes).await;
    is_off(&mut at).await;
}

#[tokio::test]
async fn nothing_is_said_where_it_is_switched_off() {
    let mut at = slip_saved().await;
    at.look().await.says("Look again at your wavelength");
    at.reads()
        .await
        .says(&format!("href=\"{}/look-again\"", at.bench))
        .says("value=\"look_again\"");
    at.help("on", "nothing").await;
    is_off(&mut at).await;
    // An exam has no help, whatever is chosen; the choice is kept.
    at.help("off", "explain").await;
    is_off(&mut at).await;
    at.help("on", "explain").await;
    at.look().await.says("Look again at your wavelength");
}

#[tokio::test]
async fn button_of_a_page_from_before_it_was_switched_off_saves_and_tells_nothing() {
    let mut at = told(TestApp::new().await, "ripple-tank", "step").await;
    let draft = at.draft().await;
    at.help("on", "nothing").await;
    let (_, boxes) = sheets::of(Slip::ScaleLeftOut);
    let reply = at
        .pupil
        .send_sheet(&at.bench, &draft, "look_again", &boxes)
        .await;
    assert_eq!(reply.expect(303).location(), at.bench);
    at.reads().await.says("Saved at 10:42");
}

#[tokio::test]
async fn closed_class_set_tells_nothing() {
    let mut at = slip_saved().await;
    at.closes().await;
    is_off(&mut at).await;
}

/// Releases the marks of the only class set, or takes that back.
async fn release(app: &TestApp, is_out: bool) {
    for sql in [
        "INSERT INTO scheme (id, department_id, method, name)
         VALUES (99, 1, 'ripple-tank', 'Ours') ON CONFLICT DO NOTHING",
        "INSERT INTO scheme_version (id, scheme_id, number, made_at)
         VALUES (99, 99, 1, 0) ON CONFLICT DO NOTHING",
        "INSERT INTO release (class_set_id, is_out, scheme_version_id, last_revision_id, last_mark_id,
                              last_annotation_id, last_withdrawal_id, last_decision_id, staff_id, at)
         SELECT id, $1, 99, 0, 0, 0, 0, 0, 1, 0 FROM class_set",
    ] {
        let write = sqlx::query(sql).bind(is_out).execute(&mut app.sql().await).await;
        write.unwrap();
    }
}

#[tokio::test]
async fn released_marks_end_it_until_they_are_taken_back() {
    let mut at = slip_saved().await;
    release(&at.app, true).await;
    is_off(&mut at).await;
    release(&at.app, false).await;
    at.look().await.says("Look again at your wavelength");
}

#[tokio::test]
async fn another_group_and_nobody_are_sent_where_the_sheet_sends_them() {
    let mut at = slip_saved().await;
    let code = at.bench.split('/').nth(2).unwrap().to_owned();
    let mut other = at.app.browser();
    other.take_bench(&code, "B").await;
    let page = format!("{}/look-again", at.bench);
    for mut browser in [other, at.app.browser()] {
        let sent = |reply: crate::support::Reply| reply.expect(303).location().to_owned();
        let by_sheet = sent(browser.get(&at.bench).await);
        assert_eq!(sent(browser.get(&page).await), by_sheet);
        assert!(by_sheet.ends_with("/A/come-back"), "{by_sheet}");
    }
    // The teacher is no group either.
    let reply = at.teacher.get(&page).await.expect(303);
    assert!(!reply.text.contains("wavelength"), "{}", reply.text);
    at.app.get("/c/ZZZZZ/A/look-again").await.expect(404);
    let none = format!("/c/{code}/Z/look-again");
    at.app.get(&none).await.expect(404);
    let unchosen = format!("/c/{code}/C/look-again");
    let reply = at.app.get(&unchosen).await.expect(303);
    assert_eq!(reply.location(), format!("/c/{code}"));
}

/// What the teacher is told of this class set's bench A.
async fn suggested(teacher: &mut Browser, set: &str) {
    let counted = finding(Cause::CountedFromOne, None, Field::LastCrest, 0.97);
    let swapped = finding(Cause::DigitsSwapped, Some(2), Field::Span, 0.91);
    suggest(teacher, set, &[("A", vec![counted, swapped])]).await;
    teacher
        .opens(&format!("{set}/sheets/A"))
        .await
        .says(server::words::cause::short(Cause::CountedFromOne))
        .says(server::words::cause::short(Cause::DigitsSwapped));
}

#[tokio::test]
async fn what_the_readings_suggest_is_never_shown() {
    for setting in ["step", "explain"] {
        let mut at = told(TestApp::new().await, "ripple-tank", setting).await;
        // Nought was called, but the count began at one: every span is short
        // by a wave, and the working follows from it without a slip.
        let counted = Group::CAREFUL.level(8.0 / 9.0);
        let mut boxes = counted.boxes();
        boxes.retain(|(name, _)| !name.ends_with("reciprocal"));
        let boxes = pairs(&boxes);
        at.keeps("save", &boxes).await;
        suggested(&mut at.teacher, &at.set).await;
        at.look()
            .await
            .says("Nothing in your working needs another look.")
            .says_nothing_of("right")
            .says_nothing_of("Look again at")
            .says_nothing_of("%");
        for page in pupils_pages(&at.bench) {
            let mut page = at.pupil.get(&page).await;
            for cause in Cause::ALL {
                page = page
                    .says_nothing_of(server::words::cause::short(cause))
                    .says_nothing_of(cause.code());
            }
            page.says_nothing_of("nferred")
                .says_nothing_of("uggest")
                .says_nothing_of("As written");
        }
    }
}

/// Every page that a group can open, for this at.
fn pupils_pages(sheet: &str) -> Vec<String> {
    let class = sheet.strip_suffix("/A").unwrap();
    let routes = server::pages::routes();
    let pages = routes
        .list()
        .iter()
        .filter(|route| route.method == "GET" && route.path.starts_with("/c/{code}"));
    pages
        .map(|route| {
            route
                .path
                .replace("/c/{code}", class)
                .replace("{label}", "A")
        })
        .collect()
}
