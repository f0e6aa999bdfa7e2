//! Looking again at one's own working before it is marked.

mod allowed;
mod one_thing;
pub(crate) mod sheets;
mod told;

use analysis::assess::Assessment;
use server::db::revision;
use server::report::Work;

use crate::support::{Browser, Part, TestApp};

/// A class set in which bench A was chosen.
pub(crate) struct Bench<'a> {
    pub(crate) teacher: Browser<'a>,
    pub(crate) pupil: Browser<'a>,
    /// Address of the class set.
    pub(crate) set: String,
    /// Address of the bench sheet.
    pub(crate) sheet: String,
}

impl Bench<'_> {
    /// A class set whose pupils are told so much.
    pub(crate) async fn new<'a>(app: &'a TestApp, method: &str, look_again: &str) -> Bench<'a> {
        let mut teacher = app.teacher().await;
        let (set, code) = teacher.make_class_set(method).await;
        let mut pupil = app.browser();
        pupil.take_bench(&code, "A").await;
        let sheet = format!("/c/{code}/A");
        let mut bench = Bench {
            teacher,
            pupil,
            set,
            sheet,
        };
        bench.help("on", look_again).await;
        bench
    }

    /// Sets what pupils are told.
    pub(crate) async fn help(&mut self, live: &str, look_again: &str) {
        let boxes = [("live", live), ("look_again", look_again)];
        let url = format!("{}/help", self.set);
        self.teacher.sends(&url, &boxes).await;
    }

    /// Saves the sheet.
    pub(crate) async fn save(&mut self, boxes: &[(&str, &str)]) {
        self.pupil.keeps(&self.sheet, "save", boxes).await;
    }

    /// What the page says.
    pub(crate) async fn look(&mut self) -> Part {
        let page = self.pupil.get(&format!("{}/look-again", self.sheet)).await;
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
