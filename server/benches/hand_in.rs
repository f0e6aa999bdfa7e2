//! How many hand-ins a second the server takes, each answered once it is on
//! disk, beside the same with one commit a request.
//!
//! `cargo bench -p crestcount --bench hand_in`. Every hand-in is the first of
//! its bench: a full sheet of six rows. The figures hang on the disk; the
//! ratios say what sharing commits is worth on it.

#![expect(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "a benchmark stops at what it cannot do, and prints what it found"
)]

mod support;

use std::time::{Duration, Instant};

use axum::Router;
use axum::body::Body;
use axum::http::{Request, StatusCode};
use jiff::tz::TimeZone;
use server::app::app;
use server::clock::{Clock, Zone};
use server::db::revision::{Entry, Kind};
use server::db::sheet::{Outcome, Submission, submit};
use server::db::{Error, Store, Writing, bench, class_set, draft, visit, writer};
use server::ids::{ClassSetId, SheetId, VisitId};
use server::secret::sha256;
use server::state::AppState;
use tokio::task::JoinSet;
use tower::ServiceExt as _;

use support::{Department, full_sheet};

/// Groups to a class set: as many as there are letters.
const GROUPS: u8 = 26;
/// Each case is timed so often, its rivals in between.
const ROUNDS: usize = 6;

/// A bench with a browser at it and a draft open.
#[derive(Clone, Debug)]
struct Bench {
    /// Address of its sheet.
    url: String,
    /// Token of its browser.
    browser: String,
    sheet_id: SheetId,
    visit_id: VisitId,
    /// Key of its draft.
    draft: String,
}

/// How a hand-in comes in.
#[derive(Clone, Copy)]
enum Way {
    /// As a request through every layer of the application.
    Router,
    /// As a job of the writer, without HTTP.
    Submission,
}

/// What a case took, over its rounds.
#[derive(Default)]
struct Times {
    each: Vec<Duration>,
    rates: Vec<f64>,
}

impl Times {
    fn rate(&self) -> f64 {
        let mut rates = self.rates.clone();
        rates.sort_by(f64::total_cmp);
        rates[rates.len() / 2]
    }

    /// The time below which `percent` of the hand-ins were answered, in ms.
    fn percentile(&self, percent: usize) -> f64 {
        let mut each = self.each.clone();
        each.sort_unstable();
        each[(each.len() - 1) * percent / 100].as_secs_f64() * 1e3
    }

    fn print(&self, what: &str) {
        println!(
            "  {what:<22} {:>7.0} hand-ins/s   p50 {:>7.2} ms   p99 {:>7.2} ms",
            self.rate(),
            self.percentile(50),
            self.percentile(99)
        );
    }
}

#[tokio::main]
async fn main() {
    println!("Hand-ins of six full rows, answered once on disk (WAL, synchronous=FULL)");
    for (way, name) in [
        (Way::Router, "through the router"),
        (Way::Submission, "submission alone, no HTTP"),
    ] {
        for (clients, each) in [(1, 400), (64, 32)] {
            let (mut shared, mut single) = (Times::default(), Times::default());
            for round in 0..ROUNDS {
                // Each goes first as often as the other.
                let mut rivals = [(writer::BATCH, &mut shared), (1, &mut single)];
                rivals.rotate_left(round % 2);
                for (batch, times) in rivals {
                    hand_in(way, clients, each, batch, times).await;
                }
            }
            println!("{name}, {clients} at a time:");
            shared.print("shared commits");
            single.print("one commit a request");
            println!("  ratio {:.2}", shared.rate() / single.rate());
        }
    }
}

