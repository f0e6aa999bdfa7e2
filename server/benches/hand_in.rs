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
use server::acts::{Act, Anyone, Doing, HandIn, OpenDraft, Sent, TakeBench};
use server::app::app;
use server::clock::{Clock, Zone};
use server::db::revision::{Entry, Kind};
use server::db::{Error, Store, bench, class_set};
use server::ids::{ClassSetId, VisitId};
use server::secret::sha256;
use server::web::state::AppState;
use tokio::task::JoinSet;
use tower::ServiceExt as _;

use support::{Department, act, full_sheet};

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
    visit_id: VisitId,
    /// Key of its draft.
    draft: String,
}

/// How a hand-in comes in.
#[derive(Clone, Copy)]
enum Way {
    /// As a request through every layer of the application.
    Router,
    /// As an act, without HTTP.
    Act,
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
        (Way::Act, "the act alone, no HTTP"),
    ] {
        for (clients, each) in [(1, 400), (64, 32)] {
            let (mut shared, mut single) = (Times::default(), Times::default());
            for round in 0..ROUNDS {
                // Each goes first as often as the other.
                let mut rivals = [(server::acts::BATCH, &mut shared), (1, &mut single)];
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
    let ready = Ready(department.class_sets.clone());
    let mut benches = act(&department.store, Anyone, ready).await.unwrap();
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
                    Way::Act => write(&store, bench, entry.clone()).await,
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
struct Ready(Vec<ClassSetId>);

impl Act<Anyone> for Ready {
    type Done = Vec<Bench>;
    type Stop = Error;

    async fn perform(self, by: Anyone, doing: &mut Doing<'_>) -> Result<Vec<Bench>, Error> {
        let at = doing.at();
        let mut ready = Vec::new();
        for class_set in self.0 {
            let code = class_set::get(doing.read(), class_set).await?.join_code;
            for bench in bench::list(doing.read(), class_set).await? {
                let browser = format!("{code}{}", bench.label);
                let url = format!("/c/{code}/{}", bench.label);
                let take = TakeBench {
                    class_set,
                    label: bench.label,
                    number_hash: "nobody comes back".to_owned(),
                    token_hash: sha256(&browser),
                };
                let visit_id = doing.perform(at, by, take).await?.unwrap();
                let draft = doing.perform(at, visit_id, OpenDraft).await?.unwrap();
                ready.push(Bench {
                    url,
                    browser,
                    visit_id,
                    draft,
                });
            }
        }
        Ok(ready)
    }
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
    let hand_in = HandIn {
        draft: bench.draft,
        kind: Kind::HandedIn,
        entry,
    };
    let started = Instant::now();
    let sent = act(store, bench.visit_id, hand_in).await.unwrap();
    let took = started.elapsed();
    assert!(matches!(sent, Sent::Kept(_)), "{sent:?}");
    took
}
