use crate::support::{PASSWORD, teacher};

#[tokio::test]
async fn head_adds_a_colleague_who_cannot_add_more() {
    let mut head = teacher().await;
    let mut colleague = head.colleague("Mr Tarn").await;
    head.opens("/staff").await.says("Mr Tarn");
    colleague
        .opens("/staff")
        .await
        .says_nothing_of("/staff/invite");
    colleague.post_staff("/staff/invite", &[]).await.expect(403);
}

#[tokio::test]
async fn name_that_is_taken_leaves_the_link_good() {
    let mut head = teacher().await;
    let link = head.invite().await;
    let account = |name| [("name", name), ("password", PASSWORD), ("again", PASSWORD)];
    head.app
        .post(&link, &account("ms  FELL"))
        .await
        .expect(422)
        .says("has an account with this name");
    head.app
        .post(&link, &account("Ms B Fell"))
        .await
        .expect(303);
}
