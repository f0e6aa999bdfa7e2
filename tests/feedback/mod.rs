mod paper;
mod release;
mod slip;

use crate::support::{Browser, Group, Reply, TestApp};

/// A class set in which groups A and B have handed in and every suggestion of
/// A's is awarded.
pub(crate) struct Marked<'a> {
    pub(crate) teacher: Browser<'a>,
    pub(crate) a: Browser<'a>,
    pub(crate) b: Browser<'a>,
    pub(crate) set: String,
    pub(crate) code: String,
}

pub(crate) async fn marked(app: &TestApp) -> Marked<'_> {
    let mut teacher = app.teacher().await;
    let (set, code) = teacher.make_class_set("ripple-tank").await;
    let (a, _) = Group::FORGETFUL.sends("hand_in", app, &code, "A").await;
    let (b, _) = Group::CAREFUL.sends("hand_in", app, &code, "B").await;
    let mut at = Marked {
        teacher,
        a,
        b,
        set,
        code,
    };
    at.award_all("A").await;
    at
}

impl Marked<'_> {
    pub(crate) async fn award_all(&mut self, label: &str) {
        let sheet = format!("{}/marking/sheets/{label}", self.set);
        let seen = self.teacher.get(&sheet).await.hidden("seen");
        let boxes = [("seen", seen.as_str())];
        let all = format!("{sheet}/all");
        self.teacher.sends(&all, &boxes).await;
    }

    /// Awards one point, as the form on the page would.
    async fn award(&mut self, label: &str, key: i64, marks: &str) {
        let sheet = format!("{}/marking/sheets/{label}", self.set);
        let page = self.teacher.get(&sheet).await;
        let form = page.at(&format!("#point-{key} .award"));
        let marks = [("marks", marks)];
        self.teacher.fill(&form, &marks).await.expect(303);
    }

    pub(crate) async fn release(&mut self, what: &str) {
        let url = format!("{}/release", self.set);
        let boxes = [("release", what)];
        self.teacher.sends(&url, &boxes).await;
    }

    pub(crate) fn own(&self, label: &str) -> String {
        format!("/c/{}/{label}/feedback", self.code)
    }

    async fn slip_of_a(&mut self) -> Reply {
        let url = self.own("A");
        self.a.get(&url).await
    }

    pub(crate) async fn note(&mut self, text: &str, whose: &str) {
        let url = format!("{}/marking/sheets/A/notes", self.set);
        let boxes = [("note", text), ("for", whose)];
        self.teacher.sends(&url, &boxes).await;
    }
}
