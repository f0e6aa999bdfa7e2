//! Looking again at one's own working before it is marked.

mod allowed;
mod one_thing;
pub(crate) mod sheets;
mod told;

use analysis::assess::Assessment;
use server::db::revision;
use server::report::Work;

use crate::support::{Lesson, Part, TestApp};

/// A class set in which bench A was chosen, and whose pupils are told so much.
pub(crate) async fn told(app: TestApp, method: &str, look_again: &str) -> Lesson {
    let mut at = Lesson::in_app(app, method).await.begun().await;
    at.help("on", look_again).await;
    at
}

impl Lesson {
    /// Address of the page on which bench A looks again.
    pub(crate) fn look_again(&self) -> String {
        format!("{}/look-again", self.bench)
    }

    /// What the page says.
    pub(crate) async fn look(&mut self) -> Part {
        let page = self.pupil.get(&self.look_again()).await;
        page.expect(200).at("main")
    }
}

/// What the only sheet with anything on it says, as people left it.
pub(crate) async fn judged(app: &TestApp) -> Assessment {
    let sheet = app.one("SELECT id FROM sheet WHERE version > 0").await;
    let mut db = app.db().await;
    let newest = revision::find_latest(&mut db, sheet).await.unwrap();
    Work::of(newest.unwrap(), Vec::new()).unwrap().assessment
}
