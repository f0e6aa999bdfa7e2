use server::acts::{NotPicked, PickAnchors, Staff};
use server::db::round;
use server::ids::RoundId;
use server::report::moderation::anchors;

use super::department::{Department, department, mark_all, marked, number, own_sheets};
use crate::support::{Browser, NAME, Part};

#[tokio::test]
async fn page_suggests_a_weak_a_middling_and_a_strong_sheet() {
    let mut at = department().await;
    let round = at.make_round(&[NAME, "Mr Tarn"]).await;
    let page = at.head.opens(format!("{round}/anchors")).await;
    assert_eq!(page.page().all("[checked]").len(), 3);
    let page = page
        .says("suggested as weak")
        .says("suggested as middling")
        .says("suggested as strong");
    // Of the two groups that left the enlargement out, one is the weak one.
    let weak = page.page().with("label:has([checked])", "B: ");
    weak.says("suggested as weak");
}

#[tokio::test]
async fn everyone_marks_blind_and_sees_the_others_only_when_all_is_shown() {
    let mut at = department().await;
    let round = at.begin(&["A", "B", "C"]).await;
    assert_eq!(own_sheets(&mut at.head, &round).await.len(), 3);
    assert_eq!(own_sheets(&mut at.gill, &round).await.len(), 0);
    at.head.opens("/moderation").await.says("Mark 3 anchors");

    let sheet = own_sheets(&mut at.tarn, &round).await.remove(0);
    mark_all(&mut at.tarn, &round, |_, most| most).await;
    at.tarn.opens("/moderation").await.says("Wait for Ms Fell");
    let (show, standard) = (format!("{round}/show"), format!("{round}/standard"));
    for boxes in [&[][..], &[("early", "yes")]] {
        at.tarn.post_staff(&show, boxes).await.expect(403);
    }
    at.tarn.get(&standard).await.expect(404);
    at.head.get(&standard).await.expect(404);

    let but_one = |point, most| if point == 3 { 0 } else { most };
    mark_all(&mut at.head, &round, but_one).await;
    at.gill.post_staff(&show, &[]).await.expect(403);
    let to_do = at.tarn.opens("/moderation").await;
    to_do.says("All have marked: show everyone’s marks");
    let to = at.tarn.sends(&show, &[]).await;
    assert_eq!(to.location(), standard);

    let page = at.head.opens(&standard).await;
    let differing = page.section("differing").all("h3");
    assert_eq!(differing.len(), 1, "{}", page.text);
    assert!(differing[0].words().starts_with("4 "), "{}", page.text);
    at.gill.get(&standard).await.expect(403);
    // Marks that everyone has seen stand.
    let page = at.tarn.opens(&sheet).await;
    page.says("stand as they are")
        .says_nothing_of("mark-choice");
    let changed = [("point", "4"), ("marks", "0")];
    at.tarn.post_staff(&sheet, &changed).await.expect(403);
}

#[tokio::test]
async fn head_may_show_marks_early_which_is_kept_on_record() {
    let mut at = department().await;
    let round = at.begin(&["A", "B"]).await;
    mark_all(&mut at.head, &round, |_, most| most).await;
    let show = format!("{round}/show");
    at.head.post_staff(&show, &[]).await.expect(400);
    at.show(&round).await;
    let sql = "SELECT detail FROM event WHERE what = 'standard_shown'";
    let detail: String = at.app.one(sql).await;
    let late = r#""unfinished":["Mr Tarn"]}"#;
    assert!(detail.ends_with(late), "{detail}");
    // Pressed again, it is shown once.
    at.head.sends(&show, &[]).await;
    at.head.opens(&round).await.says("no sample drawn yet");
}

#[tokio::test]
async fn ruling_stands_beside_its_point_for_everyone_who_marks_after() {
    let mut at = department().await;
    let round = at.begin(&["A", "B"]).await;
    mark_all(&mut at.tarn, &round, |_, most| most).await;
    mark_all(&mut at.head, &round, |_, _| 0).await;
    let rulings = format!("{round}/rulings");
    let ruling = [
        ("point", "9"),
        ("ruling", "A unit in the heading <counts>."),
    ];
    at.tarn.post_staff(&rulings, &ruling).await.expect(404);
    at.show(&round).await;
    let to = at.tarn.sends(&rulings, &ruling).await;
    assert_eq!(to.location(), format!("{round}/standard#point-9"));
    let page = at.head.opens(format!("{round}/standard")).await;
    page.says("A unit in the heading &#60;counts&#62;.</textarea>")
        .says("written by Mr Tarn, at 10:42, in Autumn");

    // The next round's markers have it beside the point.
    let next = at.make_round(&[NAME, "Mrs Gill"]).await;
    at.pick(&next, &["C", "D"]).await;
    let sheet = own_sheets(&mut at.gill, &next).await.remove(0);
    let shown = "Ruling: A unit in the heading <counts>. Mr Tarn, at 10:42, Autumn";
    beside_point_9(&mut at.gill, &sheet, shown).await;
    // And who marks first.
    let marking = format!("{}/marking", at.sets[1]);
    beside_point_9(&mut at.gill, &format!("{marking}/sheets/A"), shown).await;
    let page = at.gill.opens(format!("{marking}/points/9")).await;
    page.page().says(shown);
    let page = at.gill.opens(format!("{marking}/points/8")).await;
    page.says_nothing_of("Ruling:");

    newer_ruling_takes_its_place(&mut at, &round, &sheet).await;
}

