use server::db::{round_sheet, scheme};
use server::ids::RoundId;

use super::department::{Department, department, mark_blind, number, own_sheets};
use crate::support::{NAME, Part, TestApp};

/// The caption of the table of all sheets.
const ALL_SHEETS: &str = "Totals, as in the graph: all sheets";

/// First and second totals of the groups A to D of both class sets.
type Totals = [[(i64, i64); 4]; 2];

const LABELS: [&str; 4] = ["A", "B", "C", "D"];

/// Each second total is 1 or 2 above the first.
const SEVERE: Totals = [
    [(6, 7), (8, 10), (10, 11), (12, 14)],
    [(7, 8), (9, 11), (11, 12), (13, 15)],
];

/// Second totals lie 3 and 4 above and below.
const CANCELLING: Totals = [
    [(8, 11), (12, 9), (6, 10), (14, 10)],
    [(9, 12), (11, 8), (7, 11), (13, 9)],
];

/// Marks for a point so that the points before it are full and all together
/// come to `total`.
fn fill(mosts: &[i64], total: i64, at: usize) -> i64 {
    let before: i64 = mosts[..at].iter().sum();
    (total - before).clamp(0, mosts[at])
}

/// A round whose sample is marked twice to these totals, first by `first`
/// (class set by class set), second by Mrs Gill; her marks not yet shown.
async fn marked_twice(at: &mut Department<'_>, totals: &Totals, first: [&str; 2]) -> String {
    let mut db = at.app.db().await;
    let points = scheme::list_points(&mut db, at.version).await.unwrap();
    drop(db);
    let mosts: Vec<i64> = points.iter().map(|p| i64::from(p.point.marks)).collect();
    for (set, by) in first.into_iter().enumerate() {
        for (label, (total, _)) in LABELS.into_iter().zip(totals[set]) {
            let award = |number: i64, _| fill(&mosts, total, usize::try_from(number).unwrap() - 1);
            at.mark_first(set, label, by, award).await;
        }
    }
    let round = at.make_round(&["Mrs Gill"]).await;
    at.draw(&round).await;
    let mut db = at.app.db().await;
    let id = RoundId(number(&round));
    let sheets = round_sheet::list(&mut db, id).await.unwrap();
    drop(db);
    assert_eq!(sheets.len(), 8, "a small cohort is taken whole");
    for sheet in sheets {
        let set = usize::from(sheet.class_set_id == at.id(1));
        let group = LABELS.iter().position(|label| *label == sheet.label);
        let (_, total) = totals[set][group.unwrap()];
        let award = |at: usize, _| usize::try_from(fill(&mosts, total, at)).unwrap();
        let url = format!("{round}/sheets/{}", sheet.id);
        mark_blind(&mut at.gill, &url, award).await;
    }
    round
}

async fn shown(at: &mut Department<'_>, totals: &Totals, first: [&str; 2]) -> String {
    let round = marked_twice(at, totals, first).await;
    let show = format!("{round}/show");
    at.gill.does(&show, &[]).await;
    round
}

#[tokio::test]
async fn comparison_is_not_there_while_second_marking_is_blind() {
    let app = TestApp::new().await;
    let mut at = department(&app).await;
    let round = marked_twice(&mut at, &SEVERE, [NAME, "Mr Tarn"]).await;
    for path in ["comparison", "comparison.csv"] {
        let url = format!("{round}/{path}");
        let reply = at.head.get(&url).await.expect(404);
        reply.says("are still blind");
        at.gill.get(&url).await.expect(404);
        at.tarn.get(&url).await.expect(404);
    }
    assert_eq!(at.head.get(&round).await.count("/comparison\""), 0);
    at.gill.does(&format!("{round}/show"), &[]).await;
    let link = format!("href=\"{round}/comparison\"");
    assert!(at.head.get(&round).await.count(&link) > 0);
    at.head.opens(&format!("{round}/comparison")).await;
    at.head.get("/moderation/99/comparison").await.expect(404);
    at.head
        .get("/moderation/99/comparison.csv")
        .await
        .expect(404);
}