/// Times so many clients at once, each with hand-ins one after the other.
async fn hand_in(way: Way, clients: usize, each: usize, batch: usize, times: &mut Times) {
    let class_sets = (clients * each).div_ceil(usize::from(GROUPS));
    let department = Department::open(class_sets, GROUPS, batch).await;
    let mut benches = ready(&department).await;
    benches.truncate(clients * each);
    let entry = full_sheet(1.0, true);
    let router = router(department.store.clone());
    let mut tasks = JoinSet::new();
    let started = Instant::now();
    for benches in benches.chunks(each) {
        let (benches, entry) = (benches.to_vec(), entry.clone());
        let (router, store) = (router.clone(), department.store.clone());
        tasks.spawn(async move {
            let mut each = Vec::with_capacity(benches.len());
            for bench in benches {
                each.push(match way {
                    Way::Router => post(&router, &bench, &entry).await,
                    Way::Submission => write(&store, bench, entry.clone()).await,
                });
            }
            each
        });
    }
    let each = tasks.join_all().await.concat();
    times
        .rates
        .push(each.len() as f64 / started.elapsed().as_secs_f64());
    times.each.extend(each);
    drop(router);
    department.close().await;
}

/// Puts a browser at every bench and opens its draft.
async fn ready(department: &Department) -> Vec<Bench> {
    let class_sets = department.class_sets.clone();
    let run = department.store.writer().run(move |db| {
        Box::pin(async move {
            let mut ready = Vec::new();
            for id in class_sets {
                ready.extend(ready_in(db, id).await?);
            }
            Ok(ready)
        })
    });
    run.await.unwrap()
}

async fn ready_in(db: &mut Writing, id: ClassSetId) -> Result<Vec<Bench>, Error> {
    let now = Clock::System.now();
    let code = class_set::get(db, id).await?.join_code;
    let mut ready = Vec::new();
    for bench in bench::list(db, id).await? {
        let browser = format!("{code}{}", bench.label);
        let visit_id = visit::insert(db, &sha256(&browser), bench.id, now).await?;
        ready.push(Bench {
            url: format!("/c/{code}/{}", bench.label),
            browser,
            sheet_id: bench.sheet_id,
            visit_id,
            draft: draft::find_or_insert(db, bench.sheet_id, visit_id, now).await?,
        });
    }
    Ok(ready)
}

fn router(store: Store) -> Router {
    let zone = Zone(TimeZone::get("Europe/London").unwrap());
    app(AppState::new(store, Clock::System, zone, None))
}

async fn post(router: &Router, bench: &Bench, entry: &Entry) -> Duration {
    let request = Request::builder()
        .method("POST")
        .uri(&bench.url)
        .header("host", "lab.test")
        .header("origin", "http://lab.test")
        .header("cookie", format!("visit={}", bench.browser))
        .header("content-type", "application/x-www-form-urlencoded")
        .body(Body::from(form(entry, &bench.draft)))
        .unwrap();
    let started = Instant::now();
    let reply = router.clone().oneshot(request).await.unwrap();
    let took = started.elapsed();
    assert_eq!(reply.status(), StatusCode::SEE_OTHER, "{}", bench.url);
    took
}

/// The sheet as its form sends it.
fn form(entry: &Entry, draft: &str) -> String {
    let mut form = format!("draft={draft}&act=hand_in&kit={}", encoded(&entry.kit));
    for (field, cell) in &entry.sheet.whole {
        form += &format!("&w.{}={}", field.name(), encoded(&cell.text));
        form += &format!("&unit.{}={}", field.name(), encoded(&cell.unit));
    }
    for (at, row) in entry.sheet.rows.iter().enumerate() {
        for (field, cell) in &row.cells {
            form += &format!("&r{}.{}={}", at + 1, field.name(), encoded(&cell.text));
            form += &format!("&unit.{}={}", field.name(), encoded(&cell.unit));
        }
    }
    form
}

fn encoded(text: &str) -> String {
    text.replace('/', "%2F").replace(' ', "+")
}

async fn write(store: &Store, bench: Bench, entry: Entry) -> Duration {
    let new = Submission {
        sheet_id: bench.sheet_id,
        visit_id: bench.visit_id,
        draft: bench.draft,
        kind: Kind::HandedIn,
        entry,
        at: Clock::System.now(),
    };
    let started = Instant::now();
    let run = store
        .writer()
        .run(move |db| Box::pin(async move { submit(db, &new).await }));
    let outcome = run.await.unwrap();
    let took = started.elapsed();
    assert!(matches!(outcome, Outcome::Kept(_)), "{outcome:?}");
    took
}
