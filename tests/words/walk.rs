//! Every page that a pupil can meet, in each of its states.

use analysis::method::Method;
use analysis::slip::Slip;

use super::page::{expect_no_other_word, expect_no_other_word_in};
use super::pseudo::pseudo;
use crate::bench_sheet::BOXES;
use crate::bench_sheet::bad_input::box_of;
use crate::bench_sheet::look_again::{sheets, told};
use crate::feedback::marked;
use crate::support::{Group, Lesson, Part, Reply, TestApp};

/// What people typed, or is a name: the class, its benches, the program.
const NAMES: [&str; 6] = ["10B/Ph2", "Crestcount", "A", "B", "C", "D"];

async fn app() -> TestApp {
    TestApp::saying(pseudo()).await
}

/// Checks a page of the class with this code.
fn check(code: &str, status: u16, page: Reply) -> Reply {
    let page = page.expect(status);
    expect_no_other_word(&page.page(), &[&NAMES[..], &[code]].concat());
    page
}

/// Bench A of a class set for this method.
async fn bench_for(method: &str) -> Lesson {
    let lesson = Lesson::in_app(app().await, method).await;
    lesson.begun().await
}

#[tokio::test]
async fn pages_that_anybody_may_open() {
    let app = app().await;
    let mut pupil = app.browser();
    for page in ["/", "/about", "/privacy"] {
        check("", 200, pupil.get(page).await);
    }
    for page in ["/c/BCDFG", "/c/BCDFG/A", "/nowhere"] {
        check("", 404, pupil.get(page).await);
    }
    check("", 422, pupil.post("/join", &[]).await);
    let typed = [("code", "12345")];
    check("", 422, pupil.post("/join", &typed).await);
    check("", 405, pupil.post("/about", &[]).await);
    let long = "9".repeat(70_000);
    check("", 413, pupil.post("/join", &[("code", &long)]).await);
    let foreign = pupil
        .request("POST", "/join")
        .header("origin", "http://elsewhere.test");
    let foreign = foreign.body(axum::body::Body::empty()).unwrap();
    check("", 403, pupil.send(foreign).await);
    let formless = pupil
        .request("POST", "/join")
        .header("origin", "http://lab.test");
    let formless = formless.body(axum::body::Body::from("{}")).unwrap();
    check("", 400, pupil.send(formless).await);
}

#[tokio::test]
async fn privacy_where_initials_are_kept() {
    let app = app().await;
    let kept = "UPDATE department SET initials_until = '2027-08-31'";
    app.run(kept).await.unwrap();
    check("", 200, app.get("/privacy").await);
}

#[tokio::test]
async fn choosing_a_bench_and_coming_back_to_it() {
    let mut at = Lesson::in_app(app().await, "ripple-tank").await;
    let (app, code) = (at.app.clone(), at.code.clone());
    let benches = format!("/c/{code}");
    let pupil = &mut at.pupil;
    check(&code, 200, pupil.get(&benches).await);
    let number = check(&code, 200, pupil.post(&benches, &[("bench", "A")]).await);
    let number = number.at(".code-large").words();
    check(&code, 404, pupil.post(&benches, &[("bench", "Z")]).await);
    check(&code, 200, app.get(&benches).await);

    let mut other = app.browser();
    let come_back = format!("{benches}/A/come-back");
    check(&code, 200, other.get(&come_back).await);
    let wrong = if number == "0000" { "0001" } else { "0000" };
    let tries = [("12", 422), (wrong, 422), (wrong, 422), (wrong, 422)];
    for (number, status) in tries
        .into_iter()
        .chain([(wrong, 422), (wrong, 422), (wrong, 429)])
    {
        let page = other.post(&come_back, &[("number", number)]).await;
        check(&code, status, page);
    }

    at.closes().await;
    check(&code, 200, app.get(&benches).await);
    let late = app.post(&benches, &[("bench", "B")]).await;
    check(&code, 403, late);
}

