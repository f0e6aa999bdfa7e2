use crate::support::{PASSWORD, TestApp};

#[tokio::test]
async fn head_adds_a_colleague_who_cannot_add_more() {
    let app = TestApp::new().await;
    let mut head = app.teacher().await;
    let mut colleague = app.colleague(&mut head, "Mr Tarn").await;
    head.opens("/staff").await.says("Mr Tarn");
    colleague
        .opens("/staff")
        .await
        .says_nothing_of("/staff/invite");
    colleague.post_staff("/staff/invite", &[]).await.expect(403);
}

#[tokio::test]
async fn name_that_is_taken_leaves_the_link_good() {
    let app = TestApp::new().await;
    let mut head = app.teacher().await;
    let link = head.invite().await;
    let account = |name| [("name", name), ("password", PASSWORD), ("again", PASSWORD)];
    app.browser()
        .post(&link, &account("ms  FELL"))
        .await
        .expect(422)
        .says("has an account with this name");
    app.browser()
        .post(&link, &account("Ms B Fell"))
        .await
        .expect(303);
}
