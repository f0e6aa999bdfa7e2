use crate::support::{Lesson, teacher};

#[tokio::test]
async fn hand_out_has_address_code_picture_cautions_and_kit_list() {
    let mut at = Lesson::new().await;
    let page = at.page("").await.says("<strong>http://lab.test</strong>");
    let page = page.says(&format!(
        "QR code that leads to http://lab.test/c/{}",
        at.code
    ));
    page.says("photosensitive epilepsy")
        .says("straight dipper")
        .says_nothing_of("only on this computer");
    let (url, _) = at.teacher.make_class_set("string-loops").await;
    at.teacher
        .opens(&url)
        .await
        .says("eye protection")
        .says("metre ruler");
}

#[tokio::test]
async fn unknown_class_set_is_404() {
    let mut teacher = teacher().await;
    for id in ["99", "-1", "9223372036854775807"] {
        teacher.get(&format!("/class-sets/{id}")).await.expect(404);
    }
    for id in ["x", "1.5", "99999999999999999999"] {
        teacher.get(&format!("/class-sets/{id}")).await.expect(400);
    }
}

#[tokio::test]
async fn states_of_benches_follow_the_work() {
    let mut at = Lesson::new().await;
    at.page("")
        .await
        .says("Not begun")
        .says_nothing_of("Writing");
    at.pupil.take_bench(&at.code, "A").await;
    at.page("").await.says("Writing");
    at.keeps("save", &[("r1.dial", "10")]).await;
    at.page("").await.says("Saved at 10:42, not handed in");
    at.keeps("hand_in", &[("r1.dial", "10")]).await;
    at.page("").await.says("Handed in at 10:42");
    at.teacher.get("/class-sets").await.says("1 of 4");
    at.pupil
        .get(&at.benches())
        .await
        .says("Handed in. You may need");
    at.app.clock.advance(3 * 60_000);
    at.keeps("save", &[("r1.dial", "11")]).await;
    at.page("")
        .await
        .says("Handed in at 10:42, changed at 10:45");
}
