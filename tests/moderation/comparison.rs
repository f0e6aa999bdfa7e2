use server::db::{round_sheet, scheme};
use server::ids::RoundId;

use super::department::{Department, colleague, department, mark_blind, number, own_sheets};
use crate::support::{NAME, TestApp};

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

/// Whoever teaches a class marks it first; or Mr Tarn does, both.
const EACH: [&str; 2] = [NAME, "Mr Tarn"];
const TARN: [&str; 2] = ["Mr Tarn", "Mr Tarn"];

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
    let round = at.drawn().await;
    let id = RoundId(number(&round));
    let sheets = round_sheet::list(&mut at.app.db().await, id).await.unwrap();
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

/// Such a round with her marks shown: the department, the round and the
/// address of the comparison.
async fn shown<'a>(
    app: &'a TestApp,
    totals: &Totals,
    first: [&str; 2],
) -> (Department<'a>, String, String) {
    let mut at = department(app).await;
    let round = marked_twice(&mut at, totals, first).await;
    at.gill.sends(format!("{round}/show"), &[]).await;
    let comparison = format!("{round}/comparison");
    (at, round, comparison)
}

#[tokio::test]
async fn comparison_is_not_there_while_second_marking_is_blind() {
    let app = TestApp::new().await;
    let mut at = department(&app).await;
    let round = marked_twice(&mut at, &SEVERE, EACH).await;
    let link = format!("href=\"{round}/comparison\"");
    for path in ["comparison", "comparison.csv"] {
        let url = format!("{round}/{path}");
        let reply = at.head.get(&url).await.expect(404);
        reply.says("are still blind");
        at.gill.get(&url).await.expect(404);
        at.tarn.get(&url).await.expect(404);
        let nowhere = format!("/moderation/99/{path}");
        at.head.get(&nowhere).await.expect(404);
    }
    at.head.opens(&round).await.says_nothing_of(&link);
    at.gill.sends(format!("{round}/show"), &[]).await;
    at.head.opens(&round).await.says(&link);
    at.head.opens(format!("{round}/comparison")).await;
}

