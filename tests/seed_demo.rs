//! The demo as it is made: the program is run, its file is opened and judged.

use std::collections::BTreeSet;
use std::path::Path;
use std::process::{Command, Output};

use analysis::slip::{Kind, Slip};
use server::db::{Store, class_set, staff};
use server::report::class_set::{ClassReport, load};
use server::report::finding::lines;

fn seed_demo(data: &Path, more: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_seed-demo"))
        .arg("--data")
        .arg(data)
        .args(more)
        .output()
        .unwrap()
}

fn printed(output: &Output) -> String {
    assert!(
        output.status.success(),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    String::from_utf8_lossy(&output.stdout).into_owned()
}

async fn reports(data: &Path) -> Vec<ClassReport> {
    let (store, _writing) = Store::open(data).await.unwrap();
    let mut db = store.reader().await.unwrap();
    let mut reports = Vec::new();
    for listed in class_set::list(&mut db).await.unwrap() {
        reports.push(load(&mut db, listed.class_set.id).await.unwrap());
    }
    reports
}

#[tokio::test]
async fn demo_shows_every_slip_among_clean_sheets() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().join("demo.db");
    printed(&seed_demo(&data, &["--make-only"]));
    let reports = reports(&data).await;
    let groups = reports.iter().flat_map(|report| &report.groups);
    let handed_in: Vec<_> = groups.filter(|group| group.standing.is_some()).collect();
    let flags = |kind: Kind| {
        let sheets = handed_in.iter().filter_map(|group| group.work.as_ref());
        sheets.map(move |work| {
            work.assessment
                .flags
                .iter()
                .filter(move |f| f.slip.kind() == kind)
                .count()
        })
    };
    let shown: BTreeSet<_> = handed_in
        .iter()
        .filter_map(|group| group.work.as_ref())
        .flat_map(|work| work.assessment.flags.iter().map(|flag| flag.slip))
        .collect();
    assert_eq!(shown, BTreeSet::from(Slip::ALL), "every slip and remark");
    let clean = flags(Kind::Slip).filter(|slips| *slips == 0).count();
    assert!(
        3 * clean >= handed_in.len(),
        "{clean} clean sheets of {}",
        handed_in.len()
    );
}

#[tokio::test]
async fn demo_has_six_class_sets_and_the_newest_is_open() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().join("demo.db");
    printed(&seed_demo(&data, &["--make-only"]));
    let reports = reports(&data).await;
    let open: Vec<_> = reports
        .iter()
        .map(|report| report.class_set.is_open())
        .collect();
    assert_eq!(
        open,
        [true, false, false, false, false, false],
        "newest first"
    );
    let classes: BTreeSet<_> = reports
        .iter()
        .map(|report| &report.class_set.class_name)
        .collect();
    assert_eq!(classes.len(), 3);
    let newest = &reports[0].groups;
    let begun = newest.iter().filter(|group| group.work.is_some()).count();
    let handed_in = newest
        .iter()
        .filter(|group| group.bench.handed_in_at.is_some())
        .count();
    assert_eq!(
        (newest.len(), begun, handed_in),
        (8, 7, 6),
        "groups, begun, handed in"
    );
    assert!(
        newest.iter().any(|group| group.bench.version >= 4),
        "one with several revisions"
    );
    let decided = |verdict| {
        let works = reports
            .iter()
            .flat_map(|r| &r.groups)
            .filter_map(|group| group.work.as_ref());
        works
            .flat_map(|work| &work.decisions)
            .filter(|d| d.verdict == verdict)
            .count()
    };
    assert!(
        decided(server::db::decision::Verdict::Confirmed) > 0,
        "some confirmed"
    );
    assert!(
        decided(server::db::decision::Verdict::Dismissed) > 0,
        "some dismissed"
    );
}

#[tokio::test]
async fn nothing_is_to_be_done_while_the_apparatus_is_up_when_it_is_not() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().join("demo.db");
    printed(&seed_demo(&data, &["--make-only"]));
    let mut cut = 0;
    for report in reports(&data).await {
        let works = report.groups.iter().filter_map(|group| group.work.as_ref());
        for line in works.flat_map(lines) {
            let (up, down) = (line.invitation(true), line.invitation(false));
            assert!(!down.is_empty() && !down.contains("is up"), "{down}");
            assert!(up.starts_with(down), "{up}");
            cut += usize::from(up != down);
        }
    }
    assert!(cut > 3, "{cut} invitations name what is up");
}

