//! Making the data file: a small department, held through the program.

use crate::moderation::department::{Department, marked};
use crate::moderation::record::{closed, shown};
use crate::register::keep;
use crate::support::school::School;
use crate::support::{Browser, Group, TestApp, stored_year};

/// The year before: 72 sheets, kits at fault, slips confirmed.
const BEFORE: School = School {
    lessons: 2,
    groups: 6,
    ..School::WORN
};

const STRING: [(&str, &str); 16] = [
    ("kit", "String 2, Generator 3"),
    ("unit.length", "m"),
    ("unit.wavelength", "m"),
    ("unit.speed", "m/s"),
    ("r1.dial", "30"),
    ("r1.length", "1.20"),
    ("r1.length_loops", "3"),
    ("r1.wavelength", "0.40"),
    ("r1.speed", "12.0"),
    ("r2.dial", "40"),
    ("r2.length", "1.20"),
    ("r2.length_loops", "4"),
    ("r2.wavelength", "0.60"),
    ("r2.speed", "24.0"),
    ("r3.dial", "50"),
    ("r3.length", "1.20"),
];

pub(crate) async fn make(app: &TestApp) {
    let mut at = marked(app).await;
    year_before(app).await;
    rounds(&mut at).await;
    rich(app, &mut at.head).await;
    string(app, &mut at.head).await;
}

async fn year_before(app: &TestApp) {
    let write = app.store.writer().run(|db| {
        Box::pin(async move {
            stored_year::store(db, &BEFORE, 2025, 1).await?;
            let by = server::db::staff::find_by_name(db, "Mr Tarn").await?;
            stored_year::mark(db, server::ids::ClassSetId(5), by.unwrap().id).await
        })
    });
    write.await.unwrap();
}

/// One closed, with an entry that came later; one whose marks are shown and
/// where a class is marked again; one that has not begun.
async fn rounds(at: &mut Department<'_>) {
    let first = closed(at).await;
    let entry = [("entry", "Filed in the blue folder.")];
    let url = format!("{first}/record");
    at.head.post_staff(&url, &entry).await.expect(303);
    let second = shown(at).await;
    let set = at.id(1).to_string();
    let boxes = [
        ("class_set", set.as_str()),
        ("point", "2"),
        ("reason", "too mild"),
    ];
    at.head
        .post_staff(&format!("{second}/again"), &boxes)
        .await
        .expect(303);
    at.make_round(&["Mrs Gill", "Ms Fell"]).await;
}

async fn new_set(
    head: &mut Browser<'_>,
    method: &str,
    date: &str,
    groups: &str,
) -> (String, String) {
    let boxes = [
        ("class", "10D/Ph1"),
        ("method", method),
        ("date", date),
        ("groups", groups),
    ];
    let url = head
        .post_staff("/class-sets/new", &boxes)
        .await
        .expect(303)
        .location()
        .to_owned();
    let code = head
        .get(&url)
        .await
        .expect(200)
        .between("<p class=\"code-large\">", "</p>");
    (url, code)
}

/// A lesson with all that may be done in one.
async fn rich(app: &TestApp, head: &mut Browser<'_>) {
    let (set, code) = new_set(head, "ripple-tank", "2026-11-23", "5").await;
    let boxes = [("live", "on"), ("look_again", "explain")];
    head.post_staff(&format!("{set}/help"), &boxes)
        .await
        .expect(303);
    write(app, &code).await;
    let boxes = [("bench", "85"), ("summary", "40")];
    head.post_staff(&format!("{set}/thresholds"), &boxes)
        .await
        .expect(303);
    let boxes = [("bench", "B"), ("version", "1"), ("seen", "on")];
    head.post_staff(&format!("{set}/room/seen"), &boxes)
        .await
        .expect(303);
    for (label, place, verdict, reason) in [
        ("B", "id=\"slip-0\"", "confirmed", "They said so."),
        ("C", "id=\"suggested-0\"", "dismissed", "Measured again."),
    ] {
        decide(head, &set, label, place, verdict, reason).await;
    }
    mark(head, &set).await;
    let notes = format!("{set}/marking/sheets/B/notes");
    for boxes in [
        [
            ("note", "Divide by the enlargement."),
            ("for", "group"),
            ("row", "2"),
        ],
        [("note", "Speak to them."), ("for", "staff"), ("row", "")],
        [("note", "Taken back."), ("for", "group"), ("row", "")],
    ] {
        head.post_staff(&notes, &boxes).await.expect(303);
    }
    let page = head
        .get(&format!("{set}/marking/sheets/B"))
        .await
        .expect(200);
    let last = page.text.rsplit("name=\"note\" value=\"").next().unwrap();
    let last = last.split('"').next().unwrap().to_owned();
    let withdraw = format!("{set}/marking/sheets/B/withdraw");
    head.post_staff(&withdraw, &[("note", last.as_str())])
        .await
        .expect(303);
    let release = format!("{set}/release");
    head.post_staff(&release, &[("release", "out")])
        .await
        .expect(303);
    award(head, &set, "D", 3, "0", "seen again").await;
    head.post_staff("/upkeep", &[("keep", "yes"), ("until", "2027-08-31")])
        .await
        .expect(303);
    let boxes = [
        ("present.A", "3"),
        ("initials.A", "AB, cd"),
        ("present.B", "2"),
        ("initials.B", "EF"),
        ("absent.1.initials", "GH"),
        ("absent.1.caught_up", ""),
    ];
    keep(head, &set, &boxes).await.expect(303);
}

