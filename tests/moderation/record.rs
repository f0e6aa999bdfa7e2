//! Closing a round, and that its record stays as it was.

use server::db::moderation_record;
use server::db::round;
use server::ids::RoundId;
use server::report::moderation::record::Record;

use super::department::{Department, mark_all, marked, number};
use crate::support::{Browser, NAME, Reply, TestApp, walk};

/// A round whose second marks are shown: full marks on every point.
async fn shown(at: &mut Department<'_>) -> String {
    let round = at.make_round(&["Mrs Gill", "Mr Tarn"]).await;
    at.pick(&round, &["A", "B"]).await;
    mark_all(&mut at.gill, &round, |_, most| most).await;
    mark_all(&mut at.tarn, &round, |_, most| most).await;
    show(at, &round).await;
    let ruling = [("point", "1"), ("ruling", "A gap counts once.")];
    let url = format!("{round}/rulings");
    at.head.does(&url, &ruling).await;
    at.draw(&round).await;
    mark_all(&mut at.gill, &round, |_, most| most).await;
    mark_all(&mut at.tarn, &round, |_, most| most).await;
    show(at, &round).await;
    round
}

async fn show(at: &mut Department<'_>, round: &str) {
    let url = format!("{round}/show");
    at.head.does(&url, &[]).await;
}

/// Says of every sheet that is open that its first marks stand; how many
/// there were.
async fn settle_all(head: &mut Browser<'_>, round: &str) -> usize {
    let url = format!("{round}/settle");
    let articles = head.get(&url).await.section("open").all("article");
    for article in &articles {
        let form = article.with("details", "All other first marks").at("form");
        let why = [("reason", "seen together, they stand")];
        head.fill(&form, &why).await.expect(303);
    }
    articles.len()
}

async fn closed(at: &mut Department<'_>) -> String {
    let round = shown(at).await;
    settle_all(&mut at.head, &round).await;
    let close = at.head.post_staff(&format!("{round}/close"), &[]).await;
    assert_eq!(
        close.expect(303).location(),
        format!("{round}/record"),
        "closing leads to the record"
    );
    round
}

/// A page without what is new on each view.
fn body(reply: &Reply) -> String {
    let token = reply.hidden("token");
    reply.at("main").html().replace(&token, "")
}

#[tokio::test]
async fn a_round_with_differences_left_does_not_close() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let close = format!("{round}/close");
    let reply = at.head.post_staff(&close, &[]).await.expect(400);
    assert!(reply.text.contains("differences to settle first"));
    at.head.get(&format!("{round}/record")).await.expect(404);
    assert!(settle_all(&mut at.head, &round).await > 0);
    at.tarn.post_staff(&close, &[]).await.expect(403);
    at.head.does(&close, &[]).await;
    at.head.opens(&format!("{round}/record")).await;
    let again = at.head.does(&close, &[]).await;
    assert_eq!(again.location(), round);
}

#[tokio::test]
async fn marking_again_is_waited_for_unless_it_is_said_that_it_is_not() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    settle_all(&mut at.head, &round).await;
    let set = at.id(1).to_string();
    let boxes = [
        ("class_set", set.as_str()),
        ("point", "all"),
        ("reason", "too mild"),
    ];
    at.head.does(&format!("{round}/again"), &boxes).await;
    let close = format!("{round}/close");
    let reply = at.head.post_staff(&close, &[]).await.expect(400);
    assert!(reply.text.contains("tick that you mean it"));
    at.head.does(&close, &[("pending", "yes")]).await;
    let page = at.head.opens(&format!("{round}/record")).await;
    assert!(
        page.text
            .contains("To be marked again: every point.</strong> too mild")
    );
    assert!(
        page.text
            .contains("marks given anew when the round was closed")
    );
}

#[tokio::test]
async fn the_record_has_the_sample_both_marks_the_rulings_and_the_decisions() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = closed(&mut at).await;
    let page = at.head.opens(&format!("{round}/record")).await;
    for what in [
        "Closed by",
        "four crests",
        "A gap counts once.",
        "seen together, they stand",
        "First marks stand: all other points",
        "Marked first by",
        "Mrs Gill, second",
        "Second marks shown beside the first",
    ] {
        assert!(page.text.contains(what), "{what}");
    }
    // A and B are anchors of the first class, so not in its sample.
    assert!(page.text.contains("The standard"));
    let id = RoundId(number(&round));
    let mut db = app.db().await;
    let stored = moderation_record::find(&mut db, id).await.unwrap().unwrap();
    let record: Record = serde_json::from_str(&stored.body).unwrap();
    assert!(serde_json::to_string(&record).unwrap() == stored.body);
    assert_eq!(record.sheets.len(), 6);
    let all: i64 = record.sheets[0].points.iter().map(|point| point.most).sum();
    for sheet in &record.sheets {
        assert_eq!(sheet.second, Some(all));
        assert_eq!(sheet.stands, sheet.first);
        let first: i64 = sheet
            .points
            .iter()
            .map(|p| p.first.as_ref().unwrap().marks)
            .sum();
        assert_eq!(sheet.first, Some(first));
    }
    assert_eq!(record.comparison.sheets.len(), 6);
}