/// 1, 2, 1, 2, 1, 2, 1, 2: SD √(2/7), t = 2.364624 for 7 degrees of freedom.
#[tokio::test]
async fn figures_of_a_severe_marker_are_those_worked_out_by_hand() {
    let app = TestApp::new().await;
    let mut at = department(&app).await;
    let round = shown(&mut at, &SEVERE, ["Mr Tarn", "Mr Tarn"]).await;
    let page = at.head.opens(&format!("{round}/comparison")).await;
    let page = page
        .says("Severe: the second markers gave 1.5 marks a sheet more on average (at least 1.1).")
        .says("Lenient: gave 1.5 marks a sheet more on average (at least 1.1) than the first markers.")
        .says("Mrs Gill alone marked these sheets a second time: a difference may be either person’s");
    let whole = page.section("whole").all("tr");
    let whole: Vec<_> = whole.iter().map(Part::words).collect();
    for line in [
        "second − first +1.50 +1.05 to +1.95",
        "Mean size of the differences 1.50",
        "Standard deviation of the differences 0.53",
        // 1.5 ∓ 1.96 × 0.534522, give or take t √(3 × (2/7)/8) = 0.773970.
        "Lower limit of agreement +0.45 −0.32 to +1.23",
        "Upper limit of agreement +2.55 +1.77 to +3.32",
        // Wilson: z²/(8 + z²) = 32.4 %.
        "The same 0 of 8 (0 %) 0 % to 32 %",
        "tolerance of 2 marks 8 of 8 (100 %) 68 % to 100 %",
        // 1 − (12/8)/(194/64), give or take 1.96 × 0.087102.
        "Weighted kappa 0.51 0.33 to 0.68",
        // (93/7 − 5/4)/(93/7 + 5/4); F is 4.5286 for 7 and 8 degrees of freedom
        // and 4.8993 for 8 and 7.
        "Intraclass correlation 0.83 0.40 to 0.96",
    ] {
        let is_there = whole.iter().any(|row| row.contains(line));
        assert!(is_there, "{line} in {whole:?}");
    }
}

#[tokio::test]
async fn small_numbers_are_said_to_be_small_and_differences_that_cancel_are_told() {
    let app = TestApp::new().await;
    let mut at = department(&app).await;
    let round = shown(&mut at, &CANCELLING, [NAME, "Mr Tarn"]).await;
    let page = at.head.opens(&format!("{round}/comparison")).await;
    let first = page.section("first-markers");
    // 3, −3, 4, −4: SD √(50/3), t = 3.182446 for 3 degrees of freedom.
    let few = "Four sheets fix this to about ±6.5 marks: too few to call a difference.";
    assert_eq!(first.count(few), 2, "{}", first.words());
    let cancels = "The mean hides differences that cancel: the second mark is higher on two sheets and lower on two sheets, by 3.5 marks on average, with four of four outside the tolerance.";
    assert_eq!(first.count(cancels), 2, "{}", first.words());
    assert_eq!(first.count("With fewer than six sheets"), 2);
    first.says_nothing_of("Upper limit");
    // SD √(100/7) over all eight.
    page.says("No difference is shown. Eight sheets fix the mean to about ±3.2 marks")
        .says("higher on four sheets and lower on four sheets");
}

#[tokio::test]
async fn points_that_cause_disagreement_come_first_and_lead_to_their_sheets() {
    let app = TestApp::new().await;
    let mut at = department(&app).await;
    let round = shown(&mut at, &SEVERE, [NAME, "Mr Tarn"]).await;
    let page = at.head.opens(&format!("{round}/comparison")).await;
    let points = page.section("points");
    let rows = points.at("table").all("tbody tr");
    let rows: Vec<_> = rows.iter().map(Part::cells).collect();
    let share = |row: &Vec<String>| row[2].strip_suffix(" of 8")?.parse().ok();
    let shares: Vec<i64> = rows.iter().filter_map(share).collect();
    assert!(shares.len() > 5 && shares[0] > 0, "{shares:?}");
    assert!(shares.is_sorted_by(|a, b| a >= b), "{shares:?}");
    // Every sheet has one point or two on which the marks differ.
    let links = points.all(&format!("a[href^='{round}/settle#sheet-']"));
    assert!(links.len() >= 8, "{}", links.len());
    points.says_nothing_of("imit of agreement");
    let part = |row: &Vec<String>| row[7].strip_suffix(" %")?.parse::<f64>().ok();
    let parts: f64 = rows.iter().filter_map(part).sum();
    assert!((parts - 100.0).abs() < 5.0, "{parts}");
}

