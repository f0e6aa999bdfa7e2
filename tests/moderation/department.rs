//! A department of three with two class sets that are marked.

use axum::body::Body;
use server::acts::{self, Given, Staff};
use server::db::{scheme, staff};
use server::ids::{ClassSetId, SchemeId, SchemeVersionId, StaffId};
use server::report::desk::first;
use tower::ServiceExt as _;

use crate::support::{Browser, Group, NAME, Part, Reply, TestApp, teacher};

/// Three people: the head of department teaches the first class, Mr Tarn the
/// second, Mrs Gill none. Four groups in each have handed in; B leaves the
/// enlargement out.
pub(crate) struct Department {
    pub(crate) app: TestApp,
    pub(crate) head: Browser,
    pub(crate) tarn: Browser,
    pub(crate) gill: Browser,
    /// Addresses of the two class sets.
    pub(crate) sets: [String; 2],
    /// Join code of the first, and a group of it.
    pub(crate) code: String,
    pub(crate) pupil: Browser,
    /// The scheme that both are marked with, and its version.
    pub(crate) scheme: SchemeId,
    pub(crate) version: SchemeVersionId,
}

/// The department, before anything is marked.
pub(crate) async fn department() -> Department {
    let mut head = teacher().await;
    let app = head.app.clone();
    let mut tarn = head.colleague("Mr Tarn").await;
    let gill = head.colleague("Mrs Gill").await;
    let (first, first_code) = head.make_class_set("ripple-tank").await;
    let (second, second_code) = tarn.make_class_set("ripple-tank").await;
    let mut pupil = None;
    for code in [&first_code, &second_code] {
        for label in ["A", "B", "C", "D"] {
            let group = match label {
                "B" => &Group::FORGETFUL,
                _ => &Group::CAREFUL,
            };
            let (browser, _) = group.sends("hand_in", &app, code, label).await;
            pupil.get_or_insert(browser);
        }
    }
    let mut db = app.db().await;
    let schemes = scheme::list(&mut db).await.unwrap();
    let ours = schemes.iter().find(|s| s.method == "ripple-tank").unwrap();
    Department {
        app,
        head,
        tarn,
        gill,
        sets: [first, second],
        code: first_code,
        pupil: pupil.unwrap(),
        scheme: ours.id,
        version: ours.version_id,
    }
}

/// How many marks a point gets, by its number and its most marks.
type Award = fn(i64, i64) -> i64;

/// The same with every sheet marked first by who teaches its class: A gets
/// all marks, B none on the even points, C half, D two thirds.
pub(crate) async fn marked() -> Department {
    let department = department().await;
    let given: [(&str, Award); 4] = [
        ("A", |_, most| most),
        ("B", |number, most| if number % 2 == 0 { 0 } else { most }),
        ("C", |_, most| most / 2),
        ("D", |_, most| most - most / 3),
    ];
    for (set, by) in [(0, NAME), (1, "Mr Tarn")] {
        for (label, award) in given {
            department.mark_first(set, label, by, award).await;
        }
    }
    department
}

/// The form that has a point of a class marked again.
pub(crate) fn to_mark_again<'a>(
    set: &'a str,
    point: &'a str,
    reason: &'a str,
) -> [(&'a str, &'a str); 3] {
    [("class_set", set), ("point", point), ("reason", reason)]
}

/// The number at the end of an address.
pub(crate) fn number(address: &str) -> i64 {
    address.rsplit('/').next().unwrap().parse().unwrap()
}

impl Department {
    pub(crate) fn id(&self, set: usize) -> ClassSetId {
        ClassSetId(number(&self.sets[set]))
    }

    pub(crate) async fn person(&self, name: &str) -> StaffId {
        let mut db = self.app.db().await;
        staff::find_by_name(&mut db, name)
            .await
            .unwrap()
            .unwrap()
            .id
    }

    /// Marks a sheet first: every point, by its number and its most marks.
    pub(crate) async fn mark_first(
        &self,
        set: usize,
        label: &str,
        by: &str,
        award: impl Fn(i64, i64) -> i64,
    ) {
        let by = Staff {
            id: self.person(by).await,
            is_head: by == NAME,
        };
        let desk = first::load(&mut self.app.db().await, self.id(set), None).await;
        let desk = desk.unwrap();
        let mut sheets = desk.sheets.iter();
        let sheet = sheets.find(|sheet| sheet.label == label).unwrap();
        let given = desk.points.iter().zip(&sheet.marks.points);
        let given = given.map(|(point, standing)| Given {
            sheet: sheet.sheet_id,
            key: point.key,
            marks: Some(award(point.number, i64::from(point.point.marks))),
            reason: "as I saw it".to_owned(),
            revision: sheet.revision_id(),
            newest: standing.newest,
        });
        let award = acts::Award {
            class_set: desk.class_set.id,
            version: desk.version.id,
            given: given.collect(),
        };
        self.app.act(by, award).await.unwrap();
    }

