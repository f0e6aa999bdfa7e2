use crate::support::{Browser, PASSWORD, TestApp};

/// The path of a new link, whose whole address the page shows.
async fn invite(head: &mut Browser<'_>) -> String {
    let page = head.post_staff("/staff/invite", &[]).await.expect(200);
    let address = page.between("<code>", "</code>");
    address
        .strip_prefix("http://lab.test")
        .expect("a whole address")
        .to_owned()
}

#[tokio::test]
async fn head_adds_a_colleague_who_cannot_add_more() {
    let app = TestApp::new().await;
    let mut head = app.teacher().await;
    let link = invite(&mut head).await;
    let mut colleague = app.browser();
    let account = [
        ("name", "Mr Tarn"),
        ("password", PASSWORD),
        ("again", PASSWORD),
    ];
    colleague.post(&link, &account).await.expect(303);
    head.get("/staff").await.expect(200).says("Mr Tarn");
    colleague
        .get("/staff")
        .await
        .expect(200)
        .says_nothing_of("/staff/invite");
    colleague.post_staff("/staff/invite", &[]).await.expect(403);
}

#[tokio::test]
async fn name_that_is_taken_leaves_the_link_good() {
    let app = TestApp::new().await;
    let mut head = app.teacher().await;
    let link = invite(&mut head).await;
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
