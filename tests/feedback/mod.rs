mod own_sheet;
mod paper;
mod release;

use crate::support::{Browser, Group, Lesson, Reply, TestApp};

/// A class set in which groups A and B have handed in and every suggestion of
/// A's is awarded; with the browser of B.
pub(crate) async fn marked(app: TestApp) -> (Lesson, Browser) {
    let mut at = Lesson::in_app(app, "ripple-tank").await;
    (at.pupil, _) = at.hands_in(&Group::FORGETFUL, "A").await;
    let (b, _) = at.hands_in(&Group::CAREFUL, "B").await;
    at.award_suggested("A").await.expect(303);
    (at, b)
}

impl Lesson {
    /// Awards one point, as the form on the page would.
    async fn awards(&mut self, label: &str, key: i64, marks: &str) {
        let sheet = format!("{}/marking/sheets/{label}", self.set);
        let page = self.teacher.get(&sheet).await;
        let form = page.at(&format!("#point-{key} .award"));
        let marks = [("marks", marks)];
        self.teacher.fill(&form, &marks).await.expect(303);
    }

    pub(crate) async fn release(&mut self, what: &str) {
        self.does("/release", &[("release", what)]).await;
    }

    pub(crate) fn feedback(&self, label: &str) -> String {
        self.own(label) + "/feedback"
    }

    async fn feedback_of_a(&mut self) -> Reply {
        let url = self.feedback("A");
        self.pupil.get(&url).await
    }

    pub(crate) async fn note(&mut self, text: &str, whose: &str) {
        let boxes = [("note", text), ("for", whose)];
        self.does("/marking/sheets/A/notes", &boxes).await;
    }
}
