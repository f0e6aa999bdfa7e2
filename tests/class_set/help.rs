//! What a class set allows while groups work.

use crate::support::{CLASS_SET, Lesson, TestApp, but, teacher};

async fn settings(app: &TestApp) -> (bool, String) {
    app.rows("SELECT is_live, look_again FROM class_set")
        .await
        .remove(0)
}

#[tokio::test]
async fn class_set_starts_with_live_pages_and_without_help() {
    let mut at = Lesson::new().await;
    assert_eq!(settings(&at.app).await, (true, "nothing".to_owned()));
    let page = at.page("").await;
    let help = page.section("help");
    help.at("[name=live][value=on][checked]");
    help.at("[name=look_again][value=nothing][checked]");
    help.says_nothing_of("The live pages are off");
}

#[tokio::test]
async fn each_choice_is_kept_shown_and_recorded() {
    let mut at = Lesson::new().await;
    for (live, look_again) in [("on", "step"), ("on", "explain"), ("off", "explain")] {
        let boxes = [("live", live), ("look_again", look_again)];
        let reply = at.posts("/help", &boxes).await;
        assert_eq!(reply.expect(303).location(), format!("{}#help", at.set));
        let kept = (live == "on", look_again.to_owned());
        assert_eq!(settings(&at.app).await, kept);
        let page = at.page("").await;
        let page = page.section("help");
        page.at(&format!("[name=live][value={live}][checked]"));
        page.at(&format!("[name=look_again][value={look_again}][checked]"));
        assert_eq!(page.all("[checked]").len(), 2);
        let warning = "pupils are told nothing, whatever is chosen here";
        assert_eq!(page.count(warning), usize::from(live == "off"));
        let sql = "SELECT detail, staff_id, class_set_id FROM event WHERE what = 'help_set'
                   ORDER BY id DESC LIMIT 1";
        let event: (String, i64, i64) = at.app.rows(sql).await.remove(0);
        let is_live = live == "on";
        let detail = format!("{{\"live\":{is_live},\"look_again\":\"{look_again}\"}}");
        assert_eq!(event, (detail, 1, 1));
    }
}

#[tokio::test]
async fn form_that_is_none_of_ours_changes_nothing() {
    let mut at = Lesson::new().await;
    for boxes in [
        &[("live", "off")][..],
        &[("look_again", "step")],
        &[("live", "maybe"), ("look_again", "step")],
        &[("live", "off"), ("look_again", "the answer")],
        &[],
    ] {
        at.posts("/help", boxes)
            .await
            .expect(400)
            .says("Nothing was changed");
    }
    assert_eq!(settings(&at.app).await, (true, "nothing".to_owned()));
}

#[tokio::test]
async fn class_set_is_opened_for_an_exam_with_both_switched_off() {
    let mut teacher = teacher().await;
    let page = teacher.get("/class-sets/new").await;
    page.at("[name=exam][value=yes][aria-describedby=exam-hint]:not([checked])");
    let exam = [&CLASS_SET[..], &[("exam", "yes")]].concat();
    let exam: [_; 5] = exam.try_into().unwrap();
    let boxes = but(exam, "groups", "none");
    teacher
        .post_staff("/class-sets/new", &boxes)
        .await
        .expect(422)
        .at("[name=exam][value=yes][checked]");
    let reply = teacher.post_staff("/class-sets/new", &exam).await;
    let set = reply.expect(303).location().to_owned();
    assert_eq!(settings(&teacher.app).await, (false, "nothing".to_owned()));
    let page = teacher.get(&set).await;
    page.at("[name=live][value=off][checked]");
    page.says_nothing_of("Round the room");
}