#[tokio::test]
async fn whatever_is_done_later_the_record_says_the_same() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = closed(&mut at).await;
    let url = format!("{round}/record");
    let csv = format!("{round}/record.csv");
    let before = at.head.opens(&url).await;
    let file = at.head.opens(&csv).await.bytes;
    at.mark_first(0, "B", NAME, |_, most| most).await;
    let id = at.id(0);
    for sql in [
        "UPDATE class SET name = 'Renamed' WHERE id = (SELECT class_id FROM class_set WHERE id = $1)",
        "UPDATE staff SET name = 'Mrs Other' WHERE name = 'Mrs Gill' AND $1 > 0",
    ] {
        let write = sqlx::query(sql)
            .bind(id)
            .execute(&mut app.sql().await)
            .await;
        assert_eq!(write.unwrap().rows_affected(), 1, "{sql}");
    }
    let after = at.head.opens(&url).await;
    assert_eq!(body(&before), body(&after));
    assert_eq!(file, at.head.opens(&csv).await.bytes);
}

/// A record as it was stored before its format was raised: its comparison has
/// figures that are no longer worked out, and verdicts on them.
#[tokio::test]
async fn a_record_of_format_1_stays_as_it_is_and_is_shown_as_it_was() {
    const BODY: &str = include_str!("record_of_format_1.json");
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = at.make_round(&["Mrs Gill"]).await;
    let id = RoundId(number(&round));
    let sql = "INSERT INTO moderation_record (round_id, body, staff_id, closed_at) VALUES ($1, $2, $3, 0)";
    let write = sqlx::query(sql).bind(id).bind(BODY);
    let write = write.bind(at.person(NAME).await);
    write.execute(&mut app.sql().await).await.unwrap();
    let page = at.head.opens(&format!("{round}/record")).await;
    let compared = page.section("compared");
    let figures = ["6", "0.00", "−2.48 to +2.48", "2.37", "0", "4"];
    let mut rows = compared.all("tr");
    rows.retain(|row| row.cells()[1..] == figures);
    assert_eq!(rows.len(), 3, "{}", compared.words());
    for (sentence, times) in [
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
        assert_eq!(compared.count(sentence), times, "{sentence}");
    }
    let file = at.head.get(&format!("{round}/record.csv")).await;
    assert!(file.expect(200).text.contains("seen together, they stand"));
    let mut db = app.db().await;
    let stored = moderation_record::find(&mut db, id).await.unwrap().unwrap();
    assert!(stored.body == BODY);
}

#[tokio::test]
async fn a_closed_round_takes_no_decision_no_ruling_and_no_mark() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = closed(&mut at).await;
    let page = at.head.opens(&format!("{round}/settle")).await;
    assert!(page.text.contains("<strong>The round is closed.</strong>"));
    assert!(
        !page
            .text
            .contains("<form method=\"post\" action=\"/moderation/")
    );
    let sheet = page.at("article").attr("id").replace("sheet-", "");
    let whole = [("sheet", sheet.as_str()), ("reason", "late")];
    let set = at.id(0).to_string();
    let again = [
        ("class_set", set.as_str()),
        ("point", "all"),
        ("reason", "late"),
    ];
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
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = closed(&mut at).await;
    let id = RoundId(number(&round));
    for sql in [
        "INSERT INTO settlement (round_id, class_set_id, kind, last_mark_id, reason, staff_id, at)
         SELECT round_id, class_set_id, 'again', 1, 'late', 1, 0 FROM round_class_set",
        "UPDATE moderation_record SET body = '{}'",
        "DELETE FROM moderation_record",
        "UPDATE settlement SET reason = 'other'",
        "DELETE FROM settlement",
        "INSERT OR REPLACE INTO moderation_record SELECT round_id, '{}', staff_id, closed_at FROM moderation_record",
    ] {
        let write = sqlx::query(sql).execute(&mut app.sql().await).await;
        let refused = write.unwrap_err().to_string();
        let reasons = ["the round is closed", "never changed", "are kept"];
        assert!(
            reasons.iter().any(|reason| refused.contains(reason)),
            "{sql}: {refused}"
        );
    }
    let mut db = app.db().await;
    assert_eq!(
        round::get(&mut db, id).await.unwrap().step,
        Some(round::Step::Closed)
    );
}

