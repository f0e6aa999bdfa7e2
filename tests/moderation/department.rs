//! A department of three with two class sets that are marked.

use axum::body::Body;
use server::acts::{Award, Given, Staff};
use server::db::{scheme, staff};
use server::ids::{ClassSetId, SchemeId, SchemeVersionId, StaffId};
use server::report::desk::first;
use tower::ServiceExt as _;

use crate::support::{Browser, Group, NAME, Reply, TestApp, pairs};

/// Three people: the head of department teaches the first class, Mr Tarn the
/// second, Mrs Gill none. Four groups in each have handed in; B leaves the
/// enlargement out.
pub(crate) struct Department<'a> {
    pub(crate) app: &'a TestApp,
    pub(crate) head: Browser<'a>,
    pub(crate) tarn: Browser<'a>,
    pub(crate) gill: Browser<'a>,
    /// Addresses of the two class sets.
    pub(crate) sets: [String; 2],
    /// A group of the first.
    pub(crate) pupil: Browser<'a>,
    /// The scheme that both are marked with, and its version.
    pub(crate) scheme: SchemeId,
    pub(crate) version: SchemeVersionId,
}

/// The department, before anything is marked.
pub(crate) async fn department(app: &TestApp) -> Department<'_> {
    let mut head = app.teacher().await;
    let mut tarn = app.colleague(&mut head, "Mr Tarn").await;
    let gill = app.colleague(&mut head, "Mrs Gill").await;
    let (first, first_code) = head.make_class_set("ripple-tank").await;
    let (second, second_code) = tarn.make_class_set("ripple-tank").await;
    let mut pupil = None;
    for code in [&first_code, &second_code] {
        for label in ["A", "B", "C", "D"] {
            let group = match label {
                "B" => &Group::FORGETFUL,
                _ => &Group::CAREFUL,
            };
            let (browser, _) = group.sends("hand_in", app, code, label).await;
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
        pupil: pupil.unwrap(),
        scheme: ours.id,
        version: ours.version_id,
    }
}

/// The same with every sheet marked first by who teaches its class: A gets
/// all marks, B none on the even points, C half, D two thirds.
pub(crate) async fn marked(app: &TestApp) -> Department<'_> {
    let department = department(app).await;
    for (set, by) in [(0, NAME), (1, "Mr Tarn")] {
        department.mark_first(set, "A", by, |_, most| most).await;
        department
            .mark_first(
                set,
                "B",
                by,
                |number, most| if number % 2 == 0 { 0 } else { most },
            )
            .await;
        department
            .mark_first(set, "C", by, |_, most| most / 2)
            .await;
        department
            .mark_first(set, "D", by, |_, most| most - most / 3)
            .await;
    }
    department
}

/// The number at the end of an address.
pub(crate) fn number(address: &str) -> i64 {
    address.rsplit('/').next().unwrap().parse().unwrap()
}

impl Department<'_> {
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
        let award = Award {
            class_set: desk.class_set.id,
            version: desk.version.id,
            given: given.collect(),
        };
        self.app.act(by, award).await.unwrap();
    }

    /// Makes a round of both class sets with these markers; its address.
    pub(crate) async fn make_round(&mut self, markers: &[&str]) -> String {
        let mut boxes = vec![
            ("name".to_owned(), "Autumn".to_owned()),
            ("tolerance_total".to_owned(), "2".to_owned()),
            ("tolerance_point".to_owned(), "1".to_owned()),
            ("seed".to_owned(), "four crests".to_owned()),
        ];
        for set in 0..2 {
            boxes.push((format!("class_set.{}", self.id(set)), "on".to_owned()));
        }
        for marker in markers {
            let id = self.person(marker).await;
            boxes.push((format!("marker.{id}"), "on".to_owned()));
        }
        let boxes = pairs(&boxes);
        let url = format!("/moderation/new?scheme={}", self.scheme);
        let reply = self.head.does(&url, &boxes).await;
        reply.location().to_owned()
    }

    /// Picks these sheets of the first class set as anchors.
    pub(crate) async fn pick(&mut self, round: &str, labels: &[&str]) {
        let names: Vec<String> = labels
            .iter()
            .map(|label| format!("sheet.{}/{label}", self.id(0)))
            .collect();
        let boxes: Vec<_> = names.iter().map(|name| (name.as_str(), "on")).collect();
        let url = format!("{round}/anchors");
        self.head.does(&url, &boxes).await;
    }

    /// Draws the sample as it is shown.
    pub(crate) async fn draw(&mut self, round: &str) {
        let url = format!("{round}/sample");
        let digest = self.head.opens(&url).await.hidden("digest");
        self.head.does(&url, &[("digest", &digest)]).await;
    }
}

/// Addresses of the sheets that somebody has to mark in a round.
pub(crate) async fn own_sheets(browser: &mut Browser<'_>, round: &str) -> Vec<String> {
    let page = browser.opens(round).await.page();
    let own = page.all("[aria-labelledby=own] tbody a");
    own.iter()
        .map(|link| link.attr("href").to_owned())
        .collect()
}

/// Marks every point of a sheet of a round: by its place and its most marks.
pub(crate) async fn mark_blind(
    browser: &mut Browser<'_>,
    sheet: &str,
    award: impl Fn(usize, usize) -> usize,
) {
    let page = browser.opens(sheet).await;
    let forms = page.page().all("form.award");
    assert!(!forms.is_empty(), "{}", page.text);
    for (at, form) in forms.iter().enumerate() {
        let most = form.all(".mark-choice").len() - 1;
        let marks = award(at, most).to_string();
        browser.fill(form, &[("marks", &marks)]).await.expect(303);
    }
}

/// Marks all that somebody has to mark in a round.
pub(crate) async fn mark_all(
    browser: &mut Browser<'_>,
    round: &str,
    award: impl Fn(usize, usize) -> usize,
) {
    for sheet in own_sheets(browser, round).await {
        mark_blind(browser, &sheet, &award).await;
    }
}

/// Opens a page; of one that opens, nothing but its status is read, since a
/// stream would never end.
pub(crate) async fn peek(app: &TestApp, browser: &Browser<'_>, path: &str) -> Reply {
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
