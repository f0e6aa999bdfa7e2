//! What the year's pages cost, beside a bare route; and whether a long
//! history makes a class summary dearer.
//!
//! `cargo bench -p crestcount --bench year`. Two years of some two thousand
//! full sheets each, half of them marked on every point: the year asked for,
//! and the one before that stands beside it.

#![expect(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "a benchmark stops at what it cannot do, and prints what it found"
)]

#[path = "../../tests/support/act.rs"]
mod act;
mod asking;
#[path = "../../tests/support/sql.rs"]
mod sql;
#[path = "../../tests/support/stored_year.rs"]
mod stored_year;
mod timing;
#[path = "../../tests/support/typed.rs"]
mod typed;

use std::hint::black_box;
use std::path::PathBuf;
use std::time::Duration;

use analysis::year::compare;
use axum::Router;
use axum::routing::get;
use jiff::tz::TimeZone;
use server::acts::{Anyone, SignIn};
use server::app::app;
use server::clock::{Clock, Zone};
use server::db::round_sheet::Closed;
use server::db::year as rows;
use server::db::{Store, class_set};
use server::ids::ClassSetId;
use server::report::year::{YearFrame, sheets};
use server::secret::sha256;
use server::web::state::AppState;
use simulator::year::Department;

use act::{DEPARTMENT, HEAD, act};
use asking::{SESSION, ask};
use sql::sql;
use stored_year::{MarkAll, StoreYear};
use tempfile::TempDir;
use timing::{awaited, took};

/// The year that is asked for.
const YEAR: i16 = 2026;

/// Six classes, 28 lessons each, twelve groups: 2 016 sheets.
const LARGE: Department = Department {
    lessons: 28,
    groups: 12,
    ..Department::WORN
};

#[tokio::main]
async fn main() {
    year().await;
    history().await;
}

fn data(folder: &TempDir) -> PathBuf {
    folder.path().join("data.db")
}

/// A data file with some simulated years in it and a teacher signed in.
async fn open(folder: &TempDir, years: Vec<(i16, Department)>) -> Store {
    let (store, _writing) = server::acts::open(&data(folder)).await.unwrap();
    for (starts, department) in years {
        let seed = 1;
        let year = StoreYear {
            department,
            starts,
            seed,
        };
        act(&store, 0, Anyone, year).await.unwrap();
    }
    let sign_in = SignIn {
        token_hash: sha256(SESSION),
        old_token_hash: None,
    };
    let now = Clock::System.now();
    act(&store, now, HEAD, sign_in).await.unwrap();
    store
}

fn router(store: &Store) -> Router {
    let zone = Zone(TimeZone::get("Europe/London").unwrap());
    app(AppState::new(store.clone(), Clock::System, zone, None))
}

/// The year's pages: at the first look, from judgements, from the summary.
async fn year() {
    let folder = tempfile::tempdir().unwrap();
    let store = open(&folder, vec![(YEAR - 1, LARGE), (YEAR, LARGE)]).await;
    mark_half(&store).await;
    let router = router(&store);
    let bare = Router::new().route("/", get(async || "hello"));
    let first = ask(&router, "/year").await;
    wait_until_kept(&folder).await;
    println!(
        "The year, {YEAR}/27 with {} sheets beside the year before with as many",
        count(&folder, "bench").await / 2
    );
    println!(
        "  first look, nothing judged yet          {:>9.1} ms",
        ms(first)
    );
    let [hello] = medians(200, ["/"], &bare).await;
    println!("  a bare axum route                       {hello:>9.3} ms");
    for page in [
        "/year",
        "/year/kits",
        "/year/slips",
        "/year/classes",
        "/year/teachers",
    ] {
        let mut judged = Vec::new();
        for _ in 0..15 {
            forget_summaries(&folder).await;
            judged.push(ask(&router, page).await);
            wait_until_kept(&folder).await;
        }
        let judged = median(judged);
        let [summed] = medians(50, [page], &router).await;
        println!(
            "  {page:<14} from judgements          {judged:>9.1} ms, bare route × {:.0}",
            judged / hello
        );
        println!(
            "  {page:<14} from the summary         {summed:>9.1} ms, bare route × {:.0}",
            summed / hello
        );
    }
    for page in [
        "/year/kits/2",
        "/year/slips/working/scale-left-out",
        "/year/sheets?kit=2",
    ] {
        let [one_by_one] = medians(15, [page], &router).await;
        println!(
            "  {page:<38}  {one_by_one:>9.1} ms, bare route × {:.0}",
            one_by_one / hello
        );
    }
    parts(&store).await;
}

