//! Closing a round, and that its record stays as it was.

use server::db::moderation_record;
use server::db::round;
use server::ids::RoundId;
use server::report::moderation::record::Record;

use super::department::{Department, mark_all, marked, number, to_mark_again};
use super::settle::{send, sheets, whole};
use crate::support::{NAME, Reply, TestApp, walk};

/// A round whose second marks are shown: full marks on every point.
async fn shown(at: &mut Department) -> String {
    let round = at.make_round(&["Mrs Gill", "Mr Tarn"]).await;
    at.pick(&round, &["A", "B"]).await;
    mark_all(&mut at.gill, &round, |_, most| most).await;
    mark_all(&mut at.tarn, &round, |_, most| most).await;
    at.show(&round).await;
    let ruling = [("point", "1"), ("ruling", "A gap counts once.")];
    at.head.sends(format!("{round}/rulings"), &ruling).await;
    at.draw(&round).await;
    mark_all(&mut at.gill, &round, |_, most| most).await;
    mark_all(&mut at.tarn, &round, |_, most| most).await;
    at.show(&round).await;
    round
}

/// Says of every sheet that is open that its first marks stand; how many
/// there were.
async fn settle_all(at: &mut Department, round: &str) -> usize {
    let settle = format!("{round}/settle");
    let page = at.head.opens(&settle).await.page();
    let open = sheets(&page.section("open"));
    for sheet in &open {
        let form = whole(&page, *sheet);
        let settled = send(&form, &mut at.head, "", "seen together, they stand");
        settled.await.expect(303);
    }
    open.len()
}

/// A closed round.
async fn closed() -> (Department, String) {
    let mut at = marked().await;
    let round = shown(&mut at).await;
    settle_all(&mut at, &round).await;
    let close = at.head.sends(format!("{round}/close"), &[]).await;
    let record = format!("{round}/record");
    assert_eq!(close.location(), record, "closing leads to the record");
    (at, round)
}

/// The record of a round as it is stored, and read.
async fn stored(app: &TestApp, round: &str) -> (String, Record) {
    let id = RoundId(number(round));
    let stored = moderation_record::find(&mut app.db().await, id).await;
    let body = stored.unwrap().unwrap().body;
    let record = serde_json::from_str(&body).unwrap();
    (body, record)
}

/// A page without what is new on each view.
fn body(reply: &Reply) -> String {
    let token = reply.hidden("token");
    reply.at("main").html().replace(&token, "")
}

#[tokio::test]
async fn a_round_with_differences_left_does_not_close() {
    let mut at = marked().await;
    let round = shown(&mut at).await;
    let (close, record) = (format!("{round}/close"), format!("{round}/record"));
    let reply = at.head.post_staff(&close, &[]).await.expect(400);
    reply.says("differences to settle first");
    at.head.get(&record).await.expect(404);
    assert!(settle_all(&mut at, &round).await > 0);
    at.tarn.post_staff(&close, &[]).await.expect(403);
    at.head.sends(&close, &[]).await;
    at.head.opens(&record).await;
    let again = at.head.sends(&close, &[]).await;
    assert_eq!(again.location(), round);
}

#[tokio::test]
async fn marking_again_is_waited_for_unless_it_is_said_that_it_is_not() {
    let mut at = marked().await;
    let round = shown(&mut at).await;
    settle_all(&mut at, &round).await;
    let set = at.id(1).to_string();
    let boxes = to_mark_again(&set, "all", "too mild");
    at.head.sends(format!("{round}/again"), &boxes).await;
    let close = format!("{round}/close");
    let reply = at.head.post_staff(&close, &[]).await.expect(400);
    reply.says("tick that you mean it");
    at.head.sends(&close, &[("pending", "yes")]).await;
    let page = at.head.opens(format!("{round}/record")).await;
    page.says("To be marked again: every point.</strong> too mild")
        .says("marks given anew when the round was closed");
}

#[tokio::test]
async fn the_record_has_the_sample_both_marks_the_rulings_and_the_decisions() {
    let (mut at, round) = closed().await;
    let page = at.head.opens(format!("{round}/record")).await;
    page.says("Closed by")
        .says("four crests")
        .says("A gap counts once.")
        .says("seen together, they stand")
        .says("First marks stand: all other points")
        .says("Marked first by")
        .says("Mrs Gill, second")
        .says("Second marks shown beside the first")
        .says("The standard");
    let (body, record) = stored(&at.app, &round).await;
    assert!(serde_json::to_string(&record).unwrap() == body);
    // A and B are anchors of the first class, so not in its sample.
    assert_eq!(record.sheets.len(), 6);
    assert_eq!(record.comparison.sheets.len(), 6);
    let all: i64 = record.sheets[0].points.iter().map(|point| point.most).sum();
    for sheet in &record.sheets {
        assert_eq!(sheet.second, Some(all));
        assert_eq!(sheet.stands, sheet.first);
        let first = sheet.points.iter().map(|p| Some(p.first.as_ref()?.marks));
        assert_eq!(sheet.first, first.sum());
    }
}

