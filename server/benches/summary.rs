//! What the class summary of twelve groups costs, beside a bare route, and
//! where its time goes.
//!
//! `cargo bench -p crestcount --bench summary`. Every group's sheet is full;
//! every third group has made a slip on all its rows.

#![expect(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "a benchmark stops at what it cannot do, and prints what it found"
)]

mod asking;
#[path = "../../tests/support/sql.rs"]
mod sql;
mod support;
mod timing;

use std::hint::black_box;
use std::path::Path;
use std::time::Duration;

use analysis::assess::{Assessment, assess};
use analysis::class_set::{ClassSummary, summarise};
use analysis::reading::copied::{Declared, questions};
use analysis::reading::{Placed, infer};
use analysis::sheet::Sheet;
use analysis::wave::water::Water;
use analysis::year::Judgement;
use axum::Router;
use axum::routing::get;
use jiff::tz::TimeZone;
use server::acts::{Act, Anyone, Doing, HandIn, OpenDraft, SignIn, TakeBench};
use server::app::app;
use server::chart::{Graph, GroupPoints, class_graph};
use server::clock::{Clock, Zone};
use server::db::revision::{self, Entry, Kind};
use server::db::{Connection, Error, Store, bench, class_set, decision, inference};
use server::ids::ClassSetId;
use server::report::class_set::load;
use server::secret::sha256;
use server::web::state::AppState;

use asking::{SESSION, ask};
use sql::sql;
use support::act::{DEPARTMENT, HEAD};
use support::{DATA, Department, act, full_sheet};
use timing::{awaited, took};

/// Groups in the class.
const GROUPS: u8 = 12;
/// Each thing is timed so often, in turn with the others.
const TIMES: usize = 1000;

#[tokio::main]
async fn main() {
    let department = Department::open(1, GROUPS, server::acts::BATCH).await;
    let (store, id) = (&department.store, department.class_sets[0]);
    act(store, Anyone, Fill(id)).await.unwrap();
    pages(store, id).await;
    parts(store, id).await;
    inferring(&department).await;
    judging();
    department.close().await;
}

/// Every group hands in, and the teacher signs in.
struct Fill(ClassSetId);

impl Act<Anyone> for Fill {
    type Done = ();
    type Stop = Error;

    async fn perform(self, by: Anyone, doing: &mut Doing<'_>) -> Result<(), Error> {
        let at = doing.at();
        let benches = bench::list(doing.read(), self.0).await?;
        for (group, bench) in benches.into_iter().enumerate() {
            let take = TakeBench {
                class_set: self.0,
                label: bench.label,
                number_hash: "nobody comes back".to_owned(),
                token_hash: sha256("browser"),
            };
            let visit = doing.perform(at, by, take).await?.unwrap();
            let hand_in = HandIn {
                draft: doing.perform(at, visit, OpenDraft).await?.unwrap(),
                kind: Kind::HandedIn,
                entry: entry(group),
            };
            doing.perform(at, visit, hand_in).await?;
        }
        let sign_in = SignIn {
            token_hash: sha256(SESSION),
            old_token_hash: None,
        };
        doing.perform(at, HEAD, sign_in).await
    }
}

fn entry(at: usize) -> Entry {
    full_sheet(0.97 + 0.005 * at as f64, at.is_multiple_of(3))
}

/// The page beside a bare route, and beside a page that asks for nothing.
async fn pages(store: &Store, id: ClassSetId) {
    let zone = Zone(TimeZone::get("Europe/London").unwrap());
    let router = app(AppState::new(store.clone(), Clock::System, zone, None));
    let bare = Router::new().route("/", get(async || "hello"));
    let summary = format!("/class-sets/{}/summary", id.0);
    let mut times = [const { Vec::new() }; 3];
    for _ in 0..TIMES {
        times[0].push(ask(&router, &summary).await);
        times[1].push(ask(&router, "/privacy").await);
        times[2].push(ask(&bare, "/").await);
    }
    let [summary, plain, bare] = times.map(median);
    println!("Class summary of {GROUPS} groups with six full rows each (medians of {TIMES})");
    println!("  the page                        {summary:>9.1} µs");
    println!("  a page without data, all layers {plain:>9.1} µs");
    println!("  a bare axum route               {bare:>9.1} µs");
    println!("  ratio page : bare route         {:>9.0}", summary / bare);
}

