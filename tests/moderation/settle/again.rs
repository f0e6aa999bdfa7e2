//! Having a point or a class marked again.

use super::{Form, mark_on, marks_in, open_forms, section, shown};
use crate::moderation::department::marked;
use crate::support::TestApp;

#[tokio::test]
async fn a_class_is_marked_again_and_what_is_done_of_it_is_counted() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let (url, again) = (format!("{round}/settle"), format!("{round}/again"));
    let before = open_forms(&at.head.get(&url).await.expect(200).text).len();
    let set = at.id(1).to_string();
    let all = [
        ("class_set", set.as_str()),
        ("point", "all"),
        ("reason", "half the marks throughout"),
    ];
    at.tarn.post_staff(&again, &all).await.expect(403);
    at.head.post_staff(&again, &all[1..]).await.expect(422);
    at.head.post_staff(&again, &all).await.expect(303);
    let page = at.head.get(&url).await.expect(200);
    assert!(open_forms(&page.text).len() < before);
    let marks = marks_in(&at, 1).await.len();
    assert!(
        page.text
            .contains(&format!("0 of {marks} marks given anew since"))
    );
    at.mark_first(1, "C", "Mr Tarn", |_, most| most).await;
    let page = at.head.get(&url).await.expect(200);
    let done = marks / 4;
    assert!(
        page.text
            .contains(&format!("{done} of {marks} marks given anew since"))
    );
    assert!(page.text.contains("<strong>Marked since:</strong>"));
    let back = section(&page.text, "again");
    let back = back.split("name=\"back\"").nth(1).unwrap();
    let seen = Form::first_in(back).seen;
    let back = [&all[..], &[("back", "yes"), ("seen", &seen)]].concat();
    at.head.post_staff(&again, &back).await.expect(303);
    let page = at.head.get(&url).await.expect(200);
    assert_eq!(open_forms(&page.text).len(), before);
    assert!(page.text.contains("Nothing is marked again."));
}

#[tokio::test]
async fn one_point_of_a_class_is_marked_again() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let (url, again) = (format!("{round}/settle"), format!("{round}/again"));
    let page = at.head.get(&url).await.expect(200);
    let point = open_forms(&page.text).remove(0).point;
    let count = |text: &str| {
        open_forms(text)
            .iter()
            .filter(|form| form.point == point)
            .count()
    };
    let before = count(&page.text);
    for set in 0..2 {
        let set = at.id(set).to_string();
        let boxes = [
            ("class_set", set.as_str()),
            ("point", &point),
            ("reason", "read in two ways"),
        ];
        at.head.post_staff(&again, &boxes).await.expect(303);
    }
    let page = at.head.get(&url).await.expect(200);
    assert!(before > 0);
    assert_eq!(count(&page.text), 0);
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
    let page = at.tarn.get(&url).await.expect(200);
    let form = open_forms(&page.text).remove(0);
    let second = mark_on(&page.text, &form, "Second");
    form.send(&mut at.tarn, &round, &second, "both")
        .await
        .expect(303);
    let set = at.id(1).to_string();
    let boxes = [
        ("class_set", set.as_str()),
        ("point", &form.point),
        ("reason", "read in two ways"),
    ];
    at.head.post_staff(&again, &boxes).await.expect(303);
    let to_do = at.tarn.get("/moderation").await.expect(200);
    assert!(to_do.text.contains("Mark a point again for 10B/Ph2"));
    let to_do = at.gill.get("/moderation").await.expect(200);
    assert!(!to_do.text.contains("Mark a point again"));
    let page = at.tarn.get(&url).await.expect(200);
    assert!(!page.text.contains("<strong>Agreed:"));
    assert!(page.text.contains("0 of 4 marks given anew since"));
    // Marks that are taken back again are none.
    let marking = format!("/class-sets/{set}/marking");
    let sheet = at
        .tarn
        .get(&format!("{marking}/sheets/D"))
        .await
        .expect(200);
    let award = format!("{marking}/sheets/D/award/{}", form.point);
    let part = sheet.text.split(&award).nth(1).unwrap();
    let hidden = |name: &str| {
        let start = format!("name=\"{name}\" value=\"");
        let rest = part.split(start.as_str()).nth(1).unwrap();
        rest.split('"').next().unwrap().to_owned()
    };
    let (revision, newest) = (hidden("revision"), hidden("newest"));
    let boxes = [
        ("revision", revision.as_str()),
        ("newest", &newest),
        ("marks", "1"),
        ("reason", "again"),
    ];
    at.tarn.post_staff(&award, &boxes).await.expect(303);
    let page = at.tarn.get(&url).await.expect(200);
    assert!(page.text.contains("1 of 4 marks given anew since"));
    at.tarn
        .post_staff(&format!("{marking}/undo"), &[])
        .await
        .expect(303);
    let page = at.tarn.get(&url).await.expect(200);
    assert!(page.text.contains("0 of 4 marks given anew since"));
}