#[tokio::test]
async fn whatever_is_done_later_the_record_says_the_same() {
    let (mut at, round) = closed().await;
    let (page, csv) = (format!("{round}/record"), format!("{round}/record.csv"));
    let before = at.head.opens(&page).await;
    let file = at.head.opens(&csv).await.bytes;
    at.mark_first(0, "B", NAME, |_, most| most).await;
    for sql in [
        "UPDATE class SET name = 'Renamed' WHERE id = (SELECT class_id FROM class_set WHERE id = $1)",
        "UPDATE staff SET name = 'Mrs Other' WHERE name = 'Mrs Gill' AND $1 > 0",
    ] {
        let write = sqlx::query(sql).bind(at.id(0));
        let write = write.execute(&mut at.app.sql().await).await;
        assert_eq!(write.unwrap().rows_affected(), 1, "{sql}");
    }
    assert_eq!(body(&before), body(&at.head.opens(&page).await));
    assert_eq!(file, at.head.opens(&csv).await.bytes);
}

/// A record as it was stored before its format was raised: its comparison has
/// figures that are no longer worked out, and verdicts on them.
#[tokio::test]
async fn a_record_of_format_1_stays_as_it_is_and_is_shown_as_it_was() {
    const BODY: &str = include_str!("record_of_format_1.json");
    let mut at = marked().await;
    let round = at.make_round(&["Mrs Gill"]).await;
    let sql = "INSERT INTO moderation_record (round_id, body, staff_id, closed_at) VALUES ($1, $2, $3, 0)";
    let write = sqlx::query(sql).bind(number(&round)).bind(BODY);
    let write = write.bind(at.person(NAME).await);
    write.execute(&mut at.app.sql().await).await.unwrap();
    let page = at.head.opens(format!("{round}/record")).await;
    let compared = page.section("compared");
    let figures = ["6", "0.00", "−2.48 to +2.48", "2.37", "0", "4"];
    let rows = compared.all("tbody tr").into_iter();
    assert_eq!(rows.filter(|row| row.cells()[1..] == figures).count(), 3);
    for (part, times) in [
        (
            "No difference is shown. Six sheets fix the mean to about ±2.5 marks",
            3,
        ),
        (
            "with two of six outside the tolerance. Totals hide that 36 marks changed places between the points of six sheets: the marking points below tell where.",
            3,
        ),
        (
            "Here the second markers bunch marks in the middle: sheets that the first put ten marks apart are 5.0 apart with them.",
            2,
        ),
        (
            "Bunches marks in the middle: sheets that the first markers put ten marks apart are 5.0 apart here.",
            1,
        ),
        (
            "Grew milder on the way, or the others more severe: from the first third of these sheets to the last, the difference changed by −5.0 marks.",
            1,
        ),
    ] {
        assert_eq!(compared.count(part), times, "{part}");
    }
    let file = at.head.opens(format!("{round}/record.csv")).await;
    file.says("seen together, they stand");
    assert!(stored(&at.app, &round).await.0 == BODY);
}

#[tokio::test]
async fn a_closed_round_takes_no_decision_no_ruling_and_no_mark() {
    let (mut at, round) = closed().await;
    let page = at.head.opens(format!("{round}/settle")).await;
    let page = page
        .says("<strong>The round is closed.</strong>")
        .lacks("form[method=post][action^='/moderation/']");
    let sheet = sheets(&page.page()).first().unwrap().to_string();
    let whole = [("sheet", sheet.as_str()), ("reason", "late")];
    let set = at.id(0).to_string();
    let again = to_mark_again(&set, "all", "late");
    let ruling = [("point", "1"), ("ruling", "late")];
    let acts: [(&str, &[(&str, &str)]); 3] =
        [("settle", &whole), ("again", &again), ("rulings", &ruling)];
    for (act, boxes) in acts {
        let url = format!("{round}/{act}");
        at.head.post_staff(&url, boxes).await.expect(403);
    }
}

#[tokio::test]
async fn the_data_file_itself_refuses_what_comes_after() {
    let (at, round) = closed().await;
    let refused = [
        "INSERT INTO settlement (round_id, class_set_id, kind, last_mark_id, reason, staff_id, at)
         SELECT round_id, class_set_id, 'again', 1, 'late', 1, 0 FROM round_class_set",
        "UPDATE moderation_record SET body = '{}'",
        "DELETE FROM moderation_record",
        "UPDATE settlement SET reason = 'other'",
        "DELETE FROM settlement",
        "INSERT OR REPLACE INTO moderation_record SELECT round_id, '{}', staff_id, closed_at FROM moderation_record",
    ];
    for refused in at.app.refuses(&refused).await {
        let mut reasons = ["the round is closed", "never changed", "are kept"].into_iter();
        let is_told = reasons.any(|reason| refused.contains(reason));
        assert!(is_told, "{refused}");
    }
    let stored = round::get(&mut at.app.db().await, RoundId(number(&round))).await;
    assert_eq!(stored.unwrap().step, Some(round::Step::Closed));
}