#[tokio::test]
async fn the_file_has_a_line_for_every_point_of_every_sheet() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = closed(&mut at).await;
    let entry = [("entry", "=looked at again, nothing found")];
    let url = format!("{round}/record");
    at.head.does(&url, &entry).await;
    let file = at.head.opens(&format!("{round}/record.csv")).await;
    let mut lines = csv::Reader::from_reader(&file.bytes[..]);
    let header = lines.headers().unwrap().clone();
    let column = |name: &str| header.iter().position(|column| column == name).unwrap();
    let lines: Vec<csv::StringRecord> = lines.records().map(Result::unwrap).collect();
    let of = |about: &str| {
        let about = about.to_owned();
        lines.iter().filter(move |line| &line[0] == about.as_str())
    };
    let id = RoundId(number(&round));
    let mut db = app.db().await;
    let stored = moderation_record::find(&mut db, id).await.unwrap().unwrap();
    let record: Record = serde_json::from_str(&stored.body).unwrap();
    let points: usize = record.sheets.iter().map(|sheet| sheet.points.len()).sum();
    assert_eq!(of("marks").count(), points);
    assert_eq!(of("step").count(), 6);
    assert_eq!(of("ruling").count(), 1);
    let total: i64 = of("marks")
        .map(|line| line[column("second")].parse::<i64>().unwrap())
        .sum();
    assert_eq!(
        total,
        record
            .sheets
            .iter()
            .filter_map(|sheet| sheet.second)
            .sum::<i64>()
    );
    let entry = of("later entry").next().unwrap();
    assert_eq!(&entry[column("text")], "'=looked at again, nothing found");
}

#[tokio::test]
async fn later_entries_are_added_and_bad_ones_come_back() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = closed(&mut at).await;
    let url = format!("{round}/record");
    let long = "x".repeat(2001);
    for (typed, sentence) in [
        (" ", "Write down what was found or done."),
        (long.as_str(), "Use at most 2000 characters."),
    ] {
        let reply = at
            .head
            .post_staff(&url, &[("entry", typed)])
            .await
            .expect(422);
        assert!(reply.text.contains(sentence));
        assert!(
            reply
                .text
                .contains(&format!(">{}</textarea>", typed.trim()))
        );
    }
    for entry in [
        "Two sheets were re-marked.",
        "Two sheets were re-marked.",
        "Filed.",
    ] {
        at.head.does(&url, &[("entry", entry)]).await;
    }
    let page = at.head.opens(&url).await.text;
    assert_eq!(page.matches("Two sheets were re-marked.").count(), 1);
    assert!(page.find("Two sheets").unwrap() < page.find("Filed.").unwrap());
    at.tarn.get(&url).await.expect(403);
    at.gill
        .get(&format!("{round}/record.csv"))
        .await
        .expect(403);
    at.tarn
        .post_staff(&url, &[("entry", "mine")])
        .await
        .expect(403);
}

#[tokio::test(flavor = "multi_thread")]
async fn a_round_is_settled_closed_and_printed_in_a_browser() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let rounds = [shown(&mut at).await, shown(&mut at).await];
    let rounds = serde_json::to_string(&rounds).unwrap();
    walk(&app, "settling.mjs", &[("ROUNDS", &rounds)]).await;
}

#[tokio::test]
async fn the_record_has_every_decision_and_what_was_marked_outside_the_round() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = shown(&mut at).await;
    let set = at.id(0).to_string();
    let again = format!("{round}/again");
    let boxes = [
        ("class_set", set.as_str()),
        ("point", "2"),
        ("reason", "two readings"),
    ];
    at.head.does(&again, &boxes).await;
    let page = at.head.opens(&format!("{round}/settle")).await;
    let back = page.section("again").at(".marking-point form");
    let why = [("reason", "one after all")];
    at.head.fill(&back, &why).await.expect(303);
    settle_all(&mut at.head, &round).await;
    // D is within the tolerance, and nobody decides on it.
    at.mark_first(1, "D", "Mr Tarn", |_, most| most).await;
    at.head.does(&format!("{round}/close"), &[]).await;
    let page = at.head.opens(&format!("{round}/record")).await;
    assert!(page.text.contains("two readings"));
    assert!(page.text.contains("one after all"));
    let page = page.says("Marked since the draw, outside the round").page();
    page.with("li", "3 by Mr Tarn");
}

#[tokio::test]
async fn a_head_who_marks_these_classes_blind_does_not_read_their_record() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = closed(&mut at).await;
    let url = format!("{round}/record");
    at.head.opens(&url).await;
    let another = at.make_round(&[NAME, "Mrs Gill"]).await;
    at.draw(&another).await;
    let page = at.head.get(&url).await.expect(403);
    assert!(page.text.contains("without seeing other marks"));
    at.head.get(&format!("{url}.csv")).await.expect(403);
    at.head
        .post_staff(&url, &[("entry", "seen")])
        .await
        .expect(403);
}