#[tokio::test]
async fn only_groups_without_their_hanger_or_their_multiplier_stand_apart() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().join("demo.db");
    printed(&seed_demo(&data, &["--make-only"]));
    let mut apart = Vec::new();
    for report in reports(&data).await {
        for group in report.groups {
            if group.standing.is_some_and(|standing| standing.outlier) {
                apart.push((
                    report.class_set.class_name.clone(),
                    report.method.code(),
                    group.bench.label,
                ));
            }
        }
    }
    let expected = [
        ("11C/Ph1", "string-loops", "D"),
        ("10B/Ph2", "string-loops", "H"),
    ];
    let expected =
        expected.map(|(class, method, label)| (class.to_owned(), method, label.to_owned()));
    assert_eq!(apart, expected);
}

#[tokio::test]
async fn dirty_tank_is_slower_than_the_others_above_15_hz() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().join("demo.db");
    printed(&seed_demo(&data, &["--make-only"]));
    let (mut dirty, mut others) = (Vec::new(), Vec::new());
    let reports = reports(&data).await;
    for work in reports
        .iter()
        .flat_map(|r| &r.groups)
        .filter_map(|group| group.work.as_ref())
    {
        let rows = work.assessment.rows.iter().filter(|row| !row.left_out);
        let ratios = rows
            .filter(|row| row.frequency.is_some_and(|f| f >= 15.0))
            .filter_map(|row| Some(row.speed? / row.expected_speed?));
        let ratios: Vec<_> = ratios.collect();
        match work.revision.entry.kit.as_str() {
            "Tank 2" => dirty.push(ratios),
            "Tank 1" | "Tank 3" => others.extend(ratios),
            _ => {}
        }
    }
    assert!(dirty.len() >= 7, "{} groups at the dirty tank", dirty.len());
    others.sort_by(f64::total_cmp);
    let usual = others[others.len() / 2];
    for ratios in dirty.iter().filter(|ratios| !ratios.is_empty()) {
        let mean = ratios.iter().sum::<f64>() / f64::from(u32::try_from(ratios.len()).unwrap());
        assert!(mean < 0.96 * usual, "{ratios:?} beside {usual}");
    }
}

#[tokio::test]
async fn second_start_serves_the_same_demo() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().join("demo.db");
    let first = printed(&seed_demo(&data, &["--make-only"]));
    assert!(
        first.contains("Class code") && first.contains("password: "),
        "{first}"
    );
    assert_eq!(
        printed(&seed_demo(&data, &["--make-only"])),
        first,
        "as it is"
    );
    assert_ne!(
        printed(&seed_demo(&data, &["--make-only", "--fresh"])),
        first,
        "another class code"
    );
}

#[tokio::test]
async fn same_day_gives_the_same_sheets() {
    let folder = tempfile::tempdir().unwrap();
    let mut made = Vec::new();
    for name in ["one.db", "other.db"] {
        let data = folder.path().join(name);
        printed(&seed_demo(&data, &["--make-only"]));
        let groups = reports(&data)
            .await
            .into_iter()
            .flat_map(|report| report.groups);
        made.push(
            groups
                .map(|group| group.work.map(|work| work.revision.entry))
                .collect::<Vec<_>>(),
        );
    }
    assert!(made[0] == made[1], "the same sheets twice");
}

#[tokio::test]
async fn file_of_somebody_else_is_left_alone() {
    let folder = tempfile::tempdir().unwrap();
    let data = folder.path().join("school.db");
    let (store, writing) = Store::open(&data).await.unwrap();
    let new = staff::NewStaff {
        name: "Ms Fell".to_owned(),
        password_hash: String::new(),
        role: staff::Role::Head,
        made_at: 0,
    };
    store
        .writer()
        .run(move |db| Box::pin(async move { staff::insert(db, &new).await }))
        .await
        .unwrap();
    store.close().await;
    writing.await.unwrap().unwrap();
    for more in [&["--make-only"][..], &["--make-only", "--fresh"]] {
        let refused = seed_demo(&data, more);
        assert!(!refused.status.success(), "{more:?}");
        let said = String::from_utf8_lossy(&refused.stderr);
        assert!(said.contains("was not made by seed-demo"), "{said}");
    }
    let (store, _writing) = Store::open(&data).await.unwrap();
    let count = staff::count(&mut store.reader().await.unwrap())
        .await
        .unwrap();
    assert_eq!(count, 1, "still there");
}

#[test]
fn taken_port_is_said_plainly() {
    let folder = tempfile::tempdir().unwrap();
    let taken = std::net::TcpListener::bind("127.0.0.1:0").unwrap();
    let port = taken.local_addr().unwrap().port().to_string();
    let refused = seed_demo(&folder.path().join("demo.db"), &["--port", &port]);
    assert!(!refused.status.success(), "the port is taken");
    let said = String::from_utf8_lossy(&refused.stderr);
    assert!(
        said.contains("another program uses it") && said.contains("--port"),
        "{said}"
    );
}
