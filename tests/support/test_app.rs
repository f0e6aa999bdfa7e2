//! A whole application on a data file of its own, and browsers that visit it.

use std::sync::Arc;

use axum::Router;
use axum::body::Body;
use axum::http::Request;
use jiff::tz::TimeZone;
use server::acts::{Act, Anyone, By, Doing, Told};
use server::app::app;
use server::clock::{Clock, Zone};
use server::db::{Connection, Error, Store};
use server::serve::first_link;
use server::state::AppState;
use server::words::Say;
use sqlx::sqlite::{SqliteConnection, SqliteRow};
use sqlx::{Decode, FromRow, Sqlite, Type};
use tempfile::TempDir;
use tower::ServiceExt as _;

use super::{DEPARTMENT, Part, Reply, act, sql};

/// Name of the teacher in tests.
pub(crate) const NAME: &str = "Ms Fell";
/// Her password.
pub(crate) const PASSWORD: &str = "pond ripple lamp";
/// 24 November 2026, 10:42 in London.
const NOW: i64 = 1_795_516_920_000;

/// The form of a new class set of four groups.
pub(crate) const CLASS_SET: [(&str, &str); 4] = [
    ("class", "10B/Ph2"),
    ("method", "ripple-tank"),
    ("date", "2026-11-24"),
    ("groups", "4"),
];

/// A form with another text in one of its boxes.
pub(crate) fn but<'a, const N: usize>(
    boxes: [(&'a str, &'a str); N],
    name: &str,
    text: &'a str,
) -> [(&'a str, &'a str); N] {
    boxes.map(|(of, typed)| (of, if of == name { text } else { typed }))
}

/// What can stand in a column.
pub(crate) trait Value: for<'r> Decode<'r, Sqlite> + Type<Sqlite> + Send + Unpin {}
impl<T: for<'r> Decode<'r, Sqlite> + Type<Sqlite> + Send + Unpin> Value for T {}

/// What can be read of a row.
pub(crate) trait Row: for<'r> FromRow<'r, SqliteRow> + Send + Unpin {}
impl<T: for<'r> FromRow<'r, SqliteRow> + Send + Unpin> Row for T {}

/// Name of the data file.
const DATA: &str = "data.db";

/// The application under test. Its clones are the same application.
#[derive(Clone)]
pub(crate) struct TestApp {
    pub(crate) router: Router,
    pub(crate) clock: Clock,
    pub(crate) store: Store,
    /// The data file goes when the test ends.
    folder: Arc<TempDir>,
}

/// Does nothing, in its turn.
pub(crate) struct Nothing;

impl Act<Anyone> for Nothing {
    type Done = ();
    type Stop = Error;

    async fn perform(self, _: Anyone, _: &mut Doing<'_>) -> Result<(), Error> {
        Ok(())
    }
}

/// A browser with its cookies.
pub(crate) struct Browser {
    pub(crate) app: TestApp,
    cookies: Vec<(String, String)>,
}

impl TestApp {
    /// A fresh application without accounts.
    pub(crate) async fn new() -> Self {
        Self::on(tempfile::tempdir().unwrap()).await
    }

    /// A fresh application whose pupils read this language.
    pub(crate) async fn saying(say: Say) -> Self {
        Self::made(tempfile::tempdir().unwrap(), say).await
    }

    /// The application on the data file of this folder.
    pub(crate) async fn on(folder: TempDir) -> Self {
        Self::made(folder, Say::english()).await
    }

    async fn made(folder: TempDir, say: Say) -> Self {
        let (store, _writing) = server::acts::open(&folder.path().join(DATA)).await.unwrap();
        let clock = Clock::fixed(NOW);
        let zone = Zone(TimeZone::get("Europe/London").unwrap());
        let state = AppState {
            say,
            ..AppState::new(store.clone(), clock.clone(), zone, None)
        };
        Self {
            router: app(state),
            clock,
            store,
            folder: Arc::new(folder),
        }
    }

    /// A connection of the test's own to the data file.
    pub(crate) async fn sql(&self) -> SqliteConnection {
        sql(&self.folder.path().join(DATA)).await
    }

