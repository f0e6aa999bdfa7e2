//! A whole application on a data file of its own.

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
use server::web::state::AppState;
use server::words::Say;
use sqlx::sqlite::{SqliteConnection, SqliteRow};
use sqlx::{Decode, FromRow, Sqlite, Type};
use tempfile::TempDir;
use tower::ServiceExt as _;

use super::{Browser, DEPARTMENT, NAME, PASSWORD, Reply, act, sql};

/// 24 November 2026, 10:42 in London.
const NOW: i64 = 1_795_516_920_000;

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

/// A teacher, signed in, of a fresh application.
pub(crate) async fn teacher() -> Browser {
    TestApp::new().await.teacher().await
}