/// 1, 2, 1, 2, 1, 2, 1, 2: SD √(2/7), t = 2.364624 for 7 degrees of freedom.
#[tokio::test]
async fn figures_of_a_severe_marker_are_those_worked_out_by_hand() {
    let app = TestApp::new().await;
    let (mut at, _, comparison) = shown(&app, &SEVERE, TARN).await;
    let page = at.head.opens(&comparison).await;
    let page = page
        .says("Severe: the second markers gave 1.5 marks a sheet more on average (at least 1.1).")
        .says("Lenient: gave 1.5 marks a sheet more on average (at least 1.1) than the first markers.")
        .says("Mrs Gill alone marked these sheets a second time: a difference may be either person’s");
    let whole = page.between("id=\"whole\"", "</section>");
    for line in [
        "second − first</th><td class=\"num\">+1.50</td><td class=\"num\">+1.05 to +1.95</td>",
        "Mean size of the differences</th><td class=\"num\">1.50</td>",
        "Standard deviation of the differences</th><td class=\"num\">0.53</td>",
        // 1.5 ∓ 1.96 × 0.534522, give or take t √(3 × (2/7)/8) = 0.773970.
        "Lower limit of agreement</th><td class=\"num\">+0.45</td><td class=\"num\">−0.32 to +1.23</td>",
        "Upper limit of agreement</th><td class=\"num\">+2.55</td><td class=\"num\">+1.77 to +3.32</td>",
        // Wilson: z²/(8 + z²) = 32.4 %.
        "The same</th><td class=\"num\">0 of 8 (0 %)</td><td class=\"num\">0 % to 32 %</td>",
        "tolerance of 2 marks</th><td class=\"num\">8 of 8 (100 %)</td><td class=\"num\">68 % to 100 %</td>",
        // 1 − (12/8)/(194/64), give or take 1.96 × 0.087102.
        "Weighted kappa</th><td class=\"num\">0.51</td><td class=\"num\">0.33 to 0.68</td>",
        // (93/7 − 5/4)/(93/7 + 5/4); F is 4.5286 for 7 and 8 degrees of freedom
        // and 4.8993 for 8 and 7.
        "Intraclass correlation</th><td class=\"num\">0.83</td><td class=\"num\">0.40 to 0.96</td>",
    ] {
        assert!(whole.contains(line), "{line} in {whole}");
    }
    // The file has coefficients of the whole alone, and no limits of points.
    let file = at.head.opens(format!("{comparison}.csv")).await.text;
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
async fn small_numbers_are_said_to_be_small_and_differences_that_cancel_are_told() {
    let app = TestApp::new().await;
    let (mut at, _, comparison) = shown(&app, &CANCELLING, EACH).await;
    let page = at.head.opens(&comparison).await;
    let first = page.between("id=\"first-markers\"", "</section>");
    // 3, −3, 4, −4: SD √(50/3), t = 3.182446 for 3 degrees of freedom.
    let few = "Four sheets fix this to about ±6.5 marks: too few to call a difference.";
    let cancels = "The mean hides differences that cancel: the second mark is higher on two sheets and lower on two sheets, by 3.5 marks on average, with four of four outside the tolerance.";
    for told in [few, cancels, "With fewer than six sheets"] {
        assert_eq!(first.matches(told).count(), 2, "{first}");
    }
    assert!(!first.contains("Upper limit"), "{first}");
    // SD √(100/7) over all eight.
    let page = page
        .says("No difference is shown. Eight sheets fix the mean to about ±3.2 marks")
        .says("higher on four sheets and lower on four sheets");

    // The plot has a cross for each sheet, and names those outside.
    let plot = page.between("<figure", "</figure>");
    for told in [
        "the second is higher on 4, lower on 4 and the same on 0. 8 sheets lie outside",
        "upper limit",
        " A</tspan>",
    ] {
        assert!(plot.contains(told), "{told} in {plot}");
    }
    assert_eq!(plot.matches("class=\"cross apart\"").count(), 8, "{plot}");
    let table = page.between("Totals, as in the graph: all sheets</caption>", "</table>");
    let outside = table.matches("<strong>outside</strong>").count();
    assert_eq!(outside, 8, "{table}");
    let means = "<td class=\"num\">9.5</td><td class=\"num\">+3</td>";
    assert!(table.contains(means), "{table}");
}

#[tokio::test]
async fn points_that_cause_disagreement_come_first_and_lead_to_their_sheets() {
    let app = TestApp::new().await;
    let (mut at, round, comparison) = shown(&app, &SEVERE, EACH).await;
    let page = at.head.opens(&comparison).await;
    let points = page.between("id=\"points\"", "id=\"whole\"");
    let before = |text: &str| -> Vec<f64> {
        let parts = points.split(text);
        parts
            .filter_map(|before| before.rsplit('>').next()?.parse().ok())
            .collect()
    };
    let shares = before(" of 8</td>");
    assert!(shares.len() > 5 && shares[0] > 0.0, "{shares:?}");
    assert!(shares.is_sorted_by(|a, b| a >= b), "{shares:?}");
    // Every sheet has one point or two on which the marks differ.
    let links = points.matches(&format!("{round}/settle#sheet-")).count();
    assert!(links >= 8, "{links}");
    assert!(!points.contains("imit of agreement"), "{points}");
    let parts: f64 = before(" %</td></tr>").into_iter().sum();
    assert!((parts - 100.0).abs() < 5.0, "{parts}");
}

#[tokio::test]
async fn teacher_sees_the_whole_and_nobody_elses_line() {
    let app = TestApp::new().await;
    let (mut at, _, page) = shown(&app, &SEVERE, EACH).await;
    let file = format!("{page}.csv");
    let first_fell = format!("first-{}", at.person(NAME).await);
    let first_tarn = format!("first-{}", at.person("Mr Tarn").await);
    let second_gill = format!("second-{}", at.person("Mrs Gill").await);
    let line = |id: &str| format!("<details id=\"{id}\"");
    let seen = at.head.opens(&page).await;
    for id in [&first_fell, &first_tarn, &second_gill] {
        assert_eq!(seen.count(&line(id)), 1, "{id}");
    }
    let seen = at.tarn.opens(&page).await;
    let seen = seen.says("All sheets together").says(&line(&first_tarn));
    for theirs in [NAME, &first_fell, &second_gill] {
        assert_eq!(seen.count(theirs), 0, "{theirs}");
    }
    // Four sheets of his own have a name, and those of the others none.
    let table = seen.between("Totals, as in the graph: all sheets</caption>", "</table>");
    for told in ["/settle#sheet-", "a sheet of colleagues"] {
        assert_eq!(table.matches(told).count(), 4, "{table}");
    }
    let seen = at.gill.opens(&page).await.says(&line(&second_gill));
    seen.says_nothing_of(NAME).says_nothing_of("Mr Tarn");

    let of_markers = |file: &str| {
        let lines = file.lines().filter(|line| line.contains("_marker,"));
        lines.map(str::to_owned).collect::<Vec<_>>()
    };
    let all = at.head.opens(&file).await.text;
    assert_eq!(of_markers(&all).len(), 3);
    let own = at.tarn.opens(&file).await.says_nothing_of(NAME).text;
    let [line] = &of_markers(&own)[..] else {
        panic!("{own}");
    };
    assert!(line.starts_with("first_marker,Mr Tarn,4,1.50000,"));
}

#[tokio::test]
async fn comparison_is_closed_to_others_and_to_whoever_marks_its_sheets_blind_again() {
    let app = TestApp::new().await;
    let (mut at, _, page) = shown(&app, &SEVERE, EACH).await;
    let mut ash = colleague(&app, &mut at.head, "Mr Ash").await;
    at.gill.opens(&page).await;
    at.drawn().await;
    for url in [page.clone(), format!("{page}.csv")] {
        ash.get(&url).await.expect(403);
        let closed = at.gill.get(&url).await.expect(403);
        closed.says("Closed to you for now");
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
    let [none, one] = [at.drawn().await, at.drawn().await];
    let sheets = own_sheets(&mut at.gill, &one).await;
    mark_blind(&mut at.gill, &sheets[0], |_, most| most).await;
    at.show(&none).await;
    at.show(&one).await;
    let page = at.head.opens(format!("{one}/comparison")).await;
    let page = page.says("One sheet is too few to call a difference.");
    let why = "Not in the totals, because a point has no first or no second mark";
    let left_out = page.between(why, "</p>");
    assert_eq!(left_out.matches("group").count(), 1, "{left_out}");
    let page = at.head.opens(format!("{none}/comparison")).await;
    page.says("there is nothing to compare");
    let file = at.head.opens(format!("{none}/comparison.csv")).await;
    assert_eq!(file.text.lines().count(), 1);
}

#[tokio::test]
async fn whose_first_marks_did_not_stand_at_the_draw_is_sent_to_no_closed_page() {
    let app = TestApp::new().await;
    let mut at = department(&app).await;
    let mut ash = colleague(&app, &mut at.head, "Mr Ash").await;
    // Ms Fell marks over what Mr Ash gave before the draw; what he gives after
    // it is of no account here.
    for set in [0, 1] {
        at.mark_first(set, "A", "Mr Ash", |_, most| most).await;
        at.mark_first(set, "A", NAME, |_, _| 0).await;
    }
    let round = at.drawn().await;
    at.mark_first(0, "A", "Mr Ash", |_, most| most).await;
    at.show(&round).await;
    for page in ["comparison", "settle"] {
        let url = format!("{round}/{page}");
        let link = format!("{url}\"");
        ash.opens(&round).await.says_nothing_of(&link);
        ash.get(&url).await.expect(403);
        at.gill.opens(&round).await.says(&link);
        at.gill.opens(&url).await;
    }
}