    /// A connection that reads as the program does.
    pub(crate) async fn db(&self) -> Connection {
        self.store.reader(DEPARTMENT).await.unwrap()
    }

    /// The one value that a query of the test's own finds in the data file.
    pub(crate) async fn one<T: Value>(&self, query: &'static str) -> T {
        let found = sqlx::query_scalar(query)
            .fetch_one(&mut self.sql().await)
            .await;
        found.unwrap()
    }

    /// Every value that it finds.
    pub(crate) async fn values<T: Value>(&self, query: &'static str) -> Vec<T> {
        let found = sqlx::query_scalar(query)
            .fetch_all(&mut self.sql().await)
            .await;
        found.unwrap()
    }

    /// Every row that it finds.
    pub(crate) async fn rows<T: Row>(&self, query: &'static str) -> Vec<T> {
        let found = sqlx::query_as(query).fetch_all(&mut self.sql().await).await;
        found.unwrap()
    }

    /// Performs an act now; what came of it, once it is on disk.
    pub(crate) async fn act<A: Act<B>, B: By>(&self, by: B, what: A) -> Told<A, B> {
        act(&self.store, self.clock.now(), by, what).await.unwrap()
    }

    /// A browser that has been nowhere.
    pub(crate) fn browser(&self) -> Browser {
        Browser {
            app: self.clone(),
            cookies: Vec::new(),
        }
    }

    /// Somebody who has been nowhere opens a page.
    pub(crate) async fn get(&self, path: &str) -> Reply {
        self.browser().get(path).await
    }

    /// Somebody who has been nowhere sends a form.
    pub(crate) async fn post(&self, path: &str, boxes: &[(&str, &str)]) -> Reply {
        self.browser().post(path, boxes).await
    }

    /// The token of the link that is printed at the first start.
    pub(crate) async fn first_link(&self) -> Option<String> {
        first_link(&self.store, self.clock.now()).await.unwrap()
    }

    /// A teacher who made the first account and is signed in.
    pub(crate) async fn teacher(&self) -> Browser {
        let link = format!("/staff/first/{}", self.first_link().await.unwrap());
        let mut browser = self.browser();
        let account = [("name", NAME), ("password", PASSWORD), ("again", PASSWORD)];
        browser.post(&link, &account).await.expect(303);
        browser
    }

    /// The teacher in another browser, signed in with her password.
    pub(crate) async fn signed_in(&self) -> Browser {
        let mut browser = self.browser();
        browser.signs_in().await;
        browser
    }

    /// Runs a statement of the test's own; how many rows it wrote.
    pub(crate) async fn run(&self, statement: &'static str) -> Result<u64, sqlx::Error> {
        let done = sqlx::query(statement).execute(&mut self.sql().await).await;
        Ok(done?.rows_affected())
    }

    /// Checks that the data file itself takes none of these statements; what
    /// it says to each.
    pub(crate) async fn refuses(&self, statements: &[&'static str]) -> Vec<String> {
        let mut said = Vec::new();
        for statement in statements {
            let done = self.run(statement).await;
            let refused = done.expect_err(statement);
            said.push(format!("{statement}: {refused}"));
        }
        said
    }

    /// Waits for what was to be written beside the requests so far.
    pub(crate) async fn written(&self) {
        tokio::task::yield_now().await;
        self.act(Anyone, Nothing).await;
    }

    pub(crate) async fn send(&self, request: Request<Body>) -> Reply {
        Reply::read(self.router.clone().oneshot(request).await.unwrap()).await
    }
}

impl Browser {
    pub(crate) async fn get(&mut self, path: &str) -> Reply {
        let request = self.request("GET", path).body(Body::empty()).unwrap();
        self.send(request).await
    }

    /// Opens a page that is there for whoever asks.
    pub(crate) async fn opens(&mut self, path: impl AsRef<str>) -> Reply {
        self.get(path.as_ref()).await.expect(200)
    }

    /// Sends a form as a browser on the school's network does: with `Origin`.
    pub(crate) async fn post(&mut self, path: &str, pairs: &[(&str, &str)]) -> Reply {
        let request = self
            .request("POST", path)
            .header("origin", "http://lab.test")
            .header("content-type", "application/x-www-form-urlencoded")
            .body(Body::from(encode(pairs)))
            .unwrap();
        self.send(request).await
    }

