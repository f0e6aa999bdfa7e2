//! Who may use each route: five people ask for every one of them, as it stands
//! in the list that the router is made with.

use std::collections::BTreeSet;

use analysis::slip::Slip;
use axum::http::Method;
use server::pages::access::{Access, Route};
use server::pages::routes;

use crate::moderation::department::{Department, mark_all, marked, own_sheets, peek};
use crate::support::{Browser, Reply, TestApp};

/// What anybody may ask for.
const OPEN: [&str; 10] = [
    "/",
    "/about",
    "/c/{code}",
    "/c/{code}/{label}/come-back",
    "/c/{code}/{label}/leave",
    "/join",
    "/privacy",
    "/staff/first/{token}",
    "/staff/sign-in",
    "/static/{stamp}/{*name}",
];

/// What shows no first mark of a class set, nor anything that was made while
/// they were given. Every other page of a class set is closed to those who
/// have to mark it blind.
const WITHOUT_FIRST_MARKS: [&str; 10] = [
    "/class-sets/{id}",
    "/class-sets/{id}/files",
    "/class-sets/{id}/help",
    "/class-sets/{id}/import",
    "/class-sets/{id}/import/keep",
    "/class-sets/{id}/register",
    "/class-sets/{id}/room/wall",
    "/class-sets/{id}/room/wall/benches",
    "/class-sets/{id}/state",
    "/class-sets/{id}/thresholds",
];

/// What heads of department alone may use.
const FOR_HEADS: [&str; 14] = [
    "GET /moderation/new",
    "GET /moderation/{round}/anchors",
    "GET /moderation/{round}/record",
    "GET /moderation/{round}/record.csv",
    "GET /year/teachers",
    "POST /moderation/new",
    "POST /moderation/sizes",
    "POST /moderation/{round}/again",
    "POST /moderation/{round}/anchors",
    "POST /moderation/{round}/close",
    "POST /moderation/{round}/record",
    "POST /moderation/{round}/sample",
    "POST /staff/invite",
    "POST /upkeep",
];

#[test]
fn no_route_is_opened_without_being_named_here() {
    let routes = routes();
    let paths = |holds: fn(&Route) -> bool| -> BTreeSet<&str> {
        let list = routes.list().iter();
        list.filter(|route| holds(route)).map(|r| r.path).collect()
    };
    assert_eq!(paths(|r| r.access == Access::Anyone), OPEN.into());
    let seen_by_the_blind =
        paths(|r| r.path.starts_with("/class-sets/{id}") && r.access != Access::NotBlind);
    assert_eq!(seen_by_the_blind, WITHOUT_FIRST_MARKS.into());
    let of_heads = routes.list().iter();
    let of_heads = of_heads.filter(|route| matches!(route.access, Access::Head(_)));
    let of_heads: BTreeSet<String> = of_heads
        .map(|route| format!("{} {}", route.method, route.path))
        .collect();
    assert_eq!(of_heads, FOR_HEADS.map(str::to_owned).into());
}

/// Who asks. The *second marker* has sheets of class set `{id}` to mark blind;
/// teacher and head have none there. Every teacher opens every class set: they
/// stand in for each other.
const PEOPLE: [&str; 5] = ["nobody", "a group", "teacher", "second marker", "head"];

