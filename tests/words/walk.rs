//! Every page that a pupil can meet, in each of its states.

use analysis::field::Place;
use analysis::method::Method;
use analysis::slip::Slip;

use super::page::{expect_no_other_word, expect_no_other_word_in};
use super::pseudo::pseudo;
use crate::bench_sheet::closed::close;
use crate::bench_sheet::look_again::{Bench, sheets};
use crate::bench_sheet::{BOXES, at_bench};
use crate::feedback::marked;
use crate::support::{Browser, Group, Reply, TestApp};

/// What people typed, or is a name: the class, its benches, the program.
const NAMES: [&str; 6] = ["10B/Ph2", "Crestcount", "A", "B", "C", "D"];

async fn app() -> TestApp {
    TestApp::saying(pseudo()).await
}

/// Checks a page of the class with this code.
fn check(code: &str, status: u16, page: Reply) -> Reply {
    let page = page.expect(status);
    expect_no_other_word(&page.text, &[&NAMES[..], &[code]].concat());
    page
}

fn code_of(sheet: &str) -> &str {
    sheet.split('/').nth(2).unwrap()
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
    sqlx::query(kept)
        .execute(&mut app.sql().await)
        .await
        .unwrap();
    check("", 200, app.browser().get("/privacy").await);
}

#[tokio::test]
async fn choosing_a_bench_and_coming_back_to_it() {
    let app = app().await;
    let mut teacher = app.teacher().await;
    let (set, code) = teacher.make_class_set("ripple-tank").await;
    let benches = format!("/c/{code}");
    let mut pupil = app.browser();
    check(&code, 200, pupil.get(&benches).await);
    let number = check(&code, 200, pupil.post(&benches, &[("bench", "A")]).await);
    let number = number.between("<p class=\"code-large\">", "</p>");
    check(&code, 404, pupil.post(&benches, &[("bench", "Z")]).await);
    check(&code, 200, app.browser().get(&benches).await);

    let mut other = app.browser();
    let come_back = format!("{benches}/A/come-back");
    check(&code, 200, other.get(&come_back).await);
    check(
        &code,
        422,
        other.post(&come_back, &[("number", "12")]).await,
    );
    let wrong = if number == "0000" { "0001" } else { "0000" };
    for _ in 0..5 {
        check(
            &code,
            422,
            other.post(&come_back, &[("number", wrong)]).await,
        );
    }
    check(
        &code,
        429,
        other.post(&come_back, &[("number", wrong)]).await,
    );

    close(&app, &set).await;
    check(&code, 200, app.browser().get(&benches).await);
    check(
        &code,
        403,
        app.browser().post(&benches, &[("bench", "B")]).await,
    );
}

/// A pupil at bench A of a class set for this method.
async fn bench_for(app: &TestApp, method: Method) -> (Browser<'_>, String) {
    let (_, code) = app.teacher().await.make_class_set(method.code()).await;
    let mut pupil = app.browser();
    pupil.take_bench(&code, "A").await;
    (pupil, format!("/c/{code}/A"))
}

#[tokio::test]
async fn sheets_with_something_wrong_in_any_box() {
    let long = "9".repeat(400);
    for method in Method::ALL {
        let app = app().await;
        let (mut pupil, sheet) = bench_for(&app, method).await;
        let code = code_of(&sheet).to_owned();
        check(&code, 200, pupil.get(&sheet).await);
        let mut draft = pupil.open_sheet(&sheet).await;
        for field in method.fields() {
            let place = if field.place() == Place::Row {
                "r2"
            } else {
                "w"
            };
            let name = format!("{place}.{}", field.name());
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
                let page = pupil.send_sheet(&sheet, &draft, "rows", &boxes).await;
                check(&code, 200, page);
                let page = pupil.send_sheet(&sheet, &draft, "save", &boxes).await;
                if page.status == 303 {
                    draft = pupil.open_sheet(&sheet).await;
                } else {
                    check(&code, 422, page);
                }
            }
        }
        // Whether one of these was kept does not matter here.
        check(&code, 200, pupil.get(&sheet).await);
    }
}

