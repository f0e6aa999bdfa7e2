//! Having a point or a class marked again.

use super::{mark_on, marks_in, open_forms, settle, shown};
use crate::moderation::department::marked;
use crate::support::{Reply, TestApp};

#[tokio::test]
async fn a_class_is_marked_again_and_what_is_done_of_it_is_counted() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let (url, again) = (format!("{round}/settle"), format!("{round}/again"));
    let before = open_forms(&at.head.get(&url).await).len();
    let set = at.id(1).to_string();
    let all = [
        ("class_set", set.as_str()),
        ("point", "all"),
        ("reason", "half the marks throughout"),
    ];
    at.tarn.post_staff(&again, &all).await.expect(403);
    at.head.post_staff(&again, &all[1..]).await.expect(422);
    at.head.does(&again, &all).await;
    let page = at.head.opens(&url).await;
    assert!(open_forms(&page).len() < before);
    let marks = marks_in(&at, 1).await.len();
    assert!(
        page.text
            .contains(&format!("0 of {marks} marks given anew since"))
    );
    at.mark_first(1, "C", "Mr Tarn", |_, most| most).await;
    let page = at.head.opens(&url).await;
    let done = marks / 4;
    assert!(
        page.text
            .contains(&format!("{done} of {marks} marks given anew since"))
    );
    assert!(page.text.contains("<strong>Marked since:</strong>"));
    let back = page.section("again").at(".marking-point form");
    at.head.fill(&back, &all[2..]).await.expect(303);
    let page = at.head.opens(&url).await;
    assert_eq!(open_forms(&page).len(), before);
    assert!(page.text.contains("Nothing is marked again."));
}

#[tokio::test]
async fn one_point_of_a_class_is_marked_again() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let (url, again) = (format!("{round}/settle"), format!("{round}/again"));
    let page = at.head.opens(&url).await;
    let point = open_forms(&page).remove(0).value("point");
    let count = |page: &Reply| {
        let open = open_forms(page);
        open.iter()
            .filter(|form| form.value("point") == point)
            .count()
    };
    let before = count(&page);
    for set in 0..2 {
        let set = at.id(set).to_string();
        let boxes = [
            ("class_set", set.as_str()),
            ("point", &point),
            ("reason", "read in two ways"),
        ];
        at.head.does(&again, &boxes).await;
    }
    let page = at.head.opens(&url).await;
    assert!(before > 0);
    assert_eq!(count(&page), 0);
    assert!(page.text.contains("Marked again for the whole class"));
    assert_eq!(
        page.text.matches("0 of 4 marks given anew since").count(),
        2
    );
}

#[tokio::test]
async fn what_is_to_be_marked_again_is_no_longer_as_it_was_agreed() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let (url, again) = (format!("{round}/settle"), format!("{round}/again"));
    let page = at.tarn.opens(&url).await;
    let form = open_forms(&page).remove(0);
    let second = mark_on(&page, &form, "Second");
    settle(&mut at.tarn, &form, &second, "both")
        .await
        .expect(303);
    let (set, point) = (at.id(1).to_string(), form.value("point"));
    let boxes = [
        ("class_set", set.as_str()),
        ("point", &point),
        ("reason", "read in two ways"),
    ];
    at.head.does(&again, &boxes).await;
    let to_do = at.tarn.opens("/moderation").await;
    assert!(to_do.text.contains("Mark a point again for 10B/Ph2"));
    let to_do = at.gill.opens("/moderation").await;
    assert!(!to_do.text.contains("Mark a point again"));
    let page = at.tarn.opens(&url).await;
    assert!(!page.text.contains("<strong>Agreed:"));
    assert!(page.text.contains("0 of 4 marks given anew since"));
    // Marks that are taken back again are none.
    let marking = format!("/class-sets/{set}/marking");
    let sheet = at.tarn.opens(&format!("{marking}/sheets/D")).await;
    let award = sheet.at(&format!("#point-{point} .award"));
    let boxes = [("marks", "1"), ("reason", "again")];
    at.tarn.fill(&award, &boxes).await.expect(303);
    let page = at.tarn.opens(&url).await;
    assert!(page.text.contains("1 of 4 marks given anew since"));
    at.tarn.does(&format!("{marking}/undo"), &[]).await;
    let page = at.tarn.opens(&url).await;
    assert!(page.text.contains("0 of 4 marks given anew since"));
}
