//! *Who may see what* in DEVELOPERS.md, cell by cell over the real routes.

use std::collections::BTreeSet;

use analysis::slip::Slip;

use super::department::{Department, colleague, mark_all, marked, own_sheets, peek};
use crate::support::{Browser, Reply, TestApp};

const DEVELOPERS: &str = include_str!("../../DEVELOPERS.md");
const ROUTES: &str = include_str!("../../server/src/routes.rs");

/// A line of the table: its routes (method and path) and its cells.
struct Line<'a> {
    routes: Vec<(&'a str, &'a str)>,
    cells: Vec<&'a str>,
}

fn table() -> Vec<Line<'static>> {
    let (_, section) = DEVELOPERS.split_once("## Who may see what").unwrap();
    let (section, _) = section.split_once("\n## ").unwrap();
    let lines = section
        .lines()
        .filter(|line| line.contains("`GET ") || line.contains("`POST "));
    lines
        .map(|line| {
            let mut cells: Vec<&str> = line.trim_matches('|').split('|').map(str::trim).collect();
            let routes = cells.remove(0).split('`').skip(1).step_by(2);
            Line {
                routes: routes.map(|route| route.split_once(' ').unwrap()).collect(),
                cells,
            }
        })
        .collect()
}

/// A path with all names of parameters alike.
fn bare(path: &str) -> String {
    let parts = path.split('/').map(|part| match part.starts_with('{') {
        true if part.starts_with("{*") => "{*}",
        true => "{}",
        false => part,
    });
    parts.collect::<Vec<_>>().join("/")
}

#[test]
fn every_route_stands_in_the_table() {
    let mut missing = BTreeSet::new();
    let told: BTreeSet<(&str, String)> = table()
        .iter()
        .flat_map(|line| line.routes.clone())
        .map(|(method, path)| (method, bare(path)))
        .collect();
    let routes: Vec<&str> = ROUTES.split(".route(").skip(1).collect();
    assert!(routes.len() > 30, "routes.rs is written in another way");
    for route in routes {
        let path = route.split('"').nth(1).unwrap();
        for (method, handler) in [("GET", "get("), ("POST", "post(")] {
            let is_there = route.split(path).nth(1).unwrap().contains(handler);
            if is_there && !told.contains(&(method, bare(path))) {
                missing.insert(format!("{method} {path}"));
            }
        }
    }
    assert!(missing.is_empty(), "{missing:?}");
}

/// Addresses in place of parameters.
struct Addresses(Vec<(&'static str, String)>);

impl Addresses {
    fn fill(&self, path: &str) -> String {
        let filled = self.0.iter();
        filled.fold(path.to_owned(), |path, (name, value)| {
            path.replace(name, value)
        })
    }
}

/// A form that is taken, where one without anything in it would not tell
/// whether it is refused for who sends it (by their column, from 0).
fn form(path: &str, who: usize) -> Vec<(&'static str, &'static str)> {
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

/// What came of a request, in the words of the table.
fn outcome(method: &str, reply: &Reply) -> String {
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
        400 | 409 | 422 if method == "POST" => "yes",
        other => return other.to_string(),
    };
    text.to_owned()
}

async fn ask(
    app: &TestApp,
    browser: &mut Browser<'_>,
    method: &str,
    path: &str,
    who: usize,
) -> String {
    let reply = match (method, who > 1) {
        ("GET", _) => peek(app, browser, path).await,
        (_, true) => browser.post_staff(path, &form(path, who)).await,
        _ => browser.post(path, &form(path, who)).await,
    };
    outcome(method, &reply)
}

/// A round that Mrs Gill and Mr Ash mark: the standard shown, a sample drawn;
/// one that has not begun; one that Mr Ash has marked, with his marks shown; and
/// one that was closed before anybody marked.
async fn rounds(at: &mut Department<'_>, ash: &mut Browser<'_>) -> [String; 4] {
    let shown = at.make_round(&["Mr Ash"]).await;
    at.draw(&shown).await;
    mark_all(ash, &shown, |_, most| most).await;
    at.head
        .post_staff(&format!("{shown}/show"), &[])
        .await
        .expect(303);
    let round = at.make_round(&["Mrs Gill", "Mr Ash"]).await;
    at.pick(&round, &["C", "D"]).await;
    let early = [("early", "yes")];
    at.head
        .post_staff(&format!("{round}/show"), &early)
        .await
        .expect(303);
    at.draw(&round).await;
    let new = at.make_round(&["Mrs Gill", "Mr Ash"]).await;
    let closed = at.make_round(&["Mr Ash"]).await;
    at.draw(&closed).await;
    for act in ["show", "close"] {
        let url = format!("{closed}/{act}");
        let boxes = [("early", "yes"), ("pending", "yes")];
        at.head.post_staff(&url, &boxes).await.expect(303);
    }
    [round, new, shown, closed]
}

async fn addresses(at: &mut Department<'_>, ash: &mut Browser<'_>) -> Addresses {
    let [round, new, shown, closed] = rounds(at, ash).await;
    let own = own_sheets(&mut at.gill, &round).await;
    let last = |address: &str| address.rsplit('/').next().unwrap().to_owned();
    let page = at.head.get(&at.sets[0]).await.expect(200);
    let code = page.between("<p class=\"code-large\">", "</p>");
    let help = [("live", "on"), ("look_again", "step")];
    let set = at.sets[0].clone();
    at.head
        .post_staff(&format!("{set}/help"), &help)
        .await
        .expect(303);
    let css = page.between("<link rel=\"stylesheet\" href=\"/static/", "\"");
    let (stamp, name) = css.split_once('/').unwrap();
    let kit = [("label", "Tank 1"), ("kind", "tank")];
    at.head.post_staff("/kits", &kit).await.expect(303);
    let invited = at.head.post_staff("/staff/invite", &[]).await.expect(200);
    let token = invited.between("/staff/first/", "</code>");
    Addresses(vec![
        ("{code}", code),
        ("{own}", "A".to_owned()),
        ("{other}", "B".to_owned()),
        ("{label}", "B".to_owned()),
        ("{id}", at.id(0).to_string()),
        ("{version}", "1".to_owned()),
        ("{key}", "4".to_owned()),
        ("{file}", "marks.csv".to_owned()),
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
        ("{where}", "working".to_owned()),
        ("{slip}", Slip::ScaleLeftOut.code().to_owned()),
        ("{table}", "classes.csv".to_owned()),
    ])
}

#[tokio::test]
async fn every_cell_of_the_table_holds() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let mut ash = colleague(&app, &mut at.head, "Mr Ash").await;
    let addresses = addresses(&mut at, &mut ash).await;
    let mut nobody = app.browser();
    let (mut asked, mut wrong) = (0, Vec::new());
    for line in table() {
        assert_eq!(line.cells.len(), 5, "{:?}", line.routes);
        for (method, path) in line.routes {
            let url = addresses.fill(path);
            let scheme = format!("/moderation/new?scheme={}", at.scheme);
            let url = if url == "/moderation/new" {
                scheme
            } else {
                url
            };
            for (who, cell) in line.cells.iter().enumerate() {
                let browser = match who {
                    0 => &mut nobody,
                    1 => &mut at.pupil,
                    2 => &mut at.tarn,
                    3 => &mut at.gill,
                    _ => &mut at.head,
                };
                let found = ask(&app, browser, method, &url, who).await;
                asked += 1;
                if found != *cell {
                    wrong.push(format!(
                        "{method} {url}, column {}: {found}, not {cell}",
                        who + 1
                    ));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
    assert!(asked > 200, "{asked} cells");
}
