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
    let all = format!("{set}/marking/sheets/A/all");
    teacher.post_staff(&all, &[]).await.expect(303);
    Marked {
        teacher,
        a,
        b,
        set,
        code,
    }
}

impl Marked<'_> {
    async fn release(&mut self, what: &str) {
        let url = format!("{}/release", self.set);
        let boxes = [("release", what)];
        self.teacher.post_staff(&url, &boxes).await.expect(303);
    }

    fn own(&self, label: &str) -> String {
        format!("/c/{}/{label}/feedback", self.code)
    }

    async fn slip_of_a(&mut self) -> Reply {
        let url = self.own("A");
        self.a.get(&url).await
    }

    async fn note(&mut self, text: &str, whose: &str) {
        let url = format!("{}/marking/sheets/A/notes", self.set);
        let boxes = [("note", text), ("for", whose)];
        self.teacher.post_staff(&url, &boxes).await.expect(303);
    }
}