    /// Group A of the first class set hands in again, with a slip.
    pub(crate) async fn hands_in_again(&mut self) {
        let sheet = format!("/c/{}/A", self.code);
        let again = Group::FORGETFUL;
        again.sends_again("hand_in", &mut self.pupil, &sheet).await;
    }

    /// Makes a round of both class sets with these markers; its address.
    pub(crate) async fn make_round(&mut self, markers: &[&str]) -> String {
        let mut ticked: Vec<String> = (0..2)
            .map(|set| format!("class_set.{}", self.id(set)))
            .collect();
        for marker in markers {
            ticked.push(format!("marker.{}", self.person(marker).await));
        }
        let mut boxes = vec![
            ("name", "Autumn"),
            ("tolerance_total", "2"),
            ("tolerance_point", "1"),
            ("seed", "four crests"),
        ];
        boxes.extend(ticked.iter().map(|name| (name.as_str(), "on")));
        let url = format!("/moderation/new?scheme={}", self.scheme);
        self.head.sends(&url, &boxes).await.location().to_owned()
    }

    /// Picks these sheets of the first class set as anchors.
    pub(crate) async fn pick(&mut self, round: &str, labels: &[&str]) {
        let id = self.id(0);
        let names = labels.iter().map(|label| format!("sheet.{id}/{label}"));
        let names: Vec<String> = names.collect();
        let boxes: Vec<_> = names.iter().map(|name| (name.as_str(), "on")).collect();
        self.head.sends(format!("{round}/anchors"), &boxes).await;
    }

    /// Draws the sample as it is shown.
    pub(crate) async fn draw(&mut self, round: &str) {
        let url = format!("{round}/sample");
        let digest = self.head.opens(&url).await.hidden("digest");
        self.head.sends(&url, &[("digest", &digest)]).await;
    }

    /// Shows everyone's marks, whether all have finished or not.
    pub(crate) async fn show(&mut self, round: &str) {
        let early = [("early", "yes")];
        self.head.sends(format!("{round}/show"), &early).await;
    }

    /// A round for Ms Fell and Mr Tarn with these sheets of the first class set
    /// as anchors; its address.
    pub(crate) async fn begin(&mut self, labels: &[&str]) -> String {
        let round = self.make_round(&[NAME, "Mr Tarn"]).await;
        self.pick(&round, labels).await;
        round
    }

    /// A round with all of the sample for Mrs Gill; its address.
    pub(crate) async fn drawn(&mut self) -> String {
        let round = self.make_round(&["Mrs Gill"]).await;
        self.draw(&round).await;
        round
    }
}

/// Addresses of the sheets that somebody has to mark in a round.
pub(crate) async fn own_sheets(browser: &mut Browser, round: &str) -> Vec<String> {
    let page = browser.opens(round).await.page();
    let links = page.all("section[aria-labelledby=own] table a");
    let address = |link: &Part| link.attr("href").to_owned();
    links.iter().map(address).collect()
}

/// Marks every point of a sheet of a round: by its place and its most marks.
pub(crate) async fn mark_blind(
    browser: &mut Browser,
    sheet: &str,
    award: impl Fn(usize, usize) -> usize,
) {
    let page = browser.opens(sheet).await.page();
    let forms = page.all("form:has([name=marks])");
    assert!(!forms.is_empty(), "{}", page.html());
    for (at, form) in forms.iter().enumerate() {
        let most = form.all(".mark-choice").len() - 1;
        let marks = award(at, most).to_string();
        browser.fill(form, &[("marks", &marks)]).await.expect(303);
    }
}

/// Marks all that somebody has to mark in a round.
pub(crate) async fn mark_all(
    browser: &mut Browser,
    round: &str,
    award: impl Fn(usize, usize) -> usize,
) {
    for sheet in own_sheets(browser, round).await {
        mark_blind(browser, &sheet, &award).await;
    }
}

/// Opens a page; of one that opens, nothing but its status is read, since a
/// stream would never end.
pub(crate) async fn peek(app: &TestApp, browser: &Browser, path: &str) -> Reply {
    let request = browser.request("GET", path).body(Body::empty()).unwrap();
    let response = app.router.clone().oneshot(request).await.unwrap();
    if response.status() != 200 {
        return Reply::read(response).await;
    }
    Reply {
        status: response.status(),
        headers: response.headers().clone(),
        text: String::new(),
        bytes: Vec::new(),
    }
}