/// What each of them gets.
type Answers = [&'static str; 5];

const fn staff([teacher, second_marker, head]: [&'static str; 3]) -> Answers {
    ["sign in", "sign in", teacher, second_marker, head]
}

/// What follows from a route's access. A bench is asked for as the group's own
/// and as another's.
fn by_access(route: &Route, is_own: bool) -> Answers {
    match route.access {
        Access::Anyone => ["yes"; 5],
        Access::Bench => {
            let other = if route.method == Method::GET {
                "choose"
            } else {
                "no"
            };
            let group = if is_own { "yes" } else { other };
            [other, group, other, other, other]
        }
        Access::Staff => staff(["yes", "yes", "yes"]),
        Access::NotBlind => staff(["yes", "closed", "yes"]),
        Access::Head(_) => staff(["no", "no", "yes"]),
    }
}

/// Where more decides than the route. `{round}` is being marked by the second
/// marker, `{new}` has not begun; of `{shown}` the second marks are shown: the
/// teacher marked sheets of it first, the second marker is still blind to those
/// classes in `{round}`.
const FINER: [(&str, Answers); 14] = [
    // The bench is taken.
    ("POST /c/{code}", ["choose"; 5]),
    (
        "GET /moderation/{round}/standard",
        staff(["no", "yes", "yes"]),
    ),
    (
        "POST /moderation/{round}/rulings",
        staff(["no", "yes", "yes"]),
    ),
    ("GET /moderation/{new}/sample", staff(["no", "no", "yes"])),
    // Why each sheet was drawn.
    (
        "GET /moderation/{round}/sample",
        staff(["yes", "no", "yes"]),
    ),
    // A sheet that is the second marker's to mark.
    (
        "GET /moderation/{round}/sheets/{sheet}",
        staff(["no", "yes", "no"]),
    ),
    (
        "POST /moderation/{round}/sheets/{sheet}",
        staff(["no", "yes", "no"]),
    ),
    // Of people, the reader's own lines alone unless head.
    (
        "GET /moderation/{shown}/comparison",
        staff(["yes", "closed", "yes"]),
    ),
    (
        "GET /moderation/{shown}/comparison.csv",
        staff(["yes", "closed", "yes"]),
    ),
    // Sheets of one's own.
    (
        "GET /moderation/{shown}/settle",
        staff(["yes", "no", "yes"]),
    ),
    (
        "POST /moderation/{shown}/settle",
        staff(["yes", "no", "yes"]),
    ),
    // Before all have finished.
    ("POST /moderation/{round}/show", staff(["no", "no", "yes"])),
    // A class of the closed set. Of other pages of the year it is left out.
    ("GET /year/classes/{class}", staff(["yes", "no", "yes"])),
    ("GET /year/teachers.csv", staff(["no", "no", "yes"])),
];

/// What must be asked for last: it needs what others did, or ends something.
const LAST: [&str; 5] = [
    "GET /c/{code}/{own}/feedback",
    "POST /moderation/{shown}/close",
    "POST /moderation/{round}/show",
    "POST /c/{code}/{own}/leave",
    "POST /staff/sign-out",
];

/// A route as it is asked for.
pub(crate) struct Ask {
    pub(crate) method: Method,
    /// Its path, with names of things that there are in the department.
    pub(crate) path: String,
    answers: Answers,
}

impl Ask {
    fn name(&self) -> String {
        format!("{} {}", self.method, self.path)
    }

    fn rank(&self) -> usize {
        let name = self.name();
        match LAST.iter().position(|last| *last == name) {
            Some(place) => 2 + place,
            None => usize::from(self.method == Method::POST),
        }
    }
}

/// The paths by which a route is asked for.
fn paths(route: &Route) -> Vec<String> {
    let path = route.path;
    let of_round = |rounds: &[&str]| -> Vec<String> {
        let rounds = rounds.iter();
        rounds.map(|round| path.replace("{round}", round)).collect()
    };
    match path.split('/').collect::<Vec<_>>()[..] {
        ["", "c", _, _, ..] => {
            vec![
                path.replace("{label}", "{own}"),
                path.replace("{label}", "{other}"),
            ]
        }
        ["", "schemes", "{id}", ..] => vec![path.replace("{id}", "{scheme}")],
        ["", "year", "kits", "{id}"] => vec![path.replace("{id}", "{kit}")],
        ["", "year", "classes", "{id}"] => vec![path.replace("{id}", "{class}")],
        ["", "year", "slips", _, _] => vec!["/year/slips/{place}/{slip}".to_owned()],
        ["", "year", "{file}"] => {
            vec![
                "/year/classes.csv".to_owned(),
                "/year/teachers.csv".to_owned(),
            ]
        }
        ["", "moderation", "{round}", "anchors"] => of_round(&["{new}"]),
        ["", "moderation", "{round}", "sample"] if route.method == Method::POST => {
            of_round(&["{new}"])
        }
        ["", "moderation", "{round}", "sample"] => of_round(&["{new}", "{round}"]),
        ["", "moderation", "{round}", "record" | "record.csv"] => of_round(&["{closed}"]),
        [
            "",
            "moderation",
            "{round}",
            "comparison" | "comparison.csv" | "settle" | "again" | "close",
        ] => of_round(&["{shown}"]),
        _ => vec![path.to_owned()],
    }
}

/// Everything that is asked for, in an order in which it can be.
pub(crate) fn asks() -> Vec<Ask> {
    let routes = routes();
    let mut asks: Vec<Ask> = routes
        .list()
        .iter()
        .flat_map(|route| paths(route).into_iter().map(move |path| (route, path)))
        .map(|(route, path)| Ask {
            method: route.method.clone(),
            answers: by_access(route, path.contains("{own}")),
            path,
        })
        .collect();
    for (name, answers) in FINER {
        let ask = asks.iter_mut().find(|ask| ask.name() == name);
        ask.unwrap_or_else(|| panic!("there is no {name}")).answers = answers;
    }
    asks.sort_by_key(Ask::rank);
    asks
}

/// Addresses in place of parameters.
pub(crate) struct Addresses(Vec<(&'static str, String)>);

impl Addresses {
    pub(crate) fn fill(&self, path: &str) -> String {
        let filled = self.0.iter();
        let url = filled.fold(path.to_owned(), |path, (name, value)| {
            path.replace(name, value)
        });
        assert!(!url.contains('{'), "{url}: the test knows nothing of it");
        url
    }
}

/// A form that is taken, where one without anything in it would not tell
/// whether it is refused for who sends it (by their column, from 0).
pub(crate) fn form(path: &str, who: usize) -> Vec<(&'static str, &'static str)> {
    match path.split('/').collect::<Vec<_>>()[..] {
        ["", "c", _] => vec![("bench", "D")],
        // B handed in second of all.
        [.., "decision"] => vec![
            ("revision", "2"),
            ("step", "wavelength"),
            ("slip", Slip::ScaleLeftOut.code()),
            ("verdict", "confirmed"),
        ],
        [.., "notes"] => vec![("note", "look")],
        // Each takes a note back that was written just before.
        [.., "withdraw"] => vec![("note", if who == 2 { "1" } else { "2" })],
        [.., "release"] => vec![("release", "out")],
        [.., "room", "seen"] => vec![("bench", "A"), ("seen", "on")],
        ["", "schemes", _, "retire"] => vec![("retired", "no")],
        [.., "retire"] => vec![("id", "1"), ("retired", "yes")],
        [.., "sheets", _] => vec![("point", "4"), ("marks", "1")],
        // A sheet of Mr Tarn's class, as the seed draws it.
        [.., "settle"] => vec![("sheet", "1")],
        [.., "rulings"] => vec![("point", "1"), ("ruling", "agreed")],
        _ => Vec::new(),
    }
}

/// What came of a request, in a word or two.
fn outcome(method: &Method, reply: &Reply) -> String {
    let text = match reply.status.as_u16() {
        403 if reply.text.contains("<h1>Closed to you for now</h1>") => "closed",
        403 => "no",
        303 if reply.location() == "/staff/sign-in"
            && !reply.headers.contains_key("set-cookie") =>
        {
            "sign in"
        }
        303 if reply.location().ends_with("/come-back") => "choose",
        200 | 303 => "yes",
        400 | 409 | 422 if method == Method::POST => "yes",
        other => return other.to_string(),
    };
    text.to_owned()
}

async fn ask(
    app: &TestApp,
    browser: &mut Browser,
    method: &Method,
    path: &str,
    who: usize,
) -> String {
    let reply = match (method.as_str(), who > 1) {
        ("GET", _) => peek(app, browser, path).await,
        (_, true) => browser.post_staff(path, &form(path, who)).await,
        _ => browser.post(path, &form(path, who)).await,
    };
    outcome(method, &reply)
}

/// A round that Mrs Gill and Mr Ash mark: the standard shown, a sample drawn;
/// one that has not begun; one that Mr Ash has marked, with his marks shown; and
/// one that was closed before anybody marked.
async fn rounds(at: &mut Department, ash: &mut Browser) -> [String; 4] {
    let shown = at.make_round(&["Mr Ash"]).await;
    at.draw(&shown).await;
    mark_all(ash, &shown, |_, most| most).await;
    at.head.sends(&format!("{shown}/show"), &[]).await;
    let round = at.make_round(&["Mrs Gill", "Mr Ash"]).await;
    at.pick(&round, &["C", "D"]).await;
    let early = [("early", "yes")];
    at.head.sends(&format!("{round}/show"), &early).await;
    at.draw(&round).await;
    let new = at.make_round(&["Mrs Gill", "Mr Ash"]).await;
    let closed = at.make_round(&["Mr Ash"]).await;
    at.draw(&closed).await;
    for act in ["show", "close"] {
        let url = format!("{closed}/{act}");
        let boxes = [("early", "yes"), ("pending", "yes")];
        at.head.sends(&url, &boxes).await;
    }
    [round, new, shown, closed]
}

pub(crate) async fn addresses(at: &mut Department, ash: &mut Browser) -> Addresses {
    let [round, new, shown, closed] = rounds(at, ash).await;
    let own = own_sheets(&mut at.gill, &round).await;
    let last = |address: &str| address.rsplit('/').next().unwrap().to_owned();
    let page = at.head.opens(&at.sets[0]).await;
    let code = page.at(".code-large").words();
    let help = [("live", "on"), ("look_again", "step")];
    let set = at.sets[0].clone();
    at.head.sends(&format!("{set}/help"), &help).await;
    let css = page.at("link[rel=stylesheet]").attr("href").to_owned();
    let (stamp, name) = css["/static/".len()..].split_once('/').unwrap();
    let kit = [("label", "Tank 1"), ("kind", "tank")];
    at.head.sends("/kits", &kit).await;
    let token = last(&at.head.invite().await);
    Addresses(vec![
        ("{code}", code),
        ("{own}", "A".to_owned()),
        ("{other}", "B".to_owned()),
        ("{label}", "B".to_owned()),
        ("{id}", at.id(0).to_string()),
        ("{version}", "1".to_owned()),
        ("{key}", "4".to_owned()),
        ("{name}", "marks.csv".to_owned()),
        ("{scheme}", at.scheme.to_string()),
        ("{number}", "1".to_owned()),
        ("{stamp}", stamp.to_owned()),
        ("{*name}", name.to_owned()),
        ("{token}", token),
        ("{round}", last(&round)),
        ("{new}", last(&new)),
        ("{shown}", last(&shown)),
        ("{closed}", last(&closed)),
        ("{sheet}", last(&own[0])),
        ("{kit}", "1".to_owned()),
        ("{class}", "1".to_owned()),
        ("{place}", "working".to_owned()),
        ("{slip}", Slip::ScaleLeftOut.code().to_owned()),
    ])
}

#[tokio::test]
async fn every_route_answers_the_five_as_its_access_says() {
    let mut at = marked().await;
    let app = at.app.clone();
    let mut ash = at.head.colleague("Mr Ash").await;
    let addresses = addresses(&mut at, &mut ash).await;
    let mut nobody = app.browser();
    let mut wrong = Vec::new();
    for ask_for in asks() {
        let mut url = addresses.fill(&ask_for.path);
        if url == "/moderation/new" {
            url = format!("{url}?scheme={}", at.scheme);
        }
        for (who, answer) in ask_for.answers.into_iter().enumerate() {
            let browser = match who {
                0 => &mut nobody,
                1 => &mut at.pupil,
                2 => &mut at.tarn,
                3 => &mut at.gill,
                _ => &mut at.head,
            };
            let found = ask(&app, browser, &ask_for.method, &url, who).await;
            if found != answer {
                let name = ask_for.name();
                wrong.push(format!("{name}, {}: {found}, not {answer}", PEOPLE[who]));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}
