//! What a second marker's browser gets is the same whoever marked first and
//! however.

use super::department::{Department, department, mark_blind, own_sheets};

/// All that a browser gets of a round, byte for byte: its pages with their
/// headers, form tokens aside.
async fn seen(at: &mut Department, round: &str) -> Vec<String> {
    let mut seen = Vec::new();
    let sheets = own_sheets(&mut at.gill, round).await;
    assert_eq!(sheets.len(), 8, "every sheet is hers");
    let of_round = ["/moderation", round].into_iter();
    let of_round = of_round.chain(sheets.iter().map(String::as_str));
    for url in of_round.chain(OF_THE_YEAR) {
        let page = at.gill.opens(url).await;
        let token = match url.ends_with(".csv") {
            true => "(none)".to_owned(),
            false => page.hidden("token"),
        };
        let text = page.text.replace(&token, "(token)");
        seen.push(format!("{url} {:?}\n{text}", page.headers));
    }
    seen
}

/// Pages and files of the year, from which her class sets are left out.
const OF_THE_YEAR: [&str; 8] = [
    "/year",
    "/year/kits",
    "/year/slips",
    "/year/slips/working/scale-left-out",
    "/year/classes",
    "/year/sheets",
    "/year/sheets.csv",
    "/year/classes.csv",
];

/// Words of the first markers on a sheet, of every kind there is.
async fn say(at: &mut Department, verdict: &str, note: &str) {
    for set in at.sets.clone() {
        let sheet = format!("{set}/sheets/B");
        let page = at.head.opens(&sheet).await;
        let form = page.at("form[action$='/decision']");
        let boxes = [("verdict", verdict), ("reason", note)];
        at.head.fill(&form, &boxes).await.expect(303);
        let note = [("note", note)];
        at.head.sends(format!("{sheet}/notes"), &note).await;
    }
}

/// Ms Fell marks everything, gives more the further down a sheet comes, and
/// confirms what the tool says.
async fn marked_one_way(at: &mut Department) {
    for set in 0..2 {
        for (place, label) in (1..).zip(["A", "B", "C", "D"]) {
            let award = |number, most| if number > 4 * place { 0 } else { most };
            at.mark_first(set, label, "Ms Fell", award).await;
        }
    }
    say(at, "confirmed", "plain to see").await;
}

/// Mr Tarn does, in another order, gives less, and dismisses it.
async fn marked_another_way(at: &mut Department) {
    for set in [1, 0] {
        for (place, label) in (1..).zip(["D", "B", "A", "C"]) {
            let award = |number, most| if number > 3 * place { 0 } else { most };
            at.mark_first(set, label, "Mr Tarn", award).await;
        }
    }
    say(at, "dismissed", "I saw them convert it").await;
}

#[tokio::test]
async fn second_markers_pages_do_not_depend_on_the_first_marks() {
    let mut seen_each_way = Vec::new();
    for way in 0..2 {
        let mut at = department().await;
        match way {
            0 => marked_one_way(&mut at).await,
            _ => marked_another_way(&mut at).await,
        }
        let round = at.drawn().await;
        let blank = seen(&mut at, &round).await;
        // The same with some of her own marks given.
        let sheets = own_sheets(&mut at.gill, &round).await;
        mark_blind(&mut at.gill, &sheets[0], |_, most| most).await;
        seen_each_way.push([blank, seen(&mut at, &round).await].concat());
    }
    let [one, other] = [&seen_each_way[0], &seen_each_way[1]];
    assert_eq!(one.len(), other.len());
    for (one, other) in one.iter().zip(other) {
        assert_eq!(one, other);
    }
}

#[tokio::test]
async fn first_marks_that_come_after_the_draw_change_nothing_either() {
    let mut at = department().await;
    marked_one_way(&mut at).await;
    let round = at.drawn().await;
    let before = seen(&mut at, &round).await;
    marked_another_way(&mut at).await;
    assert_eq!(seen(&mut at, &round).await, before);
}

#[tokio::test]
async fn second_markers_page_names_no_first_marker_and_nothing_that_they_said() {
    let mut at = department().await;
    marked_one_way(&mut at).await;
    let round = at.drawn().await;
    for sheet in own_sheets(&mut at.gill, &round).await {
        let page = at.gill.opens(&sheet).await;
        page.says_nothing_of("Ms Fell")
            .says_nothing_of("as Ms Fell saw it")
            .says_nothing_of("plain to see")
            .says_nothing_of("Confirmed")
            .says_nothing_of("Dismissed")
            .says_nothing_of("/class-sets/");
    }
}

/// The slip that a first marker dismissed is still on the sheet, and still
/// counts in what is suggested.
#[tokio::test]
async fn suggestions_are_those_of_the_sheet_alone() {
    let mut at = department().await;
    marked_another_way(&mut at).await;
    let round = at.drawn().await;
    for sheet in own_sheets(&mut at.gill, &round).await {
        let page = at.gill.opens(&sheet).await;
        let is_b = page.at("h1").words().contains("group B");
        let suggested = format!("{} of 1 suggested.", i64::from(!is_b));
        page.at("#point-7").says(&suggested);
    }
}

/// A group that hands in again after the draw is marked as it was then, as
/// first it was.
#[tokio::test]
async fn sheet_is_marked_as_it_was_when_it_was_drawn() {
    let mut at = department().await;
    marked_one_way(&mut at).await;
    let round = at.drawn().await;
    let before = seen(&mut at, &round).await;
    at.hands_in_again().await;
    assert_eq!(seen(&mut at, &round).await, before);
}

/// How the first marks are spread over the year is not for second marks to
/// change.
#[tokio::test]
async fn second_marks_are_no_part_of_the_years_marks() {
    let mut at = department().await;
    marked_one_way(&mut at).await;
    let round = at.drawn().await;
    let before = at.head.opens("/year/classes.csv").await.text;
    assert!(before.contains(",mark_mean,"), "{before}");
    for sheet in own_sheets(&mut at.gill, &round).await {
        mark_blind(&mut at.gill, &sheet, |_, _| 0).await;
    }
    let after = at.head.opens("/year/classes.csv").await.text;
    assert_eq!(before, after);
}
