//! Settling points, and whole sheets.

use std::collections::BTreeSet;

use server::db::mark;

use super::{anew, marks_in, number_of, open_points, send, sheets, shown, whole};
use crate::support::NAME;

#[tokio::test]
async fn what_is_within_the_tolerance_needs_no_word_and_the_rest_is_first() {
    let (mut at, _, settle) = shown().await;
    let page = at.head.opens(&settle).await;
    let open = page.section("open");
    // A got all marks from both; B lost every even point, C half of each.
    assert_eq!(open.count("group A"), 0, "{}", open.words());
    for label in ["B", "C"] {
        let heads = open.all("h3").into_iter().map(|head| head.words());
        let group = format!("group {label}");
        assert_eq!(heads.filter(|head| head.ends_with(&group)).count(), 2);
    }
    let within = page.section("within");
    let heads = within.all("h3").into_iter().map(|head| head.words());
    assert_eq!(heads.filter(|head| head.ends_with("group A")).count(), 2);
    within.says("First 20, marked by");
    page.says("differences to settle first");
}

#[tokio::test]
async fn an_agreed_mark_is_given_openly_and_nothing_else_moves() {
    let (mut at, _, settle) = shown().await;
    let before = marks_in(&at, &[0, 1]).await;
    let page = at.gill.opens(&settle).await;
    let point = open_points(&page).remove(0);
    let second = super::mark(&point, "Second");
    let why = "the gap was counted from one";
    let settled = send(&point, &mut at.gill, &second, why).await;
    settled.expect(303);
    let after = marks_in(&at, &[0, 1]).await;
    let new: Vec<_> = after.iter().filter(|mark| !before.contains(mark)).collect();
    assert_eq!(new.len(), 1);
    let given = (new[0].awarded, new[0].by.as_str());
    assert_eq!(given, (second.parse().ok(), "Mrs Gill"));
    let reason = format!("Agreed in the moderation round Autumn: {why}");
    assert_eq!((new[0].reason.as_str(), new[0].why()), (why, reason));
    let page = at.gill.opens(&settle).await;
    page.page().says(&format!("Agreed: {second}. {why}"));
    let mut open = open_points(&page).into_iter();
    assert!(open.all(|open| open.attr("id") != point.attr("id")));
}

#[tokio::test]
async fn choosing_the_first_mark_gives_none() {
    let (mut at, _, settle) = shown().await;
    let before = marks_in(&at, &[0, 1]).await;
    let page = at.head.opens(&settle).await;
    let point = open_points(&page).remove(0);
    let first = super::mark(&point, "First");
    let settled = send(&point, &mut at.head, &first, "as ruled").await;
    settled.expect(303);
    assert_eq!(before, marks_in(&at, &[0, 1]).await);
    let page = at.head.opens(&settle).await;
    page.says("<strong>The first mark stands.</strong> <span class=\"as-typed\">as ruled");
}

#[tokio::test]
async fn taking_an_agreed_mark_back_to_the_first_gives_the_first_again() {
    let (mut at, _, settle) = shown().await;
    let page = at.head.opens(&settle).await;
    let point = open_points(&page).remove(0);
    let second = super::mark(&point, "Second");
    let settled = send(&point, &mut at.head, &second, "both").await;
    settled.expect(303);
    let page = at.head.opens(&settle).await;
    let first = super::mark(&anew(&page, &point), "First");
    // With the page from before, somebody else's word would be lost.
    let stale = send(&point, &mut at.head, &first, "no").await;
    stale.expect(409);
    let anew = anew(&page, &point);
    let settled = send(&anew, &mut at.head, &first, "on looking again");
    settled.await.expect(303);
    let all = marks_in(&at, &[0, 1]).await;
    let newest = all.iter().max_by_key(|mark| mark.id.0).unwrap();
    assert_eq!(newest.awarded.unwrap().to_string(), first);
    let reason = "The first mark stands in the moderation round Autumn";
    assert!(newest.why().starts_with(reason), "{newest:?}");
}

#[tokio::test]
async fn a_whole_sheet_may_stand_as_it_was_marked_first() {
    let (mut at, _, settle) = shown().await;
    let page = at.head.opens(&settle).await;
    let open = sheets(&page.section("open"));
    let sheet = open.first().unwrap();
    let form = whole(&page.page(), *sheet);
    let blank = send(&form, &mut at.head, "", " ").await;
    blank
        .expect(422)
        .says("Write down why. It stays on record.");
    let why = "the script is hard to read";
    let settled = send(&form, &mut at.head, "", why).await;
    settled.expect(303);
    let page = at.head.opens(&settle).await;
    assert!(!sheets(&page.section("open")).contains(sheet));
    let word = format!("All other first marks of the sheet stand. {why}");
    page.section("settled").says(&word);
}

#[tokio::test]
async fn letting_all_first_marks_stand_gives_back_those_that_were_changed_since() {
    let (mut at, _, settle) = shown().await;
    let first = marks_in(&at, &[0]).await;
    let lost = first.iter().any(|mark| mark.awarded == Some(0));
    assert!(lost, "C had lost marks");
    at.mark_first(0, "C", NAME, |_, most| most).await;
    let page = at.head.opens(&settle).await;
    let moved = page.page().with("article", "Marked since:");
    let form = whole(&page.page(), number_of(&moved));
    let stale = [("newest", "1"), ("reason", "stale")];
    let refused = at.head.fill(&form.at("form"), &stale).await;
    refused.expect(409);
    let settled = send(&form, &mut at.head, "", "as first read").await;
    settled.expect(303);
    let awarded = |marks: Vec<mark::Mark>| -> BTreeSet<(i64, i64, Option<i64>)> {
        let marks = marks.into_iter();
        marks
            .map(|mark| (mark.sheet_id.0, mark.key, mark.awarded))
            .collect()
    };
    assert_eq!(awarded(first), awarded(marks_in(&at, &[0]).await));
    let page = at.head.opens(&settle).await;
    page.says_nothing_of("Marked since:");
}

#[tokio::test]
async fn what_is_wrong_with_a_form_of_a_sheet_within_the_tolerance_is_in_sight() {
    let (mut at, _, settle) = shown().await;
    let page = at.head.opens(&settle).await;
    let within = page.section("within");
    let folded = within.at("details:not([open])");
    let point = folded.at(".marking-point");
    let first = super::mark(&point, "First");
    let reply = send(&point, &mut at.head, &first, " ").await;
    let reply = reply.expect(422);
    let within = reply.section("within").at("details[open]");
    within.says("Write down why. It stays on record.");
}
