use super::department::{Department, mark_all, marked};
use crate::support::{Browser, NAME};

/// Whether a class set is closed. `tests/roles.rs` asks for each page that
/// shows first marks; these two stand for all, since one check closes them.
async fn is_closed(browser: &mut Browser, set: &str) -> bool {
    let mut closed = Vec::new();
    for page in ["summary", "marking/sheets/A"] {
        let reply = browser.get(&format!("{set}/{page}")).await;
        let says_so = reply.text.contains("<h1>Closed to you for now</h1>");
        assert_eq!(reply.status == 403, says_so, "{}", reply.text);
        closed.push(says_so);
    }
    assert_eq!(closed[0], closed[1], "one of the two pages is closed");
    closed[0]
}

/// To whom each class set is closed: head, Mr Tarn, Mrs Gill.
async fn closed_to(at: &mut Department) -> [[bool; 3]; 2] {
    let mut by_set = [[false; 3]; 2];
    for (set, closed) in by_set.iter_mut().enumerate() {
        let url = at.sets[set].clone();
        *closed = [
            is_closed(&mut at.head, &url).await,
            is_closed(&mut at.tarn, &url).await,
            is_closed(&mut at.gill, &url).await,
        ];
    }
    by_set
}

const OPEN: [bool; 3] = [false; 3];

#[tokio::test]
async fn first_marks_are_closed_to_second_markers_until_all_are_shown() {
    let mut at = marked().await;
    assert_eq!(closed_to(&mut at).await, [OPEN, OPEN]);
    let round = at.make_round(&[NAME, "Mr Tarn"]).await;
    at.draw(&round).await;
    // Ms Fell marks Mr Tarn's class, and he hers.
    let crossed = [[false, true, false], [true, false, false]];
    assert_eq!(closed_to(&mut at).await, crossed);
    mark_all(&mut at.head, &round, |_, most| most).await;
    mark_all(&mut at.tarn, &round, |_, most| most).await;
    // They may still change their marks.
    assert_eq!(closed_to(&mut at).await, crossed);
    at.tarn.get(&format!("{round}/sample")).await.expect(403);
    at.tarn.get(&round).await.says_nothing_of("The sample</a>");
    at.gill.get(&round).await.says("The sample</a>");
    at.gill.opens(format!("{round}/sample")).await;
    at.head.sends(format!("{round}/show"), &[]).await;
    assert_eq!(closed_to(&mut at).await, [OPEN, OPEN]);
    at.tarn.opens(format!("{round}/sample")).await;
}

#[tokio::test]
async fn marks_of_an_anchors_class_are_closed_to_all_markers_until_the_standard_is_shown() {
    let mut at = marked().await;
    let round = at.begin(&["A", "B"]).await;
    assert_eq!(closed_to(&mut at).await, [[true, true, false], OPEN]);
    let page = at.tarn.get(&format!("{}/summary", at.sets[0])).await;
    page.says("you mark an anchor of this class")
        .says(&format!("href=\"{round}\""));
    mark_all(&mut at.tarn, &round, |_, most| most).await;
    mark_all(&mut at.head, &round, |_, most| most).await;
    assert_eq!(closed_to(&mut at).await, [[true, true, false], OPEN]);
    at.head.sends(format!("{round}/show"), &[]).await;
    assert_eq!(closed_to(&mut at).await, [OPEN, OPEN]);
}

/// A head who marks blind in one round makes another of the same classes.
#[tokio::test]
async fn another_round_tells_a_head_who_marks_nothing_of_first_marks() {
    let mut at = marked().await;
    let next = at.make_round(&["Mrs Gill", "Mr Tarn"]).await;
    let (sample, anchors) = (format!("{next}/sample"), format!("{next}/anchors"));
    let page = at.head.opens(&sample).await;
    page.says("<th scope=\"col\">Why</th>");
    at.head.get(&anchors).await.says("marked by Mr Tarn");
    let round = at.make_round(&[NAME, "Mrs Gill"]).await;
    at.draw(&round).await;
    let page = at.head.opens(&sample).await;
    page.says_nothing_of("<th scope=\"col\">Why</th>");
    let page = at.head.opens(&anchors).await;
    page.says_nothing_of("marked by Mr Tarn")
        .says("marked by Ms Fell");
}

/// One of two class sets has an anchor in it.
#[tokio::test]
async fn year_leaves_out_a_class_set_while_it_is_closed() {
    let mut at = marked().await;
    let round = at.make_round(&["Mrs Gill", "Mr Tarn"]).await;
    at.pick(&round, &["A", "B"]).await;
    let sheet_of_the_closed = format!("{}/sheets/", at.sets[0]);
    let whole = at.head.opens("/year").await;
    whole.says("2 class sets; 8 of 8 groups have handed in");
    let year = at.gill.opens("/year").await;
    year.says("1 class set; 4 of 4 groups have handed in")
        .says("One class set is left out here");
    for page in ["/year/sheets", "/year/sheets.csv", "/year/classes"] {
        let page = at.gill.opens(page).await;
        page.says_nothing_of(&sheet_of_the_closed);
    }
    let sheets = at.gill.get("/year/sheets").await;
    assert_eq!(sheets.count("aria-label=\"Sheet of group"), 4);
    let csv = at.gill.get("/year/sheets.csv").await;
    assert_eq!(csv.text.lines().count(), 5);
    // What was made for her is not kept for the others, nor theirs for her.
    let whole = at.head.opens("/year").await;
    whole
        .says("2 class sets; 8 of 8 groups")
        .says_nothing_of("left out here");
    at.show(&round).await;
    let year = at.gill.opens("/year").await;
    year.says("2 class sets; 8 of 8 groups")
        .says_nothing_of("left out here");
}
