use std::collections::BTreeSet;

use super::department::{Department, department, marked, own_sheets};
use crate::support::{NAME, Part, Reply, TestApp};

/// Asks for so many sheets of any cohort.
async fn ask_for(at: &mut Department, size: &str) {
    let boxes = [("size.larger", size)];
    at.head.sends("/moderation/sizes", &boxes).await;
}

/// What was drawn: name, why and second marker of each, by place.
async fn drawn(app: &TestApp) -> Vec<(String, String, String)> {
    let sql = "SELECT bench.class_set_id || '/' || bench.label, why, staff.name FROM round_sheet
               JOIN sheet ON sheet.id = sheet_id JOIN bench ON bench.id = bench_id
               JOIN staff ON staff.id = marker_id WHERE kind = 'sample' ORDER BY place";
    app.rows(sql).await
}

#[tokio::test]
async fn nobody_gets_a_sheet_that_they_marked_first() {
    let mut at = marked().await;
    // A colleague put one mark on another's sheet.
    at.mark_first(0, "C", "Mr Tarn", |_, most| most / 2).await;
    at.mark_first(0, "C", NAME, |_, most| most / 2).await;
    let round = at.make_round(&[NAME, "Mr Tarn", "Mrs Gill"]).await;
    at.draw(&round).await;
    let [first, second] = [at.id(0), at.id(1)];
    let sheets = drawn(&at.app).await;
    assert_eq!(sheets.len(), 8);
    for (name, _, marker) in &sheets {
        let forbidden: &[&str] = match name {
            name if *name == format!("{first}/C") => &[NAME, "Mr Tarn"],
            name if name.starts_with(&format!("{first}/")) => &[NAME],
            name if name.starts_with(&format!("{second}/")) => &["Mr Tarn"],
            other => panic!("{other}"),
        };
        assert!(!forbidden.contains(&marker.as_str()), "{name}: {marker}");
    }
    // Eight sheets, three markers.
    let mut loads = Vec::new();
    for (browser, who) in [
        (&mut at.head, NAME),
        (&mut at.tarn, "Mr Tarn"),
        (&mut at.gill, "Mrs Gill"),
    ] {
        let theirs = sheets.iter().filter(|(_, _, marker)| marker == who);
        loads.push(theirs.count());
        let own = own_sheets(browser, &round).await.len();
        assert_eq!(loads.last(), Some(&own), "{who}");
    }
    loads.sort_unstable();
    assert_eq!(loads, [2, 3, 3]);
}

#[tokio::test]
async fn sample_is_the_one_that_was_shown_and_covers_what_it_must() {
    let mut at = marked().await;
    ask_for(&mut at, "5").await;
    let round = at.make_round(&["Mrs Gill"]).await;
    let url = format!("{round}/sample");
    let preview = at.head.opens(&url).await;
    let preview = preview
        .says("5 of 8 sheets, as the department’s table says.")
        .says("<li>Mrs Gill: 5 sheets</li>");
    let table = preview.at("tbody");
    at.draw(&round).await;
    let sheets = drawn(&at.app).await;
    assert_eq!(sheets.len(), 5);
    let whys: BTreeSet<&str> = sheets.iter().map(|(_, why, _)| why.as_str()).collect();
    for why in ["highest", "lowest", "middle"] {
        assert!(whys.iter().any(|told| told.starts_with(why)), "{whys:?}");
    }
    let classes = sheets.iter().map(|(name, _, _)| name.split('/').next());
    assert_eq!(classes.collect::<BTreeSet<_>>().len(), 2);
    for (name, why, _) in &sheets {
        let row = table.row(name);
        assert!(row.iter().any(|cell| cell.contains(why)), "{why}: {row:?}");
    }
    // The whole draw is there for whoever draws again.
    let page = at.head.opens(&url).await;
    let page = page
        .says("drawn with the seed <strong>four crests</strong>")
        .says("printf 'four crests\\n12/A' | sha256sum")
        .says("All 8 sheets by ticket");
    let ticket = analysis::moderation::ticket::ticket("four crests", &sheets[0].0);
    assert_eq!(page.count(&ticket[..8]), 2);
}

#[tokio::test]
async fn a_head_who_marks_is_not_told_why_but_that_the_rules_took_more_than_was_asked_for() {
    let mut at = marked().await;
    ask_for(&mut at, "2").await;
    let round = at.make_round(&[NAME, "Mrs Gill"]).await;
    let preview = at.head.opens(format!("{round}/sample")).await;
    let preview = preview
        .says("of 8 sheets.")
        .says("The rules took more than the 2 of the department’s table")
        .says("You mark sheets of these classes yourself");
    let table = preview.at("tbody").words();
    let told = ["total", "random"].map(|why| table.contains(why));
    assert_eq!(told, [false; 2], "{table}");
}

