use crate::support::{NAME, PASSWORD, TestApp};

#[tokio::test]
async fn first_link_makes_one_account_and_signs_it_in() {
    let app = TestApp::new().await;
    let token = app.first_link().await.unwrap();
    let link = format!("/staff/first/{token}");
    let mut browser = app.browser();
    browser.opens(&link).await.says("Make your account");
    let account = [("name", NAME), ("password", PASSWORD), ("again", PASSWORD)];
    assert_eq!(
        browser.post(&link, &account).await.expect(303).location(),
        "/class-sets"
    );
    browser.opens("/class-sets").await.says(NAME);

    app.get(&link).await.expect(404).says("has been used");
    app.post(&link, &account).await.expect(404);
    assert_eq!(app.first_link().await, None, "there is an account");
}

#[tokio::test]
async fn later_start_makes_the_earlier_link_useless() {
    let app = TestApp::new().await;
    let earlier = app.first_link().await.unwrap();
    let later = app.first_link().await.unwrap();
    app.get(&format!("/staff/first/{earlier}"))
        .await
        .expect(404);
    app.get(&format!("/staff/first/{later}")).await.expect(200);
    app.clock.advance(25 * 3_600_000);
    app.get(&format!("/staff/first/{later}")).await.expect(404);
}

#[tokio::test]
async fn weak_password_is_refused_and_the_name_stays() {
    let app = TestApp::new().await;
    let link = format!("/staff/first/{}", app.first_link().await.unwrap());
    let name = "Ms Fell of Physics";
    for (password, again) in [
        ("short", "short"),
        ("password123", "password123"),
        (name, name),
        (PASSWORD, "pond ripple lump"),
        ("", ""),
    ] {
        let boxes = [("name", name), ("password", password), ("again", again)];
        let page = app.post(&link, &boxes).await.expect(422);
        page.says("password-error")
            .says(&format!("value=\"{name}\""))
            .says_nothing_of("pond ripple");
    }
    let boxes = [("name", " "), ("password", PASSWORD), ("again", PASSWORD)];
    app.post(&link, &boxes).await.expect(422).says("name-error");
    app.post(&link, &[]).await.expect(422);
    assert!(app.first_link().await.is_some(), "nobody has an account");
}
