mod award;
mod notes;
mod race;
mod undo;

use crate::support::{Browser, Group, Part, Reply, TestApp};

/// Marks of the scheme that comes with the program, and its points.
const MOST: i64 = 20;
const POINTS: usize = 17;
/// Keys of some of its points.
const METHOD: i64 = 1;
const TABLE: i64 = 2;
const APPLIED: i64 = 7;
const SPEED: i64 = 10;

/// A teacher with a class set in which group A has handed in.
struct Pile<'a> {
    teacher: Browser<'a>,
    pupil: Browser<'a>,
    set: String,
    /// Where group A writes.
    bench: String,
}

async fn pile<'a>(app: &'a TestApp, group: &Group) -> Pile<'a> {
    let mut teacher = app.teacher().await;
    let (set, code) = teacher.make_class_set("ripple-tank").await;
    let (pupil, bench) = group.sends("hand_in", app, &code, "A").await;
    Pile {
        teacher,
        pupil,
        set,
        bench,
    }
}

impl Pile<'_> {
    fn sheet(&self, label: &str) -> String {
        format!("{}/marking/sheets/{label}", self.set)
    }

    async fn page(&mut self) -> Reply {
        let url = self.sheet("A");
        self.teacher.opens(&url).await
    }

    /// The part of group A's page that is about one point.
    async fn point(&mut self, key: i64) -> Part {
        self.page().await.at(&format!("#point-{key}"))
    }

    /// Awards as the form on the page would.
    async fn award(&mut self, key: i64, marks: &str, reason: &str) -> Reply {
        let form = self.point(key).await.at(".award");
        self.award_from(&form, marks, reason).await
    }

    /// The same from a form of a page that was opened before.
    async fn award_from(&mut self, form: &Part, marks: &str, reason: &str) -> Reply {
        let boxes = [("marks", marks), ("reason", reason)];
        self.teacher.fill(form, &boxes).await
    }

    /// Awards all that is suggested on a page of many points.
    async fn award_all(&mut self, page: &str, seen: &str) -> Reply {
        let boxes = [("seen", seen)];
        self.teacher
            .post_staff(&format!("{page}/all"), &boxes)
            .await
    }

    /// `Group A: 3 of 20`.
    async fn total(&mut self) -> String {
        self.page().await.at("h1").words()
    }
}

async fn rows(app: &TestApp) -> i64 {
    app.one("SELECT count(*) FROM mark").await
}