#[tokio::test]
async fn sheets_with_something_wrong_in_any_box() {
    let long = "9".repeat(400);
    for method in Method::ALL {
        let mut at = bench_for(method.code()).await;
        let code = at.code.clone();
        check(&code, 200, at.reads().await);
        let mut draft = at.draft().await;
        for field in method.fields() {
            let name = box_of(field);
            let wrong = [
                "+",
                "??",
                "1.2.3",
                &long,
                "0.000000000000000001",
                "5 ½½",
                "-3",
                "0",
                "3.5",
                "90000000000000",
                "5 °C",
            ];
            for text in wrong {
                let boxes = [("r2.dial", "20"), (name.as_str(), text), ("r1.dial", "10")];
                check(&code, 200, at.send(&draft, "rows", &boxes).await);
                let page = at.send(&draft, "save", &boxes).await;
                if page.status == 303 {
                    draft = at.draft().await;
                } else {
                    check(&code, 422, page);
                }
            }
        }
        // Whether one of these was kept does not matter here.
        check(&code, 200, at.reads().await);
    }
}

#[tokio::test]
async fn sheets_that_are_refused_for_other_reasons() {
    let mut at = bench_for("ripple-tank").await;
    let code = at.code.clone();
    let draft = at.draft().await;
    let long = "8".repeat(3001);
    for boxes in [
        vec![],
        vec![("r1.first_crest", "8"), ("r1.last_crest", "3")],
        vec![("r1.passes_first", "8"), ("r1.passes_last", "3")],
        vec![("r1.span", "3"), ("unit.span", "%%")],
        vec![("r1.span", "3"), ("unit.span", "s")],
        vec![("r1.span", "3 %%")],
        vec![("kit", &long[..41]), ("shared", &long[..41])],
        vec![("r1.dial", "10"), ("words.method", &long)],
        vec![("r1.dial", "10"), ("words.conclusion", "\u{1}")],
    ] {
        check(&code, 422, at.send(&draft, "hand_in", &boxes).await);
    }
    check(&code, 409, at.send("", "hand_in", &BOXES).await);
    for act in ["rows", "repeat.1", "repeat.99"] {
        check(&code, 200, at.send(&draft, act, &BOXES).await);
    }
}

/// Figures that no bench gives, though they could be right.
const ODD: [(&str, &str); 18] = [
    ("w.scale_true", "9"),
    ("unit.scale_true", "cm"),
    ("w.scale_image", "90"),
    ("unit.scale_image", "cm"),
    ("w.depth_mm", "100"),
    ("w.temperature_c", "60"),
    ("w.hanging_mass_g", "9000"),
    ("w.string_mass_g", "900"),
    ("w.string_length_m", "90"),
    ("r1.dial", "5000"),
    ("r1.dial_times", "10"),
    ("r1.last_crest", "8"),
    ("r1.span", "1,150"),
    ("r1.seconds", "1"),
    ("r1.length", "1,150"),
    ("unit.length", "m"),
    ("r2.length", "900"),
    ("r2.span", "900"),
];

#[tokio::test]
async fn sheets_with_something_odd() {
    for method in Method::ALL {
        let mut at = bench_for(method.code()).await;
        at.keeps("save", &ODD).await;
        let page = at.reads().await;
        let page = check(&at.code, 200, page).page();
        let asked = if method == Method::RippleTank { 7 } else { 6 };
        assert!(page.all(".asked").len() >= asked, "{}", page.html());
    }
}

#[tokio::test]
async fn sheet_that_is_kept_changed_closed_and_left() {
    let mut at = bench_for("ripple-tank").await;
    let code = at.code.clone();
    let mut other = at.tab();
    let late = other.open_sheet(&at.bench).await;
    let words = [
        ("words.method", "1"),
        ("words.conclusion", "2"),
        ("words.evaluation", "3"),
    ];
    let more = [
        ("kit", "7"),
        ("shared", "8"),
        ("r1.left_out", "yes"),
        ("w.uncertainty", "1"),
    ];
    let boxes = [&BOXES[..], &words, &more].concat();
    for act in ["save", "hand_in", "save"] {
        at.keeps(act, &boxes).await;
        check(&code, 200, at.reads().await);
    }
    let changed = [("r1.dial", "11"), ("r1.span", "22.4")];
    let page = other.send_sheet(&at.bench, &late, "save", &changed).await;
    check(&code, 409, page);
    at.app.clock.advance(12 * 3_600_000 - 1000);
    check(&code, 200, at.reads().await);
    let draft = at.draft().await;
    at.teacher.signs_in().await;
    at.closes().await;
    check(&code, 200, at.reads().await);
    check(&code, 409, at.send(&draft, "rows", &boxes).await);
    let mut nobody = at.app.browser();
    let page = nobody.send_sheet(&at.bench, &draft, "save", &boxes).await;
    check(&code, 403, page);
}

