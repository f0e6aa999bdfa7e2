mod award;
mod notes;
mod race;
mod undo;

use crate::support::{Lesson, Part, Reply, TestApp};

/// Marks of the scheme that comes with the program, and its points.
const MOST: i64 = 20;
const POINTS: usize = 17;
/// Keys of some of its points.
const METHOD: i64 = 1;
const TABLE: i64 = 2;
const APPLIED: i64 = 7;
const SPEED: i64 = 10;

impl Lesson {
    /// The address at which a bench is marked.
    fn marking(&self, label: &str) -> String {
        format!("{}/marking/sheets/{label}", self.set)
    }

    async fn marking_page(&mut self) -> Reply {
        let url = self.marking("A");
        self.teacher.opens(&url).await
    }

    /// The part of group A's page that is about one point.
    async fn point(&mut self, key: i64) -> Part {
        self.marking_page().await.at(&format!("#point-{key}"))
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

    /// The same on a bench's page, as it stands.
    pub(crate) async fn award_suggested(&mut self, label: &str) -> Reply {
        let sheet = self.marking(label);
        let seen = self.teacher.opens(&sheet).await.hidden("seen");
        self.award_all(&sheet, &seen).await
    }

    /// `Group A: 3 of 20`.
    async fn total(&mut self) -> String {
        self.marking_page().await.at("h1").words()
    }
}

async fn rows(app: &TestApp) -> i64 {
    app.one("SELECT count(*) FROM mark").await
}
