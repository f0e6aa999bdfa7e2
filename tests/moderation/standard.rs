use super::department::{Department, department, mark_all, marked, own_sheets};
use crate::support::{Browser, Part, TestApp};

#[tokio::test]
async fn page_suggests_a_weak_a_middling_and_a_strong_sheet() {
    let app = TestApp::new().await;
    let mut at = department(&app).await;
    let round = at.make_round(&["Ms Fell", "Mr Tarn"]).await;
    let page = at.head.opens(&format!("{round}/anchors")).await;
    assert_eq!(page.count(" checked>"), 3);
    let page = page
        .says("suggested as weak")
        .says("suggested as middling")
        .says("suggested as strong");
    // Of the two groups that left the enlargement out, one is the weak one.
    let weak = page
        .page()
        .with("label:has([checked])", "suggested as weak");
    assert_eq!(weak.at("strong").words(), "B");
}

#[tokio::test]
async fn everyone_marks_blind_and_sees_the_others_only_when_all_is_shown() {
    let app = TestApp::new().await;
    let mut at = department(&app).await;
    let round = at.make_round(&["Ms Fell", "Mr Tarn"]).await;
    at.pick(&round, &["A", "B", "C"]).await;
    assert_eq!(own_sheets(&mut at.head, &round).await.len(), 3);
    assert_eq!(own_sheets(&mut at.gill, &round).await.len(), 0);
    at.head.get("/moderation").await.says("Mark 3 anchors");

    mark_all(&mut at.tarn, &round, |_, most| most).await;
    at.tarn.get("/moderation").await.says("Wait for Ms Fell");
    let show = format!("{round}/show");
    let standard = format!("{round}/standard");
    at.tarn.post_staff(&show, &[]).await.expect(403);
    at.tarn
        .post_staff(&show, &[("early", "yes")])
        .await
        .expect(403);
    at.tarn.get(&standard).await.expect(404);
    at.head.get(&standard).await.expect(404);

    mark_all(
        &mut at.head,
        &round,
        |point, most| if point == 3 { 0 } else { most },
    )
    .await;
    at.gill.post_staff(&show, &[]).await.expect(403);
    at.tarn
        .get("/moderation")
        .await
        .says("All have marked: show everyone’s marks");
    let to = at.tarn.does(&show, &[]).await;
    assert_eq!(to.location(), standard);

    let page = at.head.opens(&standard).await;
    let [differing] = &page.section("differing").all("h3")[..] else {
        panic!("{}", page.text);
    };
    assert!(differing.words().starts_with("4 "), "{}", differing.words());
    at.gill.get(&standard).await.expect(403);
    // Marks that everyone has seen stand.
    let sheet = own_of(&app, &round, "Mr Tarn").await;
    at.tarn
        .opens(&sheet)
        .await
        .says("stand as they are")
        .says_nothing_of("mark-choice");
    at.tarn
        .post_staff(&sheet, &[("point", "4"), ("marks", "0")])
        .await
        .expect(403);
}

/// The first sheet of somebody, once the round's page leads there no more.
async fn own_of(app: &TestApp, round: &str, who: &str) -> String {
    let sql = "SELECT round_sheet_id FROM second_mark JOIN staff ON staff.id = staff_id WHERE name = $1 LIMIT 1";
    let id: i64 = sqlx::query_scalar(sql)
        .bind(who)
        .fetch_one(&mut app.sql().await)
        .await
        .unwrap();
    format!("{round}/sheets/{id}")
}

#[tokio::test]
async fn head_may_show_marks_early_which_is_kept_on_record() {
    let app = TestApp::new().await;
    let mut at = department(&app).await;
    let round = at.make_round(&["Ms Fell", "Mr Tarn"]).await;
    at.pick(&round, &["A", "B"]).await;
    mark_all(&mut at.head, &round, |_, most| most).await;
    let show = format!("{round}/show");
    at.head.post_staff(&show, &[]).await.expect(400);
    at.head.does(&show, &[("early", "yes")]).await;
    let detail: String = app
        .one("SELECT detail FROM event WHERE what = 'standard_shown'")
        .await;
    assert!(
        detail.ends_with("before these had finished: Mr Tarn"),
        "{detail}"
    );
    // Pressed again, it is shown once.
    at.head.does(&show, &[]).await;
    at.head.get(&round).await.says("no sample drawn yet");
}