/// What five groups write: the last only opens its sheet.
async fn write(app: &TestApp, code: &str) {
    let with = |kit, level| Group {
        kit,
        level,
        ..Group::CAREFUL
    };
    let a = with("Tank 1", 1.0);
    let (mut pupil, url) = a.sends("save", app, code, "A").await;
    let draft = pupil.open_sheet(&url).await;
    let boxes = a.boxes();
    let mut boxes: Vec<_> = boxes
        .iter()
        .map(|(n, v)| (n.as_str(), v.as_str()))
        .collect();
    boxes.extend([
        ("words.method", "We counted ten gaps\nwith a strobe."),
        ("words.conclusion", "It is faster at \"15 Hz\"."),
    ]);
    pupil
        .send_sheet(&url, &draft, "hand_in", &boxes)
        .await
        .expect(303);
    let b = Group {
        kit: "Tank 1",
        ..Group::FORGETFUL
    };
    b.sends("hand_in", app, code, "B").await;
    let c = Group {
        odd: Some((2, 1.125)),
        ..with("tank 2", 1.0)
    };
    c.sends("hand_in", app, code, "C").await;
    let d = with("Tank 2", 1.06);
    let (mut pupil, url) = d.sends("hand_in", app, code, "D").await;
    with("Tank 2", 1.061)
        .sends_again("save", &mut pupil, &url)
        .await;
    let mut pupil = app.browser();
    pupil.take_bench(code, "E").await;
    pupil.open_sheet(&format!("/c/{code}/E")).await;
}

async fn decide(
    head: &mut Browser<'_>,
    set: &str,
    label: &str,
    place: &str,
    verdict: &str,
    reason: &str,
) {
    let page = head.get(&format!("{set}/sheets/{label}")).await.expect(200);
    let form = page.part(place, "</form>");
    let names = ["revision", "step", "slip", "row"];
    let boxes = names.map(|name| (name, form.hidden(name)));
    let mut boxes: Vec<_> = boxes.iter().map(|(n, v)| (*n, v.as_str())).collect();
    boxes.extend([("verdict", verdict), ("reason", reason)]);
    let url = format!("{set}/sheets/{label}/decision");
    head.post_staff(&url, &boxes).await.expect(303);
}

async fn award(
    head: &mut Browser<'_>,
    set: &str,
    label: &str,
    key: i64,
    marks: &str,
    reason: &str,
) {
    let sheet = format!("{set}/marking/sheets/{label}");
    let page = head.get(&sheet).await.expect(200);
    let form = page.part(&format!("<li id=\"point-{key}\""), "</li>");
    let (revision, newest) = (form.hidden("revision"), form.hidden("newest"));
    let boxes = [
        ("revision", revision.as_str()),
        ("newest", newest.as_str()),
        ("marks", marks),
        ("reason", reason),
    ];
    head.post_staff(&format!("{sheet}/award/{key}"), &boxes)
        .await
        .expect(303);
}

async fn mark(head: &mut Browser<'_>, set: &str) {
    for label in ["A", "B", "C", "D"] {
        let sheet = format!("{set}/marking/sheets/{label}");
        let seen = head.get(&sheet).await.expect(200).hidden("seen");
        let boxes = [("seen", seen.as_str())];
        head.post_staff(&format!("{sheet}/all"), &boxes)
            .await
            .expect(303);
    }
    for key in 1..=17 {
        award(head, set, "D", key, "1", "as we saw it").await;
    }
    award(head, set, "B", 7, "1", "one row is right").await;
    award(head, set, "B", 7, "0", "no, none is").await;
    head.post_staff(&format!("{set}/marking/undo"), &[])
        .await
        .expect(303);
}

async fn string(app: &TestApp, head: &mut Browser<'_>) {
    let (_, code) = new_set(head, "string-loops", "2026-11-16", "2").await;
    let mut pupil = app.browser();
    pupil.take_bench(&code, "A").await;
    let url = format!("/c/{code}/A");
    let draft = pupil.open_sheet(&url).await;
    pupil
        .send_sheet(&url, &draft, "hand_in", &STRING)
        .await
        .expect(303);
}