/// Where the time of a year goes that is made from judgements, and of one that
/// is summed up.
async fn parts(store: &Store) {
    let mut db = store.reader(DEPARTMENT).await.unwrap();
    let zone = Zone(TimeZone::UTC);
    let school_year = i64::from(YEAR);
    let open = Closed::default();
    let version = format!("{}/{}", analysis::VERSION, analysis::year::VERSION);
    let frame = YearFrame::load(&mut db, &zone, school_year, &open)
        .await
        .unwrap();
    let all = sheets::load(&mut db, &frame).await.unwrap();
    let mut times = [const { Vec::new() }; 6];
    for _ in 0..15 {
        times[0].push(
            awaited(async {
                YearFrame::load(&mut db, &zone, school_year, &open)
                    .await
                    .unwrap()
            })
            .await,
        );
        times[1]
            .push(awaited(async { rows::get_newest(&mut db, school_year).await.unwrap() }).await);
        times[2].push(
            awaited(async {
                rows::list_sheets(&mut db, school_year, &version)
                    .await
                    .unwrap()
            })
            .await,
        );
        times[3].push(
            awaited(async { rows::list_decisions(&mut db, school_year).await.unwrap() }).await,
        );
        times[4]
            .push(awaited(async { rows::list_marks(&mut db, school_year).await.unwrap() }).await);
        times[5].push(took(|| compare(black_box(&all.year))));
    }
    let [frame, newest, sheets, decisions, marks, compared] = times.map(median);
    println!("Of that, for one of the two years");
    println!("  lessons, classes, kits                  {frame:>9.1} ms");
    println!("  whether anything changed                {newest:>9.1} ms");
    println!("  the sheets with their judgements        {sheets:>9.1} ms");
    println!("  decisions                               {decisions:>9.1} ms");
    println!("  marks                                   {marks:>9.1} ms");
    println!("  comparing                               {compared:>9.1} ms");
}

/// A class summary with 200, 2 000 and 20 000 sheets in the data file.
async fn history() {
    println!("A class summary of 12 groups, by the sheets that the department has");
    let small = Department {
        lessons: 3,
        groups: 12,
        ..Department::WORN
    };
    let mut departments = Vec::new();
    for years in [0_i16, 1, 10] {
        let folder = tempfile::tempdir().unwrap();
        let earlier = (1..=years).map(|back| (YEAR - back, LARGE));
        let years: Vec<_> = earlier.chain([(YEAR, small.clone())]).collect();
        let store = open(&folder, years).await;
        let set = newest_set(&store).await;
        let page = format!("/class-sets/{}/summary", set.0);
        let router = router(&store);
        // The inference is kept by then.
        medians(20, [&page], &router).await;
        let sheets = count(&folder, "sheet").await;
        departments.push((folder, sheets, page, router));
    }
    // In turn, so that whatever else the machine does falls on all of them.
    let mut times = [const { Vec::new() }; 3];
    for _ in 0..400 {
        for ((_, _, page, router), times) in departments.iter().zip(&mut times) {
            times.push(ask(router, page).await);
        }
    }
    let times = times.map(median);
    for ((_, sheets, ..), time) in departments.iter().zip(times) {
        println!(
            "  {sheets:>6} sheets {time:>9.3} ms, ratio {:.2}",
            time / times[0]
        );
    }
}

/// Marks every other class set on every point.
async fn mark_half(store: &Store) {
    let listed = class_set::list(&mut store.reader(DEPARTMENT).await.unwrap())
        .await
        .unwrap();
    for line in listed.into_iter().step_by(2) {
        let marked = MarkAll(line.class_set.id);
        act(store, 0, HEAD, marked).await.unwrap();
    }
}

async fn newest_set(store: &Store) -> ClassSetId {
    let listed = class_set::list(&mut store.reader(DEPARTMENT).await.unwrap())
        .await
        .unwrap();
    listed[0].class_set.id
}

async fn count(folder: &TempDir, table: &'static str) -> i64 {
    let counted = match table {
        "bench" => "SELECT count(*) FROM bench",
        "sheet" => "SELECT count(*) FROM sheet",
        "judgement" => "SELECT count(*) FROM judgement",
        _ => "SELECT count(*) FROM year_summary",
    };
    let mut db = sql(&data(folder)).await;
    sqlx::query_scalar(counted)
        .fetch_one(&mut db)
        .await
        .unwrap()
}

async fn forget_summaries(folder: &TempDir) {
    let mut db = sql(&data(folder)).await;
    let forget = sqlx::query("DELETE FROM year_summary").execute(&mut db);
    forget.await.unwrap();
}

/// What a look made is written after it: so that it does not fall into what
/// is timed next.
async fn wait_until_kept(folder: &TempDir) {
    let sheets = count(folder, "sheet").await;
    while count(folder, "judgement").await < sheets || count(folder, "year_summary").await < 2 {
        tokio::time::sleep(Duration::from_millis(2)).await;
    }
}

/// Medians in ms of so many requests for each page.
async fn medians<const N: usize>(times: usize, pages: [&str; N], router: &Router) -> [f64; N] {
    let mut taken = [const { Vec::new() }; N];
    for _ in 0..times {
        for (page, taken) in pages.iter().zip(&mut taken) {
            taken.push(ask(router, page).await);
        }
    }
    taken.map(median)
}

fn median(mut times: Vec<Duration>) -> f64 {
    times.sort_unstable();
    ms(times[times.len() / 2])
}

fn ms(time: Duration) -> f64 {
    time.as_secs_f64() * 1e3
}
