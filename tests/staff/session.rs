use std::time::Duration;

use futures_util::FutureExt as _;
use server::acts::{Act, Anyone, Doing};
use server::db::Error;
use tokio::sync::oneshot;

use crate::support::{Group, Lesson, NAME, Nothing, PASSWORD, TestApp, act, teacher};

const HOUR: i64 = 3_600_000;

#[tokio::test]
async fn signing_out_ends_the_session_on_the_server() {
    let mut teacher = teacher().await;
    let token = teacher.cookie("sid").unwrap();
    teacher.sends("/staff/sign-out", &[]).await;
    assert_eq!(teacher.cookie("sid"), None);
    let mut thief = teacher.app.browser();
    thief.set_cookie("sid", &token);
    thief.get("/class-sets").await.expect(303);
}

#[tokio::test]
async fn signing_in_again_changes_the_token() {
    let mut teacher = teacher().await;
    let old = teacher.cookie("sid").unwrap();
    teacher
        .post("/staff/sign-in", &[("name", NAME), ("password", PASSWORD)])
        .await
        .expect(303);
    assert_ne!(teacher.cookie("sid").unwrap(), old);
    teacher.opens("/class-sets").await;
    teacher.set_cookie("sid", &old);
    teacher.get("/class-sets").await.expect(303);
}

#[tokio::test]
async fn session_left_alone_ends() {
    let mut teacher = teacher().await;
    teacher.app.clock.advance(3 * HOUR - 1000);
    teacher.opens("/class-sets").await;
    teacher.app.written().await;
    teacher.app.clock.advance(3 * HOUR - 1000);
    teacher.opens("/class-sets").await;
    teacher.app.written().await;
    teacher.app.clock.advance(3 * HOUR);
    teacher.get("/class-sets").await.expect(303);
}

#[tokio::test]
async fn session_in_use_ends_after_twelve_hours() {
    let mut teacher = teacher().await;
    for _ in 0..11 {
        teacher.app.clock.advance(HOUR);
        teacher.opens("/class-sets").await;
        teacher.app.written().await;
    }
    teacher.app.clock.advance(HOUR);
    teacher.get("/class-sets").await.expect(303);
}

#[tokio::test]
async fn form_without_the_sessions_token_is_refused() {
    let mut teacher = teacher().await;
    let boxes = [("label", "Tank 3"), ("kind", "tank")];
    teacher
        .post("/kits", &boxes)
        .await
        .expect(403)
        .says("earlier session");
    teacher
        .post(
            "/kits",
            &[("token", "0"), ("label", "Tank 3"), ("kind", "tank")],
        )
        .await
        .expect(403);
    let kept = "SELECT count(*) FROM kit WHERE label = 'Tank 3'";
    assert_eq!(teacher.app.one::<i64>(kept).await, 0);
}

/// Keeps the writer at work until the sender of the second is dropped.
struct AtWork(oneshot::Sender<()>, oneshot::Receiver<()>);

impl Act<Anyone> for AtWork {
    type Done = ();
    type Stop = Error;

    async fn perform(self, _: Anyone, _: &mut Doing<'_>) -> Result<(), Error> {
        let _ = self.0.send(());
        let _ = self.1.await;
        Ok(())
    }
}

/// Keeps the writer at work until the sender is dropped or used, and its queue
/// full meanwhile.
async fn fill_the_queue(app: &TestApp) -> oneshot::Sender<()> {
    let (end, ended) = oneshot::channel();
    let (begin, begun) = oneshot::channel();
    let store = app.store.clone();
    tokio::spawn(async move { act(&store, 0, Anyone, AtWork(begin, ended)).await });
    begun.await.unwrap();
    loop {
        let mut write = Box::pin(act(&app.store, 0, Anyone, Nothing));
        if let Some(refused) = write.as_mut().now_or_never() {
            assert!(matches!(refused, Err(Error::Busy)), "{refused:?}");
            return end;
        }
    }
}

#[tokio::test]
async fn page_that_only_reads_does_not_wait_for_writes() {
    let mut at = Lesson::new().await;
    let (mut pupil, _) = at.hands_in(&Group::CAREFUL, "A").await;
    let sheet = at.bench.clone();
    pupil.opens(&sheet).await;
    // When each session was last seen is old enough to be written again.
    at.app.clock.advance(HOUR);
    let _at_work = fill_the_queue(&at.app).await;
    let pages = ["", "/summary", "/sheets/A", "/marking", "/room/tiles"];
    let pages = pages.map(|page| format!("{}{page}", at.set));
    for page in ["/class-sets", "/kits", "/moderation", "/year"]
        .into_iter()
        .chain(pages.iter().map(String::as_str))
    {
        let answer = tokio::time::timeout(Duration::from_secs(5), at.teacher.get(page));
        answer
            .await
            .unwrap_or_else(|_| panic!("{page} waits"))
            .expect(200);
    }
    pupil.opens(&sheet).await;
}