#[tokio::test]
async fn the_file_has_a_line_for_every_point_of_every_sheet() {
    let (mut at, round) = closed().await;
    let entry = [("entry", "=looked at again, nothing found")];
    at.head.sends(format!("{round}/record"), &entry).await;
    let file = at.head.opens(format!("{round}/record.csv")).await;
    let first = file.text.split(',').next().unwrap();
    let lines = file.lines();
    let of = |about: &'static str| lines.iter().filter(move |line| line[first] == about);
    let (_, record) = stored(&at.app, &round).await;
    let points: usize = record.sheets.iter().map(|sheet| sheet.points.len()).sum();
    assert_eq!(of("marks").count(), points);
    assert_eq!(of("step").count(), 6);
    assert_eq!(of("ruling").count(), 1);
    let second = of("marks").map(|line| line["second"].parse::<i64>().unwrap());
    let totals = record.sheets.iter().filter_map(|sheet| sheet.second);
    assert_eq!(second.sum::<i64>(), totals.sum::<i64>());
    let entry = of("later entry").next().unwrap();
    assert_eq!(entry["text"], "'=looked at again, nothing found");
}

#[tokio::test]
async fn later_entries_are_added_and_bad_ones_come_back() {
    let (mut at, round) = closed().await;
    let url = format!("{round}/record");
    let long = "x".repeat(2001);
    for (typed, sentence) in [
        (" ", "Write down what was found or done."),
        (long.as_str(), "Use at most 2000 characters."),
    ] {
        let reply = at.head.post_staff(&url, &[("entry", typed)]).await;
        let back = format!(">{}</textarea>", typed.trim());
        reply.expect(422).says(sentence).says(&back);
    }
    let remarked = "Two sheets were re-marked.";
    for entry in [remarked, remarked, "Filed."] {
        at.head.sends(&url, &[("entry", entry)]).await;
    }
    let page = at.head.opens(&url).await;
    assert_eq!(page.count(remarked), 1);
    let page = page.at("main").words();
    assert!(page.find(remarked).unwrap() < page.find("Filed.").unwrap());
    at.tarn.get(&url).await.expect(403);
    at.gill.get(&format!("{url}.csv")).await.expect(403);
    let mine = [("entry", "mine")];
    at.tarn.post_staff(&url, &mine).await.expect(403);
}

#[tokio::test(flavor = "multi_thread")]
async fn a_round_is_settled_closed_and_printed_in_a_browser() {
    let mut at = marked().await;
    let rounds = [shown(&mut at).await, shown(&mut at).await];
    let rounds = serde_json::to_string(&rounds).unwrap();
    walk(&at.app, "settling.mjs", &[("ROUNDS", &rounds)]).await;
}

#[tokio::test]
async fn the_record_has_every_decision_and_what_was_marked_outside_the_round() {
    let mut at = marked().await;
    let round = shown(&mut at).await;
    let (set, again) = (at.id(0).to_string(), format!("{round}/again"));
    let boxes = to_mark_again(&set, "2", "two readings");
    at.head.sends(&again, &boxes).await;
    let page = at.head.opens(format!("{round}/settle")).await;
    let back = page.at("form:has([name=back])");
    let boxes = [("reason", "one after all")];
    at.head.fill(&back, &boxes).await.expect(303);
    settle_all(&mut at, &round).await;
    // D is within the tolerance, and nobody decides on it.
    at.mark_first(1, "D", "Mr Tarn", |_, most| most).await;
    at.head.sends(format!("{round}/close"), &[]).await;
    let page = at.head.opens(format!("{round}/record")).await;
    let page = page.says("two readings").says("one after all");
    page.page().with("h3 + ul li", "3 by Mr Tarn");
}

#[tokio::test]
async fn a_head_who_marks_these_classes_blind_does_not_read_their_record() {
    let (mut at, round) = closed().await;
    let url = format!("{round}/record");
    at.head.opens(&url).await;
    let another = at.make_round(&[NAME, "Mrs Gill"]).await;
    at.draw(&another).await;
    let page = at.head.get(&url).await.expect(403);
    page.says("without seeing other marks");
    at.head.get(&format!("{url}.csv")).await.expect(403);
    let entry = [("entry", "seen")];
    at.head.post_staff(&url, &entry).await.expect(403);
}