#[tokio::test]
async fn difference_plot_has_a_cross_for_each_sheet_and_names_those_outside() {
    let app = TestApp::new().await;
    let mut at = department(&app).await;
    let round = shown(&mut at, &CANCELLING, [NAME, "Mr Tarn"]).await;
    let page = at.head.opens(&format!("{round}/comparison")).await;
    let plot = page.at("figure");
    assert_eq!(plot.all(".cross.apart").len(), 8, "{}", plot.html());
    let names = plot.all("text");
    assert!(names.iter().any(|name| name.words().ends_with(" A")));
    plot.says("the second is higher on 4, lower on 4 and the same on 0. 8 sheets lie outside")
        .says("upper limit");
    let table = page.page().with("table", ALL_SHEETS);
    assert_eq!(table.count("outside"), 8, "{}", table.words());
    table.says("9.5 +3");
}

#[tokio::test]
async fn teacher_sees_the_whole_and_nobody_elses_line() {
    let app = TestApp::new().await;
    let mut at = department(&app).await;
    let round = shown(&mut at, &SEVERE, [NAME, "Mr Tarn"]).await;
    let (page, file) = (
        format!("{round}/comparison"),
        format!("{round}/comparison.csv"),
    );
    let (fell, tarn, gill) = (
        at.person(NAME).await,
        at.person("Mr Tarn").await,
        at.person("Mrs Gill").await,
    );
    let seen = at.head.opens(&page).await;
    for id in [
        format!("first-{fell}"),
        format!("first-{tarn}"),
        format!("second-{gill}"),
    ] {
        assert_eq!(seen.count(&format!("<details id=\"{id}\"")), 1, "{id}");
    }
    let seen = at.tarn.opens(&page).await.says("All sheets together");
    assert_eq!(seen.count(&format!("<details id=\"first-{tarn}\"")), 1);
    for theirs in [
        NAME.to_owned(),
        format!("first-{fell}"),
        format!("second-{gill}"),
    ] {
        assert_eq!(seen.count(&theirs), 0, "{theirs}");
    }
    // Four sheets of his own have a name, and those of the others none.
    let table = seen.page().with("table", ALL_SHEETS);
    assert_eq!(table.all("a[href*='/settle#sheet-']").len(), 4);
    assert_eq!(table.count("a sheet of colleagues"), 4);
    let seen = at.gill.opens(&page).await;
    assert_eq!(seen.count(NAME) + seen.count("Mr Tarn"), 0, "{}", seen.text);
    assert_eq!(seen.count(&format!("<details id=\"second-{gill}\"")), 1);

    let all = at.head.opens(&file).await.text;
    assert_eq!(
        all.lines().filter(|line| line.contains("_marker,")).count(),
        3
    );
    let own = at.tarn.opens(&file).await.text;
    assert!(!own.contains(NAME), "{own}");
    assert_eq!(
        own.lines().filter(|line| line.contains("_marker,")).count(),
        1
    );
    assert!(
        own.lines()
            .any(|line| line.starts_with("first_marker,Mr Tarn,4,1.50000,"))
    );
}

#[tokio::test]
async fn file_has_coefficients_of_the_whole_alone_and_no_limits_of_points() {
    let app = TestApp::new().await;
    let mut at = department(&app).await;
    let round = shown(&mut at, &SEVERE, ["Mr Tarn", "Mr Tarn"]).await;
    let url = format!("{round}/comparison.csv");
    let file = at.head.opens(&url).await.text;
    let mut lines = csv::Reader::from_reader(file.as_bytes());
    let header = lines.headers().unwrap().clone();
    let column = |name: &str| header.iter().position(|column| column == name).unwrap();
    for line in lines.records().map(Result::unwrap) {
        let has = |name: &str| !line[column(name)].is_empty();
        let (is_whole, is_point) = (&line[0] == "whole", &line[0] == "point");
        assert_eq!((has("weighted_kappa"), has("icc")), (is_whole, is_whole));
        assert_eq!(has("upper_limit"), !is_point, "{line:?}");
    }
}

