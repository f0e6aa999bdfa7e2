//! A lesson: a class set, its teacher, and the group at bench A.

use analysis::reading::Finding;

use super::{Browser, Group, Reply, TestApp, suggest};

/// A class set of four groups.
pub(crate) struct Lesson {
    pub(crate) app: TestApp,
    pub(crate) teacher: Browser,
    /// The browser of bench A.
    pub(crate) pupil: Browser,
    /// Address of the class set.
    pub(crate) set: String,
    /// Its join code.
    pub(crate) code: String,
    /// Address of the sheet of bench A for the group.
    pub(crate) bench: String,
    /// Address of the same sheet for the teacher.
    pub(crate) sheet: String,
}

impl Lesson {
    /// A class set at the ripple tank, before anybody comes.
    pub(crate) async fn new() -> Self {
        Self::of("ripple-tank").await
    }

    /// The same with another method.
    pub(crate) async fn of(method: &str) -> Self {
        Self::in_app(TestApp::new().await, method).await
    }

    /// A class set of so many groups.
    pub(crate) async fn of_groups(method: &str, groups: &str) -> Self {
        Self::made(TestApp::new().await, method, groups).await
    }

    /// A class set in a fresh application.
    pub(crate) async fn in_app(app: TestApp, method: &str) -> Self {
        Self::made(app, method, "4").await
    }

    async fn made(app: TestApp, method: &str, groups: &str) -> Self {
        let mut teacher = app.teacher().await;
        let (set, code) = teacher.make_class_set_of(method, groups).await;
        Self {
            pupil: app.browser(),
            teacher,
            bench: format!("/c/{code}/A"),
            sheet: format!("{set}/sheets/A"),
            set,
            code,
            app,
        }
    }

    /// A class set at the ripple tank whose bench A was chosen.
    pub(crate) async fn at_bench() -> Self {
        Self::new().await.begun().await
    }

    /// The lesson, after bench A was chosen.
    pub(crate) async fn begun(mut self) -> Self {
        self.pupil.take_bench(&self.code, "A").await;
        self
    }

    /// A class set in which this group has handed in at bench A.
    pub(crate) async fn handed_in(group: &Group) -> Self {
        let mut lesson = Self::new().await;
        (lesson.pupil, _) = lesson.hands_in(group, "A").await;
        lesson
    }

    /// The address of something below the class set's.
    pub(crate) fn url(&self, below: &str) -> String {
        format!("{}{below}", self.set)
    }

    /// The address of a bench's sheet for its group.
    pub(crate) fn own(&self, label: &str) -> String {
        format!("/c/{}/{label}", self.code)
    }

    /// The address at which a group chooses its bench.
    pub(crate) fn benches(&self) -> String {
        format!("/c/{}", self.code)
    }

    /// The teacher's page below the class set's address.
    pub(crate) async fn page(&mut self, below: &str) -> Reply {
        self.teacher.opens(self.url(below)).await
    }

    /// The teacher sends a form to an address below the class set's.
    pub(crate) async fn posts(&mut self, below: &str, boxes: &[(&str, &str)]) -> Reply {
        let url = self.url(below);
        self.teacher.post_staff(&url, boxes).await
    }

    /// The same, and it is taken.
    pub(crate) async fn does(&mut self, below: &str, boxes: &[(&str, &str)]) -> Reply {
        self.posts(below, boxes).await.expect(303)
    }

    /// A group chooses a bench and hands in; its browser and its address.
    pub(crate) async fn hands_in(&self, group: &Group, label: &str) -> (Browser, String) {
        group.sends("hand_in", &self.app, &self.code, label).await
    }

    /// A group chooses a bench and saves.
    pub(crate) async fn saves(&self, group: &Group, label: &str) -> (Browser, String) {
        group.sends("save", &self.app, &self.code, label).await
    }

    /// Bench A sends the sheet of a group with this button.
    pub(crate) async fn sends_again(&mut self, group: &Group, act: &str) {
        group.sends_again(act, &mut self.pupil, &self.bench).await;
    }

    /// The browser of bench A in another tab.
    pub(crate) fn tab(&self) -> Browser {
        let mut tab = self.app.browser();
        tab.set_cookie("visit", &self.pupil.cookie("visit").unwrap());
        tab
    }

    /// Bench A's sheet as its group has it.
    pub(crate) async fn reads(&mut self) -> Reply {
        self.pupil.opens(&self.bench).await
    }

    /// The key of a draft that bench A opens.
    pub(crate) async fn draft(&mut self) -> String {
        self.pupil.open_sheet(&self.bench).await
    }

    /// Bench A sends its sheet with this draft and button.
    pub(crate) async fn send(&mut self, draft: &str, act: &str, boxes: &[(&str, &str)]) -> Reply {
        self.pupil.send_sheet(&self.bench, draft, act, boxes).await
    }

    /// Bench A opens its sheet and sends it with this button, and it is kept.
    pub(crate) async fn keeps(&mut self, act: &str, boxes: &[(&str, &str)]) -> Reply {
        self.pupil.keeps(&self.bench, act, boxes).await
    }

    /// The teacher's word on something that bench A's page points to, by its
    /// id, as the form there would send it.
    pub(crate) async fn sends_word(&mut self, id: &str, verdict: &str, reason: &str) -> Reply {
        let form = self.teacher.opens(&self.sheet).await;
        let form = form.at(&format!("#{id} form"));
        let boxes = [("verdict", verdict), ("reason", reason)];
        self.teacher.fill(&form, &boxes).await
    }

    /// The same, and it is taken.
    pub(crate) async fn decides(&mut self, id: &str, verdict: &str, reason: &str) -> Reply {
        self.sends_word(id, verdict, reason).await.expect(303)
    }

    /// What its pages show of its groups' readings: these.
    pub(crate) async fn suggest(&mut self, findings: &[(&str, Vec<Finding>)]) {
        suggest(&mut self.teacher, &self.set, findings).await;
    }

    /// Chooses what pupils are told, and whether the live pages are on.
    pub(crate) async fn help(&mut self, live: &str, look_again: &str) {
        let boxes = [("live", live), ("look_again", look_again)];
        self.does("/help", &boxes).await;
    }

    pub(crate) async fn closes(&mut self) {
        self.does("/state", &[("state", "closed")]).await;
    }
}