#[tokio::test]
async fn anchors_unfinished_sheets_and_those_without_a_marker_are_left_out_and_named() {
    let mut at = marked().await;
    // Mr Tarn takes his mark on one point back.
    let sql = "INSERT INTO mark (sheet_id, marking_point_id, revision_id, awarded, suggested, reason, act, undoes, staff_id, marked_at)
                       SELECT sheet_id, marking_point_id, revision_id, NULL, NULL, '', act, NULL, staff_id, marked_at
                       FROM mark ORDER BY id DESC LIMIT 1";
    let write = sqlx::query(sql).execute(&mut at.app.sql().await).await;
    assert_eq!(write.unwrap().rows_affected(), 1);
    let round = at.make_round(&[NAME, "Mr Tarn"]).await;
    // Mr Tarn has had a hand in a sheet of Ms Fell's.
    at.mark_first(0, "D", "Mr Tarn", |_, most| most).await;
    at.pick(&round, &["A", "B"]).await;
    at.show(&round).await;
    let [first, second] = [at.id(0), at.id(1)];
    let sample = format!("{round}/sample");
    let page = at.head.opens(&sample).await;
    page.says("4 of 4 sheets")
        .says(&format!("not every point has a mark yet: {second}/D."))
        .says(&format!("as anchors: {first}/A, {first}/B."))
        .says(&format!("marked them first): {first}/D."));
    at.draw(&round).await;
    assert_eq!(drawn(&at.app).await.len(), 4);
    // The page of the draw still tells of them.
    at.show(&round).await;
    let page = at.head.opens(&sample).await;
    page.says(&format!("had marked them first): {first}/D."))
        .says("no, nobody left to mark it");
}

#[tokio::test]
async fn nothing_is_drawn_before_there_are_marks_nor_while_anchors_are_marked() {
    let mut at = department().await;
    let round = at.make_round(&[NAME, "Mr Tarn"]).await;
    let url = format!("{round}/sample");
    let page = at.head.opens(&url).await;
    page.says("nothing to draw from yet")
        .says_nothing_of("Draw this sample");
    let blank = [("digest", "")];
    at.head.post_staff(&url, &blank).await.expect(400);
    at.tarn.get(&url).await.expect(403);
    at.tarn.post_staff(&url, &[]).await.expect(403);
    at.pick(&round, &["A", "B"]).await;
    at.head.get(&url).await.expect(404);
    assert_eq!(drawn(&at.app).await, []);
}

#[tokio::test]
async fn draw_that_would_be_another_than_shown_is_refused() {
    let mut at = marked().await;
    ask_for(&mut at, "3").await;
    let round = at.make_round(&["Mrs Gill"]).await;
    let url = format!("{round}/sample");
    let digest = at.head.opens(&url).await.hidden("digest");
    let boxes = [("digest", digest.as_str())];
    // The best sheets are not the best any more.
    for (set, by) in [(0, NAME), (1, "Mr Tarn")] {
        let award = |number, _| i64::from(number == 1);
        at.mark_first(set, "A", by, award).await;
    }
    let refused = at.head.post_staff(&url, &boxes).await.expect(400);
    refused.says("Nothing was drawn");
    assert_eq!(drawn(&at.app).await, []);
    let digest = at.head.opens(&url).await.hidden("digest");
    let boxes = [("digest", digest.as_str())];
    at.head.sends(&url, &boxes).await;
    let once = drawn(&at.app).await;
    // Pressed twice, it is drawn once.
    at.head.sends(&url, &boxes).await;
    assert_eq!(drawn(&at.app).await, once);
}

#[tokio::test]
async fn same_seed_draws_the_same_sheets_in_another_round() {
    let mut at = marked().await;
    ask_for(&mut at, "4").await;
    let mut tables = Vec::new();
    for _ in 0..2 {
        let round = at.make_round(&["Mrs Gill"]).await;
        let page = at.head.opens(format!("{round}/sample")).await;
        tables.push(page.at("tbody").html());
        // Else the next would be taken for the same one, made once more.
        at.draw(&round).await;
    }
    assert_eq!(tables[0], tables[1]);
}

#[tokio::test]
async fn a_teacher_sees_no_total_nor_marker_of_a_colleagues_sheet() {
    let mut at = marked().await;
    let round = at.drawn().await;
    let page = at.tarn.opens(format!("{round}/sample")).await;
    let [first, second] = [at.id(0), at.id(1)];
    let cells = |page: &Reply, name: String| {
        let mut rows = page.page().all("tr:has(th[scope=row])");
        rows.retain(|row| row.at("th").words() == name);
        let rows: Vec<_> = rows.iter().map(Part::cells).collect();
        <[_; 2]>::try_from(rows).unwrap()
    };
    for label in ["A", "B", "C", "D"] {
        let [drawn, from] = cells(&page, format!("{first}/{label}"));
        assert_eq!(drawn[3..], ["", ""]);
        assert_eq!(from[2..], ["", "", "yes"]);
        let [drawn, from] = cells(&page, format!("{second}/{label}"));
        assert_eq!(drawn[4], "Mrs Gill");
        assert_eq!(from[3..], ["Mr Tarn", "yes"]);
        assert_ne!(from[2], "");
    }
    let page = at.head.opens(format!("{round}/sample")).await;
    let [_, from] = cells(&page, format!("{second}/A"));
    assert_eq!(from[3], "Mr Tarn");
}

#[tokio::test]
async fn page_of_a_draw_tells_the_size_that_the_table_had_then() {
    let mut at = marked().await;
    ask_for(&mut at, "4").await;
    let round = at.drawn().await;
    ask_for(&mut at, "7").await;
    let url = format!("{round}/sample");
    let page = at.head.opens(&url).await;
    page.says("The department’s table asked for 4 then.");
    ask_for(&mut at, "").await;
    let all = at.drawn().await;
    let page = at.head.opens(format!("{all}/sample")).await;
    page.says("asked for all of them then.");
}