/// A ruling that is beside point 9 of a sheet, and beside no other.
async fn beside_point_9(browser: &mut Browser, sheet: &str, shown: &str) {
    let page = browser.opens(sheet).await;
    let rulings = page.count("<strong>Ruling:</strong>");
    assert_eq!(rulings, 1, "on one point alone");
    page.at("#point-9").says(shown);
}

/// A newer ruling on point 9, and a blank one that takes it away; Mrs Gill
/// marks the sheet.
async fn newer_ruling_takes_its_place(at: &mut Department, round: &str, sheet: &str) {
    let rulings = format!("{round}/rulings");
    let on_page = seen(&mut at.head, round).await;
    let writes = |text, seen| [("point", "9"), ("ruling", text), ("seen", seen)];
    let newer = writes("Only beside the figure.", &on_page);
    at.head.sends(&rulings, &newer).await;
    // Mr Tarn wrote beside the older one: his text is kept on the page only.
    let late = writes("Anywhere.", &on_page);
    let late = at.tarn.post_staff(&rulings, &late).await.expect(409);
    late.says("This ruling was changed while you wrote.")
        .says("<p class=\"as-typed\">Only beside the figure.</p>")
        .says("Anywhere.</textarea>");
    let page = at.gill.opens(sheet).await;
    page.says("Only beside the figure.")
        .says_nothing_of("A unit in the heading");
    let on_page = seen(&mut at.head, round).await;
    let blank = writes(" ", &on_page);
    at.head.sends(&rulings, &blank).await;
    at.gill.opens(sheet).await.says_nothing_of("Ruling:");
}

/// The ruling on point 9 that the page of the standard shows, as its form
/// sends it.
async fn seen(browser: &mut Browser, round: &str) -> String {
    let page = browser.opens(format!("{round}/standard")).await;
    page.at("form:has([name=point][value='9'])").value("seen")
}

#[tokio::test]
async fn bad_ruling_comes_back_as_typed() {
    let mut at = department().await;
    let round = at.begin(&["A", "B"]).await;
    at.show(&round).await;
    let rulings = format!("{round}/rulings");
    let long = "é".repeat(2001);
    let boxes = [("point", "2"), ("ruling", long.as_str())];
    let page = at.head.post_staff(&rulings, &boxes).await.expect(422);
    page.says("id=\"ruling-2-error\">Use at most 2000 characters.")
        .says(&format!("{long}</textarea>"));
    let unknown = [("point", "99"), ("ruling", "x")];
    at.head.post_staff(&rulings, &unknown).await.expect(404);
    let boxes = [("point", "2"), ("ruling", "x")];
    at.gill.post_staff(&rulings, &boxes).await.expect(403);
}

#[tokio::test]
async fn too_few_or_too_many_anchors_or_one_marker_are_refused() {
    let mut at = department().await;
    let round = at.make_round(&[NAME, "Mr Tarn"]).await;
    let url = format!("{round}/anchors");
    let names =
        [0, 1].map(|set| ["A", "B", "C", "D"].map(|of| format!("sheet.{}/{of}", at.id(set))));
    let names = names.concat();
    let boxes: Vec<_> = names.iter().map(|name| (name.as_str(), "on")).collect();
    for (boxes, sentence, ticked) in [
        (&boxes[..1], "at least two sheets", 1),
        (&[("sheet.9/Q", "on")], "at least two sheets", 0),
        (&boxes[..], "at most six sheets", 8),
    ] {
        let page = at.head.post_staff(&url, boxes).await.expect(422);
        assert_eq!(page.says(sentence).page().all("[checked]").len(), ticked);
    }
    at.tarn.get(&url).await.expect(403);
    at.tarn.post_staff(&url, &boxes[..3]).await.expect(403);

    let alone = at.make_round(&[NAME]).await;
    let of_one = format!("{alone}/anchors");
    let page = at.head.post_staff(&of_one, &boxes[..3]).await;
    page.expect(422).says("one marker only");
    // Once picked, they are past picking.
    at.head.sends(&url, &boxes[..3]).await;
    at.head.get(&url).await.expect(404);
    at.head.post_staff(&url, &boxes[..2]).await.expect(404);
    assert_eq!(own_sheets(&mut at.tarn, &round).await.len(), 3);
}