#[tokio::test]
async fn looking_again_at_every_slip() {
    for slip in Slip::ALL {
        let (method, boxes) = sheets::of(slip);
        let mut at = told(app().await, method, "explain").await;
        at.keeps("save", &boxes).await;
        check(&at.code, 200, at.pupil.get(&at.look_again()).await);
        let page = at.reads().await;
        check(&at.code, 200, page);
        // Its feedback, with nothing marked.
        at.release("out").await;
        let titles = titles(&at.app).await;
        let page = at.pupil.opens(at.feedback("A")).await;
        check_feedback(&page.page(), &at.code, &titles);
    }
}

#[tokio::test]
async fn looking_again_where_there_is_nothing_to_see() {
    let mut at = told(app().await, "ripple-tank", "explain").await;
    let (code, url) = (at.code.clone(), at.look_again());
    check(&code, 200, at.pupil.get(&url).await);
    for boxes in [
        &BOXES[..1],
        &BOXES,
        &[("r1.speed", "1"), ("r2.speed", "2"), ("w.uncertainty", "9")],
    ] {
        at.keeps("save", boxes).await;
        check(&code, 200, at.pupil.get(&url).await);
    }
    at.help("off", "explain").await;
    check(&code, 404, at.pupil.get(&url).await);
    let feedback = at.feedback("A");
    check(&code, 404, at.pupil.get(&feedback).await);
}

/// The department's own words for its marking points.
async fn titles(app: &TestApp) -> Vec<String> {
    app.values("SELECT title FROM marking_point").await
}

fn check_feedback(page: &Part, code: &str, titles: &[String]) {
    let titles = titles.iter().map(String::as_str);
    let names: Vec<&str> = NAMES.into_iter().chain([code]).chain(titles).collect();
    expect_no_other_word(page, &names);
}

#[tokio::test]
async fn feedback_and_what_is_printed_of_it() {
    let (mut at, mut b) = marked(app().await).await;
    at.note("1", "group").await;
    at.award_suggested("B").await.expect(303);
    let group = Group::CAREFUL.odd(2, 9.0 / 10.0);
    group.sends_again("hand_in", &mut b, &at.own("B")).await;
    let page = at.page("/sheets/B").await;
    let form = page.at("#suggested-0 form");
    let confirmed = [("verdict", "confirmed")];
    at.teacher.fill(&form, &confirmed).await.expect(303);
    at.release("out").await;
    let (code, titles) = (at.code.clone(), titles(&at.app).await);
    for (browser, label) in [(&mut at.pupil, "A"), (&mut b, "B")] {
        let page = browser.opens(format!("/c/{code}/{label}/feedback")).await;
        check_feedback(&page.page(), &code, &titles);
    }
    let benches = at.pupil.get(&format!("/c/{code}")).await;
    check(&code, 200, benches);
    check(&code, 200, at.reads().await);
    at.closes().await;
    check(&code, 200, at.reads().await);
    let paper = at.page("/feedback/print").await;
    check_feedback(&paper.at("article"), &code, &titles);
}

/// Checks every part of a staff page that is in the pupils' language.
fn check_parts(page: &Reply, parts: usize, names: &[&str]) {
    let found = page.page().all("main [lang='he-XA']");
    assert_eq!(found.len(), parts, "{}", page.text);
    for part in found {
        let mut html = part.html();
        // What is in English inside of it says so.
        for own in part.all("[lang='en-GB']") {
            html = html.replace(&own.html(), "");
        }
        assert_eq!(part.attr("dir"), "rtl", "{html}");
        expect_no_other_word_in(&Part::page(&html), names);
    }
}

#[tokio::test]
async fn what_is_handed_out() {
    for method in Method::ALL {
        let mut at = Lesson::in_app(app().await, method.code()).await;
        let page = at.page("").await;
        // Title, date, address and code, cautions, what a group needs.
        let names = [&NAMES[..], &[&at.code, "http://lab.test"]].concat();
        check_parts(&page, 5, &names);
        // The rest that is printed is in one of them.
        let printed = page.page().all("main section:not(.no-print)");
        assert!(printed.iter().all(|part| part.attr("lang") == "he-XA"));
    }
}

#[tokio::test]
async fn what_stands_before_the_class() {
    let mut at = bench_for("ripple-tank").await;
    let page = at.page("/room/wall").await;
    // Heading, what is read out, benches, what it is for.
    check_parts(&page, 4, &NAMES);
}
