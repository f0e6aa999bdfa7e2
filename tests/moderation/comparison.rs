use server::db::{round_sheet, scheme};
use server::ids::RoundId;

use super::department::{Department, department, mark_blind, number, own_sheets};
use crate::support::{NAME, Part, Reply};

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
async fn marked_twice(at: &mut Department, totals: &Totals, first: [&str; 2]) -> String {
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
async fn shown(totals: &Totals, first: [&str; 2]) -> (Department, String, String) {
    let mut at = department().await;
    let round = marked_twice(&mut at, totals, first).await;
    at.gill.sends(format!("{round}/show"), &[]).await;
    let comparison = format!("{round}/comparison");
    (at, round, comparison)
}

/// The table that has every sheet of the graph.
fn all_sheets(page: &Reply) -> Part {
    page.page()
        .with("table", "Totals, as in the graph: all sheets")
}

#[tokio::test]
async fn comparison_is_not_there_while_second_marking_is_blind() {
    let mut at = department().await;
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
    let (mut at, _, comparison) = shown(&SEVERE, TARN).await;
    let page = at.head.opens(&comparison).await;
    let page = page
        .says("Severe: the second markers gave 1.5 marks a sheet more on average (at least 1.1).")
        .says("Lenient: gave 1.5 marks a sheet more on average (at least 1.1) than the first markers.")
        .says("Mrs Gill alone marked these sheets a second time: a difference may be either person’s");
    let whole = page.section("whole");
    for (name, value, interval) in [
        ("second − first", "+1.50", "+1.05 to +1.95"),
        ("Mean size of the differences", "1.50", ""),
        ("Standard deviation of the differences", "0.53", ""),
        // 1.5 ∓ 1.96 × 0.534522, give or take t √(3 × (2/7)/8) = 0.773970.
        ("Lower limit of agreement", "+0.45", "−0.32 to +1.23"),
        ("Upper limit of agreement", "+2.55", "+1.77 to +3.32"),
        // Wilson: z²/(8 + z²) = 32.4 %.
        ("The same", "0 of 8 (0 %)", "0 % to 32 %"),
        ("tolerance of 2 marks", "8 of 8 (100 %)", "68 % to 100 %"),
        // 1 − (12/8)/(194/64), give or take 1.96 × 0.087102.
        ("Weighted kappa", "0.51", "0.33 to 0.68"),
        // (93/7 − 5/4)/(93/7 + 5/4); F is 4.5286 for 7 and 8 degrees of freedom
        // and 4.8993 for 8 and 7.
        ("Intraclass correlation", "0.83", "0.40 to 0.96"),
    ] {
        assert_eq!(whole.row(name)[1..3], [value, interval], "{name}");
    }
    // The file has coefficients of the whole alone, and no limits of points.
    let file = at.head.opens(format!("{comparison}.csv")).await;
    let first = file.text.split(',').next().unwrap().to_owned();
    for line in file.lines() {
        let has = |name: &str| !line[name].is_empty();
        let (is_whole, is_point) = (line[&first] == "whole", line[&first] == "point");
        assert_eq!((has("weighted_kappa"), has("icc")), (is_whole, is_whole));
        assert_eq!(has("upper_limit"), !is_point, "{line:?}");
    }
}

#[tokio::test]
async fn small_numbers_are_said_to_be_small_and_differences_that_cancel_are_told() {
    let (mut at, _, comparison) = shown(&CANCELLING, EACH).await;
    let page = at.head.opens(&comparison).await;
    let first = page.section("first-markers");
    // 3, −3, 4, −4: SD √(50/3), t = 3.182446 for 3 degrees of freedom.
    let few = "Four sheets fix this to about ±6.5 marks: too few to call a difference.";
    let cancels = "The mean hides differences that cancel: the second mark is higher on two sheets and lower on two sheets, by 3.5 marks on average, with four of four outside the tolerance.";
    for told in [few, cancels, "With fewer than six sheets"] {
        assert_eq!(first.count(told), 2, "{}", first.words());
    }
    first.says_nothing_of("Upper limit");
    // SD √(100/7) over all eight.
    let page = page
        .says("No difference is shown. Eight sheets fix the mean to about ±3.2 marks")
        .says("higher on four sheets and lower on four sheets");

    // The plot has a cross for each sheet, and names those outside.
    let plot = page.at("figure");
    let outside = "the second is higher on 4, lower on 4 and the same on 0. 8 sheets lie outside";
    for told in [outside, "upper limit", " A</tspan>"] {
        assert!(plot.html().contains(told), "{told} in {}", plot.html());
    }
    assert_eq!(plot.all(".cross.apart").len(), 8, "{}", plot.html());
    let table = all_sheets(&page);
    assert_eq!(table.count("outside"), 8, "{}", table.words());
    let rows = table.all("tbody tr");
    let means = |row: &Part| row.cells()[3..5] == ["9.5", "+3"];
    assert!(rows.iter().any(means), "{}", table.words());
}

#[tokio::test]
async fn points_that_cause_disagreement_come_first_and_lead_to_their_sheets() {
    let (mut at, round, comparison) = shown(&SEVERE, EACH).await;
    let page = at.head.opens(&comparison).await;
    let points = page.section("points");
    let rows = points.at("tbody").all("tr");
    let figures = |column: fn(&[String]) -> &String| -> Vec<f64> {
        let figures = rows.iter().map(|row| column(&row.cells()).clone());
        let figures = figures.map(|cell| cell.split(' ').next().unwrap().parse());
        figures.map(Result::unwrap).collect()
    };
    let shares = figures(|cells| &cells[2]);
    assert!(shares.len() > 5 && shares[0] > 0.0, "{shares:?}");
    assert!(shares.is_sorted_by(|a, b| a >= b), "{shares:?}");
    // Every sheet has one point or two on which the marks differ.
    let links = points.all(&format!("a[href^='{round}/settle#sheet-']"));
    assert!(links.len() >= 8, "{}", links.len());
    points.says_nothing_of("imit of agreement");
    let parts: f64 = figures(|cells| cells.last().unwrap()).into_iter().sum();
    assert!((parts - 100.0).abs() < 5.0, "{parts}");
}

#[tokio::test]
async fn teacher_sees_the_whole_and_nobody_elses_line() {
    let (mut at, _, page) = shown(&SEVERE, EACH).await;
    let file = format!("{page}.csv");
    let first_fell = format!("first-{}", at.person(NAME).await);
    let first_tarn = format!("first-{}", at.person("Mr Tarn").await);
    let second_gill = format!("second-{}", at.person("Mrs Gill").await);
    let line = |id: &str| format!("details#{id}");
    let seen = at.head.opens(&page).await;
    for id in [&first_fell, &first_tarn, &second_gill] {
        assert!(seen.page().has(&line(id)), "{id}");
    }
    let seen = at.tarn.opens(&page).await;
    let seen = seen.says("All sheets together");
    seen.at(&line(&first_tarn));
    for theirs in [NAME, &first_fell, &second_gill] {
        assert_eq!(seen.count(theirs), 0, "{theirs}");
    }
    // Four sheets of his own have a name, and those of the others none.
    let table = all_sheets(&seen);
    assert_eq!(table.all("a[href*='/settle#sheet-']").len(), 4);
    assert_eq!(table.count("a sheet of colleagues"), 4);
    let seen = at.gill.opens(&page).await;
    seen.at(&line(&second_gill));
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
    let (mut at, _, page) = shown(&SEVERE, EACH).await;
    let mut ash = at.head.colleague("Mr Ash").await;
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
    let mut at = department().await;
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
    let left_out = page.page().with("p", why);
    assert_eq!(left_out.count("group"), 1, "{}", left_out.words());
    let page = at.head.opens(format!("{none}/comparison")).await;
    page.says("there is nothing to compare");
    let file = at.head.opens(format!("{none}/comparison.csv")).await;
    assert_eq!(file.text.lines().count(), 1);
}

#[tokio::test]
async fn whose_first_marks_did_not_stand_at_the_draw_is_sent_to_no_closed_page() {
    let mut at = department().await;
    let mut ash = at.head.colleague("Mr Ash").await;
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
