//! Having a point or a class marked again.

use super::{mark, marks_in, open_points, send, shown};
use crate::moderation::department::to_mark_again;

#[tokio::test]
async fn a_class_is_marked_again_and_what_is_done_of_it_is_counted() {
    let (mut at, round, settle) = shown().await;
    let again = format!("{round}/again");
    let before = open_points(&at.head.opens(&settle).await).len();
    let set = at.id(1).to_string();
    let all = to_mark_again(&set, "all", "half the marks throughout");
    at.tarn.post_staff(&again, &all).await.expect(403);
    at.head.post_staff(&again, &all[1..]).await.expect(422);
    at.head.sends(&again, &all).await;
    let marks = marks_in(&at, &[1]).await.len();
    let page = at.head.opens(&settle).await;
    let page = page.says(&format!("0 of {marks} marks given anew since"));
    assert!(open_points(&page).len() < before);
    at.mark_first(1, "C", "Mr Tarn", |_, most| most).await;
    let done = format!("{} of {marks} marks given anew since", marks / 4);
    let page = at.head.opens(&settle).await.says(&done);
    let page = page.says("<strong>Marked since:</strong>");
    let back = page.section("again").at("form:has([name=back])");
    let boxes = [("reason", "half the marks throughout")];
    at.head.fill(&back, &boxes).await.expect(303);
    let page = at.head.opens(&settle).await;
    let page = page.says("Nothing is marked again.");
    assert_eq!(open_points(&page).len(), before);
}

#[tokio::test]
async fn one_point_of_a_class_is_marked_again() {
    let (mut at, round, settle) = shown().await;
    let page = at.head.opens(&settle).await;
    let point = open_points(&page).remove(0).value("point");
    for set in 0..2 {
        let set = at.id(set).to_string();
        let boxes = to_mark_again(&set, &point, "read in two ways");
        at.head.sends(format!("{round}/again"), &boxes).await;
    }
    let page = at.head.opens(&settle).await;
    let page = page.says("Marked again for the whole class");
    let open = open_points(&page);
    assert!(open.iter().all(|open| open.value("point") != point));
    assert_eq!(page.count("0 of 4 marks given anew since"), 2);
}

#[tokio::test]
async fn what_is_to_be_marked_again_is_no_longer_as_it_was_agreed() {
    let (mut at, round, settle) = shown().await;
    let page = at.tarn.opens(&settle).await;
    let point = open_points(&page).remove(0);
    let second = mark(&point, "Second");
    let settled = send(&point, &mut at.tarn, &second, "both").await;
    settled.expect(303);
    let (set, key) = (at.id(1).to_string(), point.value("point"));
    let boxes = to_mark_again(&set, &key, "read in two ways");
    at.head.sends(format!("{round}/again"), &boxes).await;
    let to_do = at.tarn.opens("/moderation").await;
    to_do.says("Mark a point again for 10B/Ph2");
    let to_do = at.gill.opens("/moderation").await;
    to_do.says_nothing_of("Mark a point again");
    let page = at.tarn.opens(&settle).await;
    page.says_nothing_of("Agreed:")
        .says("0 of 4 marks given anew since");
    // Marks that are taken back again are none.
    let marking = format!("/class-sets/{set}/marking");
    let sheet = at.tarn.opens(format!("{marking}/sheets/D")).await;
    let form = sheet.at(&format!("form[action$='/award/{key}']"));
    let boxes = [("marks", "1"), ("reason", "again")];
    at.tarn.fill(&form, &boxes).await.expect(303);
    let page = at.tarn.opens(&settle).await;
    page.says("1 of 4 marks given anew since");
    at.tarn.sends(format!("{marking}/undo"), &[]).await;
    let page = at.tarn.opens(&settle).await;
    page.says("0 of 4 marks given anew since");
}