    /// Sends a staff form that may have a file in it, with the token that a
    /// page gave out.
    pub(crate) async fn upload(
        &mut self,
        path: &str,
        pairs: &[(&str, &str)],
        file: Option<&[u8]>,
    ) -> Reply {
        let token = self.opens("/class-sets").await.hidden("token");
        let mut all = vec![("token", token.as_str())];
        all.extend_from_slice(pairs);
        self.send_upload(path, &all, file).await
    }

    /// The same with the pairs alone.
    pub(crate) async fn send_upload(
        &mut self,
        path: &str,
        pairs: &[(&str, &str)],
        file: Option<&[u8]>,
    ) -> Reply {
        let request = self.uploading(path, pairs, file);
        self.send(request).await
    }

    /// The request that sends such a form.
    pub(crate) fn uploading(
        &self,
        path: &str,
        pairs: &[(&str, &str)],
        file: Option<&[u8]>,
    ) -> Request<Body> {
        let kind = format!("multipart/form-data; boundary={BOUNDARY}");
        self.request("POST", path)
            .header("origin", "http://lab.test")
            .header("content-type", kind)
            .body(Body::from(multipart(pairs, file)))
            .unwrap()
    }

    /// Sends a staff form with the token that a page gave out.
    pub(crate) async fn post_staff(&mut self, path: &str, pairs: &[(&str, &str)]) -> Reply {
        let token = self.opens("/class-sets").await.hidden("token");
        let mut all = vec![("token", token.as_str())];
        all.extend_from_slice(pairs);
        self.post(path, &all).await
    }

    /// Sends a staff form that is taken, and leads on.
    pub(crate) async fn sends(&mut self, path: impl AsRef<str>, pairs: &[(&str, &str)]) -> Reply {
        self.post_staff(path.as_ref(), pairs).await.expect(303)
    }

    /// Sends a form of a page as it stands there, but for these boxes.
    pub(crate) async fn fill(&mut self, form: &Part, boxes: &[(&str, &str)]) -> Reply {
        let mut fields = form.fields();
        fields.retain(|(name, _)| boxes.iter().all(|(changed, _)| changed != name));
        let all = [&pairs(&fields), boxes].concat();
        self.post(form.attr("action"), &all).await
    }

    /// Signs the teacher in.
    pub(crate) async fn signs_in(&mut self) {
        let who = [("name", NAME), ("password", PASSWORD)];
        self.post("/staff/sign-in", &who).await.expect(303);
    }

    /// A colleague of this name, whom this head of department invites.
    pub(crate) async fn colleague(&mut self, name: &str) -> Self {
        let link = self.invite().await;
        let mut colleague = self.app.browser();
        let account = [("name", name), ("password", PASSWORD), ("again", PASSWORD)];
        colleague.post(&link, &account).await.expect(303);
        colleague
    }

    /// Invites somebody; the path of the link that the page shows.
    pub(crate) async fn invite(&mut self) -> String {
        let page = self.post_staff("/staff/invite", &[]).await.expect(200);
        let address = page.at("code").words();
        address.strip_prefix("http://lab.test").unwrap().to_owned()
    }

    /// Makes a class set of four groups; its address and its join code.
    pub(crate) async fn make_class_set(&mut self, method: &str) -> (String, String) {
        self.make_class_set_of(method, "4").await
    }

    /// The same with another number of groups.
    pub(crate) async fn make_class_set_of(
        &mut self,
        method: &str,
        groups: &str,
    ) -> (String, String) {
        let boxes = but(but(CLASS_SET, "method", method), "groups", groups);
        let made = self.sends("/class-sets/new", &boxes).await;
        let url = made.location().to_owned();
        let page = self.opens(&url).await;
        (url, page.at(".code-large").words())
    }

    /// Chooses a bench for the first time; its come-back number.
    pub(crate) async fn take_bench(&mut self, code: &str, label: &str) -> String {
        let page = self
            .post(&format!("/c/{code}"), &[("bench", label)])
            .await
            .expect(200);
        page.at(".code-large").words()
    }

