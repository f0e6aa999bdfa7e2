use super::marked;
use crate::support::{Group, TestApp};

async fn events(app: &TestApp) -> Vec<String> {
    app.values("SELECT what FROM event WHERE what LIKE 'marks_%' ORDER BY id")
        .await
}

#[tokio::test]
async fn groups_read_nothing_before_release_and_after_it_is_taken_back() {
    let (mut at, _) = marked(TestApp::new().await).await;
    at.feedback_of_a()
        .await
        .expect(404)
        .says("There is no feedback to read yet.")
        .says_nothing_of("wrong turn");
    let sheet = at.bench.clone();
    at.pupil.get(&sheet).await.says_nothing_of("/feedback");
    at.release("out").await;
    at.feedback_of_a()
        .await
        .expect(200)
        .says("The first wrong turn: wavelength, every row")
        .says("1 of 1</strong>");
    at.pupil.get(&sheet).await.says("Read your feedback");
    at.release("back").await;
    at.feedback_of_a().await.expect(404);
    at.pupil
        .get(&sheet)
        .await
        .says_nothing_of("Read your feedback");
    assert_eq!(
        events(&at.app).await,
        ["marks_released", "marks_taken_back"]
    );
}

#[tokio::test]
async fn group_reads_its_own_slip_and_nobody_elses() {
    let (mut at, mut b) = marked(TestApp::new().await).await;
    at.release("out").await;
    let (own, others) = (at.feedback("A"), at.feedback("B"));
    b.opens(&others)
        .await
        .says("Bench B")
        .says_nothing_of("Bench A")
        .says_nothing_of("enlargement left out");
    let refused = b.get(&own).await.expect(303);
    assert_eq!(refused.location(), format!("{}/come-back", at.bench));
    let mut stranger = at.app.browser();
    stranger.get(&own).await.expect(303);
}

#[tokio::test]
async fn what_is_newer_waits_for_the_next_release() {
    let (mut at, _) = marked(TestApp::new().await).await;
    at.note("Well set up.", "group").await;
    at.release("out").await;
    let before = at
        .feedback_of_a()
        .await
        .expect(200)
        .says("Well set up.")
        .text;
    at.note("Come and see me.", "group").await;
    at.awards("A", 1, "3").await;
    let sheet = at.bench.clone();
    Group::CAREFUL
        .sends_again("hand_in", &mut at.pupil, &sheet)
        .await;
    assert_eq!(
        at.feedback_of_a().await.expect(200).text,
        before,
        "as released"
    );
    at.page("/feedback")
        .await
        .says("Newer than what was released: 1 mark, 1 note, 1 revision.");
    at.release("out").await;
    at.feedback_of_a()
        .await
        .expect(200)
        .says("Come and see me.")
        .says("3 of 3</strong>")
        .says_nothing_of("first wrong turn");
    at.page("/feedback").await.says_nothing_of("Newer than");
}

#[tokio::test]
async fn note_that_was_taken_back_since_is_still_on_what_was_released() {
    let (mut at, _) = marked(TestApp::new().await).await;
    at.note("Too hasty.", "group").await;
    at.release("out").await;
    let page = at.page("/marking/sheets/A").await;
    let form = page.at("form[action$='/withdraw']");
    let button = form.at("button");
    let note = [("note", button.attr("value"))];
    at.teacher.fill(&form, &note).await.expect(303);
    at.feedback_of_a().await.says("Too hasty.");
    at.release("out").await;
    at.feedback_of_a().await.says_nothing_of("Too hasty.");
}

#[tokio::test]
async fn staff_alone_release_and_see_all_sheets() {
    let (mut at, _) = marked(TestApp::new().await).await;
    let pages = ["/feedback", "/feedback/print", "/feedback/sheets/A"];
    for page in pages {
        let refused = at.pupil.get(&at.url(page)).await.expect(303);
        assert_eq!(refused.location(), "/staff/sign-in");
        at.page(page).await;
    }
    let url = format!("{}/release", at.set);
    let reply = at.pupil.post(&url, &[("release", "out")]).await.expect(303);
    assert_eq!(reply.location(), "/staff/sign-in");
    at.teacher.post_staff(&url, &[]).await.expect(400);
    at.feedback_of_a().await.expect(404);
}
