//! Settling points, and whole sheets.

use std::collections::BTreeSet;

use server::db::mark;

use super::{block, mark_on, marks_in, open_forms, place, settle, sheets, shown, whole};
use crate::moderation::department::marked;
use crate::support::{NAME, Part, TestApp};

#[tokio::test]
async fn what_is_within_the_tolerance_needs_no_word_and_the_rest_is_first() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let page = at.head.opens(&format!("{round}/settle")).await;
    let called = |section: &str, label: &str| {
        let headings = page.section(section).all("h3");
        let is_of = |heading: &&Part| heading.words().ends_with(&format!("group {label}"));
        headings.iter().filter(is_of).count()
    };
    // A got all marks from both; B lost every even point, C half of each.
    assert_eq!(
        ["A", "B", "C"].map(|label| called("open", label)),
        [0, 2, 2]
    );
    assert_eq!(called("within", "A"), 2);
    page.section("within").says("First 20, marked by");
    page.says("differences to settle first");
}

#[tokio::test]
async fn an_agreed_mark_is_given_openly_and_nothing_else_moves() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let before = (marks_in(&at, 0).await, marks_in(&at, 1).await);
    let page = at.gill.opens(&format!("{round}/settle")).await;
    let form = open_forms(&page).remove(0);
    let second = mark_on(&page, &form, "Second");
    let why = "the gap was counted from one";
    settle(&mut at.gill, &form, &second, why).await.expect(303);
    let after = (marks_in(&at, 0).await, marks_in(&at, 1).await);
    let all = |(one, other): (Vec<mark::Mark>, Vec<mark::Mark>)| [one, other].concat();
    let (before, after) = (all(before), all(after));
    let new: Vec<_> = after.iter().filter(|mark| !before.contains(mark)).collect();
    assert_eq!(new.len(), 1);
    assert_eq!(
        (new[0].awarded, new[0].by.as_str()),
        (second.parse().ok(), "Mrs Gill")
    );
    assert_eq!(
        new[0].reason,
        "Agreed in the moderation round Autumn: the gap was counted from one"
    );
    let page = at.gill.opens(&format!("{round}/settle")).await;
    let agreed = format!("Agreed: {second}. {why}");
    page.at("main").says(&agreed);
    let open = open_forms(&page);
    assert!(open.iter().all(|other| place(other) != place(&form)));
}

#[tokio::test]
async fn choosing_the_first_mark_gives_none() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let before = marks_in(&at, 0).await.len() + marks_in(&at, 1).await.len();
    let page = at.head.opens(&format!("{round}/settle")).await;
    let form = open_forms(&page).remove(0);
    let first = mark_on(&page, &form, "First");
    settle(&mut at.head, &form, &first, "as ruled")
        .await
        .expect(303);
    let after = marks_in(&at, 0).await.len() + marks_in(&at, 1).await.len();
    assert_eq!(before, after);
    let page = at.head.opens(&format!("{round}/settle")).await;
    page.at("main").says("The first mark stands. as ruled");
}

#[tokio::test]
async fn taking_an_agreed_mark_back_to_the_first_gives_the_first_again() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let url = format!("{round}/settle");
    let page = at.head.opens(&url).await;
    let form = open_forms(&page).remove(0);
    let second = mark_on(&page, &form, "Second");
    settle(&mut at.head, &form, &second, "both")
        .await
        .expect(303);
    let page = at.head.opens(&url).await;
    let first = mark_on(&page, &form, "First");
    // With the page from before, somebody else's word would be lost.
    settle(&mut at.head, &form, &first, "no").await.expect(409);
    let anew = block(&page, &form).at("form");
    settle(&mut at.head, &anew, &first, "on looking again")
        .await
        .expect(303);
    let all = [marks_in(&at, 0).await, marks_in(&at, 1).await].concat();
    let newest = all.iter().max_by_key(|mark| mark.id.0).unwrap();
    assert_eq!(newest.awarded.unwrap().to_string(), first);
    assert!(
        newest
            .reason
            .starts_with("The first mark stands in the moderation round Autumn")
    );
}

#[tokio::test]
async fn a_whole_sheet_may_stand_as_it_was_marked_first() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let url = format!("{round}/settle");
    let page = at.head.opens(&url).await;
    let open = sheets(&page.section("open"));
    let sheet = open.first().unwrap();
    let form = whole(&page, *sheet);
    settle(&mut at.head, &form, "", " ")
        .await
        .expect(422)
        .says("Write down why. It stays on record.");
    let why = "the script is hard to read";
    settle(&mut at.head, &form, "", why).await.expect(303);
    let page = at.head.opens(&url).await;
    assert!(!sheets(&page.section("open")).contains(sheet));
    page.section("settled")
        .says(&format!("All other first marks of the sheet stand. {why}"));
}

#[tokio::test]
async fn letting_all_first_marks_stand_gives_back_those_that_were_changed_since() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let url = format!("{round}/settle");
    let first = marks_in(&at, 0).await;
    at.mark_first(0, "C", NAME, |_, most| most).await;
    let page = at.head.opens(&url).await;
    let of_c = first.iter().filter(|mark| mark.awarded == Some(0)).count();
    assert!(of_c > 0, "C had lost marks");
    let mut articles = page.page().all("article");
    articles.retain(|article| article.words().contains("Marked since:"));
    let sheet = articles[0].attr("id").replace("sheet-", "").parse();
    let form = whole(&page, sheet.unwrap());
    let stale = [("newest", "1"), ("reason", "stale")];
    at.head.fill(&form, &stale).await.expect(409);
    settle(&mut at.head, &form, "", "as first read")
        .await
        .expect(303);
    let after = marks_in(&at, 0).await;
    let awarded = |marks: &[mark::Mark]| -> BTreeSet<(i64, i64, Option<i64>)> {
        let marks = marks.iter();
        marks
            .map(|mark| (mark.sheet_id.0, mark.key, mark.awarded))
            .collect()
    };
    assert_eq!(awarded(&first), awarded(&after));
    let page = at.head.opens(&url).await;
    assert!(!page.text.contains("Marked since:"));
}

#[tokio::test]
async fn what_is_wrong_with_a_form_of_a_sheet_within_the_tolerance_is_in_sight() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let page = at.head.opens(&format!("{round}/settle")).await;
    let form = page.section("within").at("details:not([open]) form");
    let first = mark_on(&page, &form, "First");
    let reply = settle(&mut at.head, &form, &first, " ").await.expect(422);
    reply
        .section("within")
        .at("details[open]")
        .says("Write down why. It stays on record.");
}