#[tokio::test]
async fn sheets_that_are_refused_for_other_reasons() {
    let app = app().await;
    let (mut pupil, sheet, _) = at_bench(&app).await;
    let code = code_of(&sheet).to_owned();
    let draft = pupil.open_sheet(&sheet).await;
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
        let page = pupil.send_sheet(&sheet, &draft, "hand_in", &boxes).await;
        check(&code, 422, page);
    }
    let page = pupil.send_sheet(&sheet, "", "hand_in", &BOXES).await;
    check(&code, 409, page);
    for act in ["rows", "repeat.1", "repeat.99"] {
        let page = pupil.send_sheet(&sheet, &draft, act, &BOXES).await;
        check(&code, 200, page);
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
        let app = app().await;
        let (mut pupil, sheet) = bench_for(&app, method).await;
        let code = code_of(&sheet).to_owned();
        let draft = pupil.open_sheet(&sheet).await;
        let page = pupil.send_sheet(&sheet, &draft, "save", &ODD).await;
        assert_eq!(page.status, 303, "{}", page.text);
        let page = check(&code, 200, pupil.get(&sheet).await);
        let asked = if method == Method::RippleTank { 7 } else { 6 };
        assert!(page.count("class=\"asked\"") >= asked, "{}", page.text);
    }
}

#[tokio::test]
async fn sheet_that_is_kept_changed_closed_and_left() {
    let app = app().await;
    let (mut pupil, sheet, set) = at_bench(&app).await;
    let code = code_of(&sheet).to_owned();
    let mut other = app.browser();
    other.set_cookie("visit", &pupil.cookie("visit").unwrap());
    let late = other.open_sheet(&sheet).await;
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
        let draft = pupil.open_sheet(&sheet).await;
        pupil
            .send_sheet(&sheet, &draft, act, &boxes)
            .await
            .expect(303);
        check(&code, 200, pupil.get(&sheet).await);
    }
    let changed = [("r1.dial", "11"), ("r1.span", "22.4")];
    let page = other.send_sheet(&sheet, &late, "save", &changed).await;
    check(&code, 409, page);
    app.clock.advance(12 * 3_600_000 - 1000);
    check(&code, 200, pupil.get(&sheet).await);
    let draft = pupil.open_sheet(&sheet).await;
    close(&app, &set).await;
    check(&code, 200, pupil.get(&sheet).await);
    let page = pupil.send_sheet(&sheet, &draft, "rows", &boxes).await;
    check(&code, 409, page);
    let page = app
        .browser()
        .send_sheet(&sheet, &draft, "save", &boxes)
        .await;
    check(&code, 403, page);
}

#[tokio::test]
async fn looking_again_at_every_slip() {
    for slip in Slip::ALL {
        let app = app().await;
        let (method, boxes) = sheets::of(slip);
        let mut bench = Bench::new(&app, method, "explain").await;
        bench.save(&boxes).await;
        let code = code_of(&bench.sheet).to_owned();
        let url = format!("{}/look-again", bench.sheet);
        check(&code, 200, bench.pupil.get(&url).await);
        check(&code, 200, bench.pupil.get(&bench.sheet).await);
        // Its feedback, with nothing marked.
        let release = format!("{}/release", bench.set);
        bench
            .teacher
            .post_staff(&release, &[("release", "out")])
            .await
            .expect(303);
        let titles = titles(&app).await;
        let page = bench
            .pupil
            .get(&format!("{}/feedback", bench.sheet))
            .await
            .expect(200);
        check_feedback(&page.text, &code, &titles);
    }
}

