//! The department's kits.

use crate::support::TestApp;

#[tokio::test]
async fn added_kit_is_in_the_list() {
    let app = TestApp::new().await;
    let mut teacher = app.teacher().await;
    teacher
        .post_staff("/kits", &[("label", " Tank 3 "), ("kind", "tank")])
        .await
        .expect(303);
    teacher
        .get("/kits")
        .await
        .expect(200)
        .says("<th scope=\"row\">Tank 3</th><td>Ripple tank</td>");
}

#[tokio::test]
async fn label_that_is_blank_long_or_taken_comes_back_as_typed() {
    let app = TestApp::new().await;
    let mut teacher = app.teacher().await;
    teacher
        .post_staff("/kits", &[("label", "Tank 3"), ("kind", "tank")])
        .await
        .expect(303);
    let long = "x".repeat(41);
    for label in ["", "tank 3", &long] {
        let page = teacher
            .post_staff("/kits", &[("label", label), ("kind", "tank")])
            .await
            .expect(422);
        page.says("label-error")
            .says(&format!("name=\"label\" value=\"{label}\""));
    }
    teacher
        .post_staff("/kits", &[("label", "Tank 4"), ("kind", "submarine")])
        .await
        .expect(422)
        .says("kind-error");
}