#[tokio::test]
async fn who_did_not_mark_in_the_round_does_not_see_it() {
    let app = TestApp::new().await;
    let mut at = department(&app).await;
    let mut ash = app.colleague(&mut at.head, "Mr Ash").await;
    let round = shown(&mut at, &SEVERE, [NAME, "Mr Tarn"]).await;
    for path in ["comparison", "comparison.csv"] {
        ash.get(&format!("{round}/{path}")).await.expect(403);
    }
}

#[tokio::test]
async fn comparison_is_closed_to_whoever_marks_its_sheets_blind_again() {
    let app = TestApp::new().await;
    let mut at = department(&app).await;
    let round = shown(&mut at, &SEVERE, [NAME, "Mr Tarn"]).await;
    let again = at.make_round(&["Mrs Gill"]).await;
    at.draw(&again).await;
    for path in ["comparison", "comparison.csv"] {
        let url = format!("{round}/{path}");
        at.gill
            .get(&url)
            .await
            .expect(403)
            .says("Closed to you for now");
        at.head.opens(&url).await;
    }
}

#[tokio::test]
async fn sheets_that_were_not_finished_are_left_out_and_named() {
    let app = TestApp::new().await;
    let mut at = department(&app).await;
    for label in ["A", "B"] {
        at.mark_first(0, label, NAME, |_, most| most).await;
    }
    let round = at.make_round(&["Mrs Gill"]).await;
    at.draw(&round).await;
    let sheets = own_sheets(&mut at.gill, &round).await;
    mark_blind(&mut at.gill, &sheets[0], |_, most| most).await;
    at.head
        .does(&format!("{round}/show"), &[("early", "yes")])
        .await;
    let page = at.head.opens(&format!("{round}/comparison")).await;
    let page = page
        .says("One sheet is too few to call a difference.")
        .says("Not in the totals, because a point has no first or no second mark");
    assert_eq!(page.page().with("p", "Not in the totals").count("group"), 1);
}

#[tokio::test]
async fn nothing_that_is_marked_twice_is_nothing_to_compare() {
    let app = TestApp::new().await;
    let mut at = department(&app).await;
    at.mark_first(0, "A", NAME, |_, most| most).await;
    let round = at.make_round(&["Mrs Gill"]).await;
    at.draw(&round).await;
    at.head
        .does(&format!("{round}/show"), &[("early", "yes")])
        .await;
    let url = format!("{round}/comparison");
    let page = at.head.opens(&url).await;
    page.says("there is nothing to compare");
    let file = at.head.opens(&format!("{url}.csv")).await;
    assert_eq!(file.text.lines().count(), 1);
}

#[tokio::test]
async fn whose_first_marks_did_not_stand_at_the_draw_is_sent_to_no_closed_page() {
    let app = TestApp::new().await;
    let mut at = department(&app).await;
    let mut ash = app.colleague(&mut at.head, "Mr Ash").await;
    // Ms Fell marks over what Mr Ash gave before the draw; what he gives after
    // it is of no account here.
    for set in [0, 1] {
        at.mark_first(set, "A", "Mr Ash", |_, most| most).await;
        at.mark_first(set, "A", NAME, |_, _| 0).await;
    }
    let round = at.make_round(&["Mrs Gill"]).await;
    at.draw(&round).await;
    at.mark_first(0, "A", "Mr Ash", |_, most| most).await;
    let early = [("early", "yes")];
    let show = format!("{round}/show");
    at.head.does(&show, &early).await;
    for page in ["comparison", "settle"] {
        let link = format!("{round}/{page}\"");
        assert_eq!(ash.get(&round).await.count(&link), 0);
        ash.get(&format!("{round}/{page}")).await.expect(403);
        assert!(at.gill.get(&round).await.count(&link) > 0);
        at.gill.opens(&format!("{round}/{page}")).await;
    }
}