    /// Opens a sheet; the key of its draft.
    pub(crate) async fn open_sheet(&mut self, url: &str) -> String {
        self.opens(url).await.hidden("draft")
    }

    /// Opens a sheet and sends it with this button, and it is kept.
    pub(crate) async fn keeps(&mut self, url: &str, act: &str, boxes: &[(&str, &str)]) -> Reply {
        let draft = self.open_sheet(url).await;
        self.send_sheet(url, &draft, act, boxes).await.expect(303)
    }

    /// Sends a sheet with this draft and button.
    pub(crate) async fn send_sheet(
        &mut self,
        url: &str,
        draft: &str,
        act: &str,
        boxes: &[(&str, &str)],
    ) -> Reply {
        let mut all = vec![("draft", draft), ("act", act)];
        all.extend_from_slice(boxes);
        self.post(url, &all).await
    }

    pub(crate) fn request(&self, method: &str, path: &str) -> axum::http::request::Builder {
        let cookies: Vec<_> = self
            .cookies
            .iter()
            .map(|(n, v)| format!("{n}={v}"))
            .collect();
        let builder = Request::builder()
            .method(method)
            .uri(path)
            .header("host", "lab.test");
        if cookies.is_empty() {
            builder
        } else {
            builder.header("cookie", cookies.join("; "))
        }
    }

    pub(crate) async fn send(&mut self, request: Request<Body>) -> Reply {
        let reply = self.app.send(request).await;
        for set in reply.headers.get_all("set-cookie") {
            let (name, rest) = set.to_str().unwrap().split_once('=').unwrap();
            let value = rest.split(';').next().unwrap();
            self.cookies.retain(|(n, _)| n != name);
            if !value.is_empty() {
                self.cookies.push((name.to_owned(), value.to_owned()));
            }
        }
        reply
    }

    /// Value of a cookie.
    pub(crate) fn cookie(&self, name: &str) -> Option<String> {
        self.cookies
            .iter()
            .find(|(n, _)| n == name)
            .map(|(_, v)| v.clone())
    }

    /// Puts a cookie there.
    pub(crate) fn set_cookie(&mut self, name: &str, value: &str) {
        self.cookies.retain(|(n, _)| n != name);
        self.cookies.push((name.to_owned(), value.to_owned()));
    }
}

/// A teacher, signed in, of a fresh application.
pub(crate) async fn teacher() -> Browser {
    TestApp::new().await.teacher().await
}

/// Boxes as a form takes them.
pub(crate) fn pairs<N: AsRef<str>, V: AsRef<str>>(boxes: &[(N, V)]) -> Vec<(&str, &str)> {
    let boxes = boxes.iter();
    boxes.map(|(n, v)| (n.as_ref(), v.as_ref())).collect()
}

const BOUNDARY: &str = "--------crest";

/// A form as browsers send it where it has a box for a file; a box in which
/// none was chosen is sent empty.
fn multipart(pairs: &[(&str, &str)], file: Option<&[u8]>) -> Vec<u8> {
    let mut body = Vec::new();
    for (name, value) in pairs {
        let head = format!(
            "--{BOUNDARY}\r\nContent-Disposition: form-data; name=\"{name}\"\r\n\r\n{value}\r\n"
        );
        body.extend_from_slice(head.as_bytes());
    }
    let name = if file.is_some() { "readings.csv" } else { "" };
    let head = format!(
        "--{BOUNDARY}\r\nContent-Disposition: form-data; name=\"file\"; filename=\"{name}\"\r\nContent-Type: text/csv\r\n\r\n"
    );
    body.extend_from_slice(head.as_bytes());
    body.extend_from_slice(file.unwrap_or_default());
    body.extend_from_slice(format!("\r\n--{BOUNDARY}--\r\n").as_bytes());
    body
}

fn encode(pairs: &[(&str, &str)]) -> String {
    let part = |text: &str| -> String {
        text.bytes()
            .map(|b| match b {
                b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'-' | b'_' => char::from(b).to_string(),
                _ => format!("%{b:02X}"),
            })
            .collect()
    };
    let pairs: Vec<_> = pairs
        .iter()
        .map(|(n, v)| format!("{}={}", part(n), part(v)))
        .collect();
    pairs.join("&")
}