#[tokio::test]
async fn ruling_stands_beside_its_point_for_everyone_who_marks_after() {
    let app = TestApp::new().await;
    let mut at = department(&app).await;
    let round = at.make_round(&["Ms Fell", "Mr Tarn"]).await;
    at.pick(&round, &["A", "B"]).await;
    mark_all(&mut at.tarn, &round, |_, most| most).await;
    mark_all(&mut at.head, &round, |_, _| 0).await;
    let rulings = format!("{round}/rulings");
    let text = "A unit in the heading <counts>.";
    at.tarn
        .post_staff(&rulings, &[("point", "9"), ("ruling", text)])
        .await
        .expect(404);
    at.head.does(&format!("{round}/show"), &[]).await;
    let to = at
        .tarn
        .does(&rulings, &[("point", "9"), ("ruling", text)])
        .await;
    assert_eq!(to.location(), format!("{round}/standard#point-9"));
    at.head
        .get(&format!("{round}/standard"))
        .await
        .says("A unit in the heading &#60;counts&#62;.</textarea>")
        .says("written by Mr Tarn, at 10:42, in Autumn");

    // The next round's markers have it beside the point.
    let next = at.make_round(&["Ms Fell", "Mrs Gill"]).await;
    at.pick(&next, &["C", "D"]).await;
    let sheet = own_sheets(&mut at.gill, &next).await.remove(0);
    let page = at.gill.opens(&sheet).await;
    page.at("#point-9")
        .says("Ruling: A unit in the heading <counts>. Mr Tarn, at 10:42, Autumn");
    assert_eq!(page.count("<strong>Ruling:</strong>"), 1);

    newer_ruling_takes_its_place(&mut at, &round, &sheet).await;
}

/// A newer ruling on point 9, and a blank one that takes it away; Mrs Gill
/// marks the sheet.
async fn newer_ruling_takes_its_place(at: &mut Department<'_>, round: &str, sheet: &str) {
    let rulings = format!("{round}/rulings");
    let seen = seen(&mut at.head, round, 9).await;
    let newer = [
        ("point", "9"),
        ("ruling", "Only beside the figure."),
        ("seen", &seen),
    ];
    at.head.does(&rulings, &newer).await;
    // Mr Tarn wrote beside the older one: his text is kept on the page only.
    let late = [("point", "9"), ("ruling", "Anywhere."), ("seen", &seen)];
    at.tarn
        .post_staff(&rulings, &late)
        .await
        .expect(409)
        .says("This ruling was changed while you wrote.")
        .says("<p class=\"as-typed\">Only beside the figure.</p>")
        .says("Anywhere.</textarea>");
    let seen = self::seen(&mut at.head, round, 9).await;
    at.gill
        .get(sheet)
        .await
        .says("Only beside the figure.")
        .says_nothing_of("A unit in the heading");
    at.head
        .does(
            &rulings,
            &[("point", "9"), ("ruling", " "), ("seen", &seen)],
        )
        .await;
    at.gill.get(sheet).await.says_nothing_of("Ruling:");
}

/// The ruling on a point that the page of the standard shows, as its form sends
/// it.
async fn seen(browser: &mut Browser<'_>, round: &str, point: i64) -> String {
    let page = browser.opens(&format!("{round}/standard")).await;
    page.at(&format!("#point-{point}")).value("seen")
}

#[tokio::test]
async fn ruling_stands_on_the_pages_of_first_marking_too() {
    let app = TestApp::new().await;
    let mut at = department(&app).await;
    let round = at.make_round(&["Ms Fell", "Mr Tarn"]).await;
    at.pick(&round, &["A", "B"]).await;
    let early = [("early", "yes")];
    at.head.does(&format!("{round}/show"), &early).await;
    let ruling = [("point", "9"), ("ruling", "Only beside the figure.")];
    at.tarn.does(&format!("{round}/rulings"), &ruling).await;
    let marking = format!("{}/marking", at.sets[1]);
    let sheet = at.gill.opens(&format!("{marking}/sheets/A")).await;
    assert_eq!(sheet.count("<strong>Ruling:</strong>"), 1);
    let shown = "Ruling: Only beside the figure. Mr Tarn, at 10:42, Autumn";
    sheet.at("#point-9").says(shown);
    at.gill
        .get(&format!("{marking}/points/9"))
        .await
        .at("main")
        .says(shown);
    at.gill
        .opens(&format!("{marking}/points/8"))
        .await
        .says_nothing_of("Ruling:");
}

#[tokio::test]
async fn bad_ruling_comes_back_as_typed() {
    let app = TestApp::new().await;
    let mut at = department(&app).await;
    let round = at.make_round(&["Ms Fell", "Mr Tarn"]).await;
    at.pick(&round, &["A", "B"]).await;
    at.head
        .does(&format!("{round}/show"), &[("early", "yes")])
        .await;
    let rulings = format!("{round}/rulings");
    let long = "é".repeat(2001);
    at.head
        .post_staff(&rulings, &[("point", "2"), ("ruling", &long)])
        .await
        .expect(422)
        .says("id=\"ruling-2-error\">Use at most 2000 characters.")
        .says(&format!("{long}</textarea>"));
    at.head
        .post_staff(&rulings, &[("point", "99"), ("ruling", "x")])
        .await
        .expect(404);
    at.gill
        .post_staff(&rulings, &[("point", "2"), ("ruling", "x")])
        .await
        .expect(403);
}