/// Where the page's time goes, up to drawing.
async fn parts(store: &Store, id: ClassSetId) {
    let mut db = store.reader(DEPARTMENT).await.unwrap();
    let mut times = [const { Vec::new() }; 5];
    let entries: Vec<_> = (0..usize::from(GROUPS)).map(entry).collect();
    let assessments: Vec<_> = entries.iter().map(judge).collect();
    for _ in 0..TIMES {
        times[0].push(awaited(async { load(&mut db, id).await.unwrap() }).await);
        times[1].push(awaited(read_rows(&mut db, id)).await);
        let judge_all = || entries.iter().map(|entry| judge(black_box(entry)));
        times[2].push(took(|| judge_all().collect::<Vec<_>>()));
        times[3].push(took(|| summarise(&assessments.iter().collect::<Vec<_>>())));
        times[4].push(took(|| {
            let summary = summarise(&assessments.iter().collect::<Vec<_>>());
            graph(&assessments, &summary).to_string()
        }));
    }
    let [load, rows, judging, comparing, drawing] = times.map(median);
    println!("Of that");
    println!("  reading the rows (SQL and JSON) {rows:>9.1} µs");
    println!("  judging the {GROUPS} sheets           {judging:>9.1} µs");
    println!("  comparing the groups            {comparing:>9.1} µs");
    println!("  the whole report                {load:>9.1} µs");
    println!("  laying out and drawing the graph{drawing:>9.1} µs");
    println!("  the rest of the page's time is the session, its words and the layers");
}

/// What the readings suggest: made anew, and read back as it is kept.
async fn inferring(department: &Department) {
    let id = department.class_sets[0];
    let mut db = department.store.reader(DEPARTMENT).await.unwrap();
    // The pages have kept it.
    let Some(state) = find_state(&department.folder.path().join(DATA), id).await else {
        println!("  nothing was kept of the class set");
        return;
    };
    let sheets: Vec<_> = (0..usize::from(GROUPS))
        .map(|at| Sheet::check(&entry(at).sheet).unwrap())
        .collect();
    let placed: Vec<_> = sheets
        .iter()
        .map(|sheet| Placed {
            sheet,
            kit: "Tank 3",
        })
        .collect();
    let declared: Vec<_> = sheets
        .iter()
        .map(|sheet| Declared { sheet, shared: "" })
        .collect();
    let mut times = [const { Vec::new() }; 3];
    for _ in 0..TIMES / 10 {
        times[0].push(took(|| infer(black_box(&placed))));
        times[1].push(awaited(async { inference::find(&mut db, id, &state).await.unwrap() }).await);
        times[2].push(took(|| questions(black_box(&declared))));
    }
    let [anew, kept, asked] = times.map(median);
    println!("What the readings of the {GROUPS} sheets suggest");
    println!("  inferred anew                   {anew:>9.1} µs");
    println!("  read back as it is kept         {kept:>9.1} µs");
    println!("  questions about copied readings {asked:>9.1} µs");
}

async fn find_state(data: &Path, id: ClassSetId) -> Option<String> {
    let mut db = sql(data).await;
    let state = sqlx::query_scalar("SELECT state FROM inference WHERE class_set_id = $1");
    let state = state.bind(id).fetch_optional(&mut db);
    state.await.unwrap()
}

/// The graph as the page has it, with a line and a curve to name.
fn graph(assessments: &[Assessment], summary: &ClassSummary) -> Graph {
    let names: Vec<_> = ('A'..='Z').map(String::from).collect();
    let groups: Vec<_> = assessments
        .iter()
        .zip(&names)
        .map(|(sheet, name)| GroupPoints {
            name,
            sheet,
            outlier: false,
        })
        .collect();
    let water = Water::clean(20.0, 0.005);
    let expected = |f| Some(water.speed(f));
    let line = summary.through_origin.as_ref();
    class_graph(
        "class-graph",
        "f against 1/λ",
        &groups,
        line,
        Some(&expected),
    )
}

/// The queries of the report, without judging.
async fn read_rows(db: &mut Connection, id: ClassSetId) {
    black_box(class_set::get(db, id).await.unwrap());
    black_box(bench::list(db, id).await.unwrap());
    black_box(revision::list_latest(db, id).await.unwrap());
    black_box(decision::list_in_class_set(db, id, None).await.unwrap());
}

fn judge(entry: &Entry) -> Assessment {
    assess(&Sheet::check(&entry.sheet).unwrap())
}

/// Judging one sheet, beside reading back what is kept of it for the year.
fn judging() {
    println!("One full sheet (medians of {TIMES})");
    for (what, leaves_scale_out) in [("clean", false), ("a slip on every row", true)] {
        let entry = full_sheet(1.0, leaves_scale_out);
        let sheet = Sheet::check(&entry.sheet).unwrap();
        let kept = Judgement::of(&sheet, &assess(&sheet));
        let json = serde_json::to_string(&kept).unwrap();
        let mut times = [const { Vec::new() }; 2];
        for _ in 0..TIMES {
            times[0].push(took(|| judge(black_box(&entry))));
            let read = || -> Judgement { serde_json::from_str(black_box(&json)).unwrap() };
            times[1].push(took(read));
        }
        let [judged, read] = times.map(median);
        println!(
            "  {what:<20} judged in {judged:.1} µs; read back from {} bytes of JSON in {read:.1} µs; ratio {:.2}",
            json.len(),
            judged / read
        );
    }
}

/// In µs.
fn median(mut times: Vec<Duration>) -> f64 {
    times.sort_unstable();
    times[times.len() / 2].as_secs_f64() * 1e6
}
