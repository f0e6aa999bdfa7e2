//! Settling points, and whole sheets.

use std::collections::BTreeSet;

use server::db::mark;

use super::{Form, mark_on, marks_in, open_forms, section, settle_point, sheets, shown};
use crate::moderation::department::marked;
use crate::support::{NAME, TestApp};

#[tokio::test]
async fn what_is_within_the_tolerance_needs_no_word_and_the_rest_is_first() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let page = at.head.get(&format!("{round}/settle")).await.expect(200);
    let open = section(&page.text, "open");
    // A got all marks from both; B lost every even point, C half of each.
    assert!(!open.contains("group A</h3>"), "{open}");
    for label in ["B", "C"] {
        assert_eq!(open.matches(&format!("group {label}</h3>")).count(), 2);
    }
    let within = section(&page.text, "within");
    assert_eq!(within.matches("group A</h3>").count(), 2, "{within}");
    assert!(within.contains("First 20, marked by"), "{within}");
    assert!(page.text.contains("differences to settle first"));
}

#[tokio::test]
async fn an_agreed_mark_is_given_openly_and_nothing_else_moves() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let before = (marks_in(&at, 0).await, marks_in(&at, 1).await);
    let page = at.gill.get(&format!("{round}/settle")).await.expect(200);
    let form = open_forms(&page.text).remove(0);
    let second = mark_on(&page.text, &form, "Second");
    let settled = settle_point(
        &mut at.gill,
        &round,
        &form,
        &second,
        "the gap was counted from one",
    )
    .await;
    assert_eq!(settled, 303);
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
    let page = at.gill.get(&format!("{round}/settle")).await.expect(200);
    assert!(page.text.contains(&format!(
        "<strong>Agreed: {second}.</strong> <span class=\"as-typed\">the gap was counted from one"
    )));
    assert!(!open_forms(&page.text).contains(&form));
}

#[tokio::test]
async fn choosing_the_first_mark_gives_none() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let before = marks_in(&at, 0).await.len() + marks_in(&at, 1).await.len();
    let page = at.head.get(&format!("{round}/settle")).await.expect(200);
    let form = open_forms(&page.text).remove(0);
    let first = mark_on(&page.text, &form, "First");
    assert_eq!(
        settle_point(&mut at.head, &round, &form, &first, "as ruled").await,
        303
    );
    let after = marks_in(&at, 0).await.len() + marks_in(&at, 1).await.len();
    assert_eq!(before, after);
    let page = at.head.get(&format!("{round}/settle")).await.expect(200);
    assert!(
        page.text
            .contains("<strong>The first mark stands.</strong> <span class=\"as-typed\">as ruled")
    );
}

#[tokio::test]
async fn taking_an_agreed_mark_back_to_the_first_gives_the_first_again() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let url = format!("{round}/settle");
    let page = at.head.get(&url).await.expect(200);
    let form = open_forms(&page.text).remove(0);
    let second = mark_on(&page.text, &form, "Second");
    assert_eq!(
        settle_point(&mut at.head, &round, &form, &second, "both").await,
        303
    );
    let page = at.head.get(&url).await.expect(200);
    let first = mark_on(&page.text, &form, "First");
    // With the page from before, somebody else's word would be lost.
    assert_eq!(
        settle_point(&mut at.head, &round, &form, &first, "no").await,
        409
    );
    let anew = form.anew(&page.text);
    assert_eq!(
        settle_point(&mut at.head, &round, &anew, &first, "on looking again").await,
        303
    );
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
    let page = at.head.get(&url).await.expect(200);
    let open = sheets(section(&page.text, "open"));
    let sheet = open.first().unwrap();
    let form = Form::whole(&page.text, *sheet);
    let reply = form.send(&mut at.head, &round, "", " ").await.expect(422);
    assert!(reply.text.contains("Write down why. It stays on record."));
    let why = "the script is hard to read";
    form.send(&mut at.head, &round, "", why).await.expect(303);
    let page = at.head.get(&url).await.expect(200);
    assert!(!sheets(section(&page.text, "open")).contains(sheet));
    let settled = section(&page.text, "settled");
    assert!(settled.contains(
        "<strong>All other first marks of the sheet stand.</strong> the script is hard to read"
    ));
}

#[tokio::test]
async fn letting_all_first_marks_stand_gives_back_those_that_were_changed_since() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let url = format!("{round}/settle");
    let first = marks_in(&at, 0).await;
    at.mark_first(0, "C", NAME, |_, most| most).await;
    let page = at.head.get(&url).await.expect(200);
    let of_c = first.iter().filter(|mark| mark.awarded == Some(0)).count();
    assert!(of_c > 0, "C had lost marks");
    let moved = page
        .text
        .split("<article ")
        .find(|part| part.contains("Marked since:"));
    let moved = moved.unwrap().split("id=\"sheet-").nth(1).unwrap();
    let sheet = moved.split('"').next().unwrap().parse().unwrap();
    let stale = Form {
        newest: "1".to_owned(),
        ..Form::whole(&page.text, sheet)
    };
    stale
        .send(&mut at.head, &round, "", "stale")
        .await
        .expect(409);
    let form = Form::whole(&page.text, sheet);
    form.send(&mut at.head, &round, "", "as first read")
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
    let page = at.head.get(&url).await.expect(200);
    assert!(!page.text.contains("Marked since:"));
}

#[tokio::test]
async fn what_is_wrong_with_a_form_of_a_sheet_within_the_tolerance_is_in_sight() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let page = at.head.get(&format!("{round}/settle")).await.expect(200);
    let within = section(&page.text, "within");
    assert!(within.contains("<details>"), "it is folded away at first");
    let form = Form::first_in(within);
    let first = mark_on(&page.text, &form, "First");
    let reply = form.send(&mut at.head, &round, &first, " ").await;
    let reply = reply.expect(422);
    let within = section(&reply.text, "within");
    assert!(within.contains("Write down why. It stays on record."));
    assert!(within.contains("<details open>"), "{within}");
}