/// What was judged before is held against the sheets as they are now.
#[tokio::test]
async fn anchors_are_not_picked_from_a_pool_that_has_changed() {
    let mut at = department().await;
    let url = at.make_round(&[NAME, "Mr Tarn"]).await;
    let id = RoundId(number(&url));
    let app = at.app.clone();
    let judged = async || {
        let mut db = app.db().await;
        let round = round::get(&mut db, id).await.unwrap();
        let stored = anchors::load(&mut db, &round).await.unwrap();
        stored.judge()
    };
    let pick = |pool: anchors::Pool| PickAnchors {
        round: id,
        sheets: pool.suggested(),
        pool,
    };
    let head = Staff {
        id: at.person(NAME).await,
        is_head: true,
    };
    let marked = pick(judged().await);
    at.mark_first(0, "A", "Mr Tarn", |_, most| most).await;
    assert_eq!(at.app.act(head, marked).await, Err(NotPicked::Changed));
    let revised = pick(judged().await);
    at.hands_in_again().await;
    assert_eq!(at.app.act(head, revised).await, Err(NotPicked::Changed));
    assert_eq!(own_sheets(&mut at.tarn, &url).await.len(), 0);
    let as_it_is = pick(judged().await);
    assert_eq!(at.app.act(head, as_it_is).await, Ok(()));
    assert_eq!(own_sheets(&mut at.tarn, &url).await.len(), 3);
}

#[tokio::test]
async fn an_old_page_about_the_anchors_does_not_show_the_sample() {
    let mut at = marked().await;
    let round = at.begin(&["A", "B"]).await;
    let (show, comparison) = (format!("{round}/show"), format!("{round}/comparison"));
    let kind = at.head.opens(&round).await.hidden("kind");
    let old = [("kind", kind.as_str()), ("early", "yes")];
    at.head.sends(&show, &old).await;
    at.draw(&round).await;
    let refused = at.head.post_staff(&show, &old).await.expect(400);
    refused.says("Nothing was shown");
    // The sample is still blind, and its own page shows it.
    at.head.get(&comparison).await.expect(404);
    let kind = at.head.opens(&round).await.hidden("kind");
    let new = [("kind", kind.as_str()), ("early", "yes")];
    at.head.sends(&show, &new).await;
    at.head.opens(&comparison).await;
}

#[tokio::test]
async fn sheets_that_a_marker_has_marked_are_not_suggested_and_said_not_to_be_blind() {
    let mut at = department().await;
    for label in ["A", "B", "C", "D"] {
        at.mark_first(0, label, "Mr Tarn", |_, most| most).await;
    }
    let round = at.make_round(&["Mr Tarn", "Mrs Gill"]).await;
    let url = format!("{round}/anchors");
    let page = at.head.opens(&url).await;
    for (set, is_known) in [(0, true), (1, false)] {
        for label in ["A", "B", "C", "D"] {
            let name = format!("label:has([name='sheet.{}/{label}'])", at.id(set));
            let choice = page.at(&name).words();
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
    let page = at.head.opens(&url).await;
    let sets = page.page().all("fieldset");
    let mut sets = sets.iter().map(Part::words);
    let is_known = |set: String| set.contains("Not blind to Mr Tarn") && set.contains("suggested");
    assert!(sets.any(is_known), "{}", page.text);
}

#[tokio::test]
async fn draw_page_says_on_how_many_points_nothing_is_ruled() {
    let mut at = marked().await;
    let round = at.begin(&["A", "B"]).await;
    mark_all(&mut at.tarn, &round, |_, most| most).await;
    let but_two = |at, most| if at < 2 { most - 1 } else { most };
    mark_all(&mut at.head, &round, but_two).await;
    at.show(&round).await;
    let sample = format!("{round}/sample");
    at.head.opens(&sample).await.says("On 2 points");
    let ruling = [("point", "1"), ("ruling", "A gap counts once.")];
    at.head.sends(format!("{round}/rulings"), &ruling).await;
    let page = at.head.opens(&sample).await;
    page.says("On 1 point the marks of the anchors differ and nothing is ruled.");
}