#[tokio::test]
async fn looking_again_where_there_is_nothing_to_see() {
    let app = app().await;
    let mut bench = Bench::new(&app, "ripple-tank", "explain").await;
    let code = code_of(&bench.sheet).to_owned();
    let url = format!("{}/look-again", bench.sheet);
    check(&code, 200, bench.pupil.get(&url).await);
    for boxes in [
        &BOXES[..1],
        &BOXES,
        &[("r1.speed", "1"), ("r2.speed", "2"), ("w.uncertainty", "9")],
    ] {
        bench.save(boxes).await;
        check(&code, 200, bench.pupil.get(&url).await);
    }
    bench.help("off", "explain").await;
    check(&code, 404, bench.pupil.get(&url).await);
    let feedback = format!("{}/feedback", bench.sheet);
    check(&code, 404, bench.pupil.get(&feedback).await);
}

/// The department's own words for its marking points.
async fn titles(app: &TestApp) -> Vec<String> {
    let titles = "SELECT title FROM marking_point";
    let mut db = app.sql().await;
    sqlx::query_scalar(titles).fetch_all(&mut db).await.unwrap()
}

fn check_feedback(page: &str, code: &str, titles: &[String]) {
    let titles = titles.iter().map(String::as_str);
    let names: Vec<&str> = NAMES.into_iter().chain([code]).chain(titles).collect();
    expect_no_other_word(page, &names);
}

#[tokio::test]
async fn feedback_and_what_is_printed_of_it() {
    let app = app().await;
    let mut at = marked(&app).await;
    at.note("1", "group").await;
    at.award_all("B").await;
    let group = Group {
        odd: Some((2, 9.0 / 10.0)),
        ..Group::CAREFUL
    };
    let sheet = format!("/c/{}/B", at.code);
    group.sends_again("hand_in", &mut at.b, &sheet).await;
    let page = at.teacher.get(&format!("{}/sheets/B", at.set)).await;
    let form = page.at("#suggested-0 form");
    let confirmed = [("verdict", "confirmed")];
    at.teacher.fill(&form, &confirmed).await.expect(303);
    at.release("out").await;
    let titles = titles(&app).await;
    let (a, b) = (at.own("A"), at.own("B"));
    check_feedback(&at.a.get(&a).await.expect(200).text, &at.code, &titles);
    check_feedback(&at.b.get(&b).await.expect(200).text, &at.code, &titles);
    check(&at.code, 200, at.a.get(&format!("/c/{}", at.code)).await);
    check(&at.code, 200, at.a.get(&format!("/c/{}/A", at.code)).await);
    close(&app, &at.set).await;
    check(&at.code, 200, at.a.get(&format!("/c/{}/A", at.code)).await);
    let paper = at
        .teacher
        .get(&format!("{}/feedback/print", at.set))
        .await
        .expect(200);
    let slip = format!(
        "<article {}</article>",
        paper.between("<article ", "</article>")
    );
    check_feedback(&slip, &at.code, &titles);
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
        expect_no_other_word_in(&html, names);
    }
}

#[tokio::test]
async fn what_is_handed_out() {
    for method in Method::ALL {
        let app = app().await;
        let mut teacher = app.teacher().await;
        let (set, code) = teacher.make_class_set(method.code()).await;
        let page = teacher.get(&set).await.expect(200);
        // Title, date, address and code, cautions, what a group needs.
        check_parts(
            &page,
            5,
            &[&NAMES[..], &[&code, "http://lab.test"]].concat(),
        );
        // The rest that is printed is in one of them.
        let printed = page.page().all("main section:not(.no-print)");
        assert!(printed.iter().all(|part| part.attr("lang") == "he-XA"));
    }
}

#[tokio::test]
async fn what_stands_before_the_class() {
    let app = app().await;
    let mut teacher = app.teacher().await;
    let (set, code) = teacher.make_class_set("ripple-tank").await;
    app.browser().take_bench(&code, "A").await;
    let page = teacher.get(&format!("{set}/room/wall")).await.expect(200);
    // Heading, what is read out, benches, what it is for.
    check_parts(&page, 4, &NAMES);
}