#[tokio::test]
async fn too_few_or_too_many_anchors_or_one_marker_are_refused() {
    let app = TestApp::new().await;
    let mut at = department(&app).await;
    let round = at.make_round(&["Ms Fell", "Mr Tarn"]).await;
    let url = format!("{round}/anchors");
    let set = at.id(0);
    let one = format!("sheet.{set}/A");
    let boxes = [(one.as_str(), "on")];
    let page = at.head.post_staff(&url, &boxes).await.expect(422);
    assert_eq!(page.says("at least two sheets").count(" checked>"), 1);
    at.head
        .post_staff(&url, &[("sheet.9/Q", "on")])
        .await
        .expect(422);
    let other = at.id(1);
    let many: Vec<String> = ["A", "B", "C", "D"]
        .iter()
        .flat_map(|label| {
            [
                format!("sheet.{set}/{label}"),
                format!("sheet.{other}/{label}"),
            ]
        })
        .collect();
    let boxes: Vec<_> = many.iter().map(|name| (name.as_str(), "on")).collect();
    at.head
        .post_staff(&url, &boxes)
        .await
        .expect(422)
        .says("at most six sheets");
    at.tarn.get(&url).await.expect(403);
    at.tarn.post_staff(&url, &boxes[..3]).await.expect(403);

    let alone = at.make_round(&["Ms Fell"]).await;
    at.head
        .post_staff(&format!("{alone}/anchors"), &boxes[..3])
        .await
        .expect(422)
        .says("one marker only");
    // Once picked, they are past picking.
    at.head.does(&url, &boxes[..3]).await;
    at.head.get(&url).await.expect(404);
    at.head.post_staff(&url, &boxes[..2]).await.expect(404);
    assert_eq!(own_sheets(&mut at.tarn, &round).await.len(), 3);
}

#[tokio::test]
async fn an_old_page_about_the_anchors_does_not_show_the_sample() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = at.make_round(&["Ms Fell", "Mr Tarn"]).await;
    at.pick(&round, &["A", "B"]).await;
    let show = format!("{round}/show");
    let page = at.head.opens(&round).await;
    let old = [("kind", page.hidden("kind")), ("early", "yes".to_owned())];
    let old: Vec<_> = old.iter().map(|(n, v)| (*n, v.as_str())).collect();
    at.head.does(&show, &old).await;
    at.draw(&round).await;
    at.head
        .post_staff(&show, &old)
        .await
        .expect(400)
        .says("Nothing was shown");
    // The sample is still blind, and its own page shows it.
    at.head
        .get(&format!("{round}/comparison"))
        .await
        .expect(404);
    let kind = at.head.opens(&round).await.hidden("kind");
    let new = [("kind", kind.as_str()), ("early", "yes")];
    at.head.does(&show, &new).await;
    at.head.opens(&format!("{round}/comparison")).await;
}

#[tokio::test]
async fn sheets_that_a_marker_has_marked_are_not_suggested_and_said_not_to_be_blind() {
    let app = TestApp::new().await;
    let mut at = department(&app).await;
    for label in ["A", "B", "C", "D"] {
        at.mark_first(0, label, "Mr Tarn", |_, most| most).await;
    }
    let round = at.make_round(&["Mr Tarn", "Mrs Gill"]).await;
    let page = at.head.opens(&format!("{round}/anchors")).await;
    for (set, is_known) in [(0, true), (1, false)] {
        for label in ["A", "B", "C", "D"] {
            let choice = format!("label:has([name='sheet.{}/{label}'])", at.id(set));
            let choice = page.at(&choice).words();
            let warning = "Not blind to Mr Tarn.";
            assert_eq!(choice.contains(warning), is_known, "{choice}");
            assert!(!(is_known && choice.contains("suggested as")), "{choice}");
        }
    }
    assert_eq!(page.count("suggested as"), 3);
    // Where he marked them all but two, those alone would be no choice.
    for label in ["A", "B"] {
        at.mark_first(1, label, "Mr Tarn", |_, most| most).await;
    }
    let page = at.head.opens(&format!("{round}/anchors")).await;
    let sets = page.page().all("fieldset");
    let mut known = sets.iter().map(Part::words);
    let is_known = |set: String| set.contains("Not blind to Mr Tarn") && set.contains("suggested");
    assert!(known.any(is_known), "{}", page.text);
}

#[tokio::test]
async fn draw_page_says_on_how_many_points_nothing_is_ruled() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = at.make_round(&["Ms Fell", "Mr Tarn"]).await;
    at.pick(&round, &["A", "B"]).await;
    mark_all(&mut at.tarn, &round, |_, most| most).await;
    mark_all(
        &mut at.head,
        &round,
        |at, most| {
            if at < 2 { most - 1 } else { most }
        },
    )
    .await;
    let show = format!("{round}/show");
    at.head.does(&show, &[]).await;
    let sample = format!("{round}/sample");
    at.head.opens(&sample).await.says("On 2 points");
    let ruling = [("point", "1"), ("ruling", "A gap counts once.")];
    let rulings = format!("{round}/rulings");
    at.head.does(&rulings, &ruling).await;
    at.head
        .opens(&sample)
        .await
        .says("On 1 point the marks of the anchors differ and nothing is ruled.");
}
