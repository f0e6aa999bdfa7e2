//! An inference that panics on one sheet.

use std::io::Write;
use std::sync::{Arc, Mutex};

use analysis::reading::{Inference, Placed, infer};
use server::acts;
use server::ids::ClassSetId;
use server::report::class_set::{ClassReport, load_with};
use server::report::judge::Infer;

use crate::support::{DEPARTMENT, Group, TestApp};

/// Panics where a sheet names this kit.
const BREAKS: &str = "Tank 13";

fn breaks_alone(sheets: &[Placed<'_>]) -> Vec<Inference> {
    assert!(sheets.iter().all(|sheet| sheet.kit != BREAKS), "no way");
    infer(sheets)
}

/// Panics where that sheet is not alone.
fn breaks_with_others(sheets: &[Placed<'_>]) -> Vec<Inference> {
    match sheets {
        [alone] => infer(&[*alone]),
        _ => breaks_alone(sheets),
    }
}

fn breaks_always(_: &[Placed<'_>]) -> Vec<Inference> {
    panic!("no way");
}

#[derive(Clone, Default)]
struct Log(Arc<Mutex<Vec<u8>>>);

impl Write for Log {
    fn write(&mut self, bytes: &[u8]) -> std::io::Result<usize> {
        self.0.lock().unwrap().write(bytes)
    }

    fn flush(&mut self) -> std::io::Result<()> {
        Ok(())
    }
}

/// Three groups; B names the kit on which it breaks. The class, and what the
/// log says.
async fn class(app: &TestApp, infer: Infer) -> (ClassReport, String) {
    let mut teacher = app.teacher().await;
    let (_, code) = teacher.make_class_set("ripple-tank").await;
    for (label, kit) in [("A", ""), ("B", BREAKS), ("C", "")] {
        let group = Group::CAREFUL.kit(kit).level(1.05);
        group.sends("hand_in", app, &code, label).await;
    }
    let log = Log::default();
    let writes = log.clone();
    let subscriber = tracing_subscriber::fmt()
        .with_ansi(false)
        .with_writer(move || writes.clone())
        .finish();
    let guard = tracing::subscriber::set_default(subscriber);
    let mut db = app.store.reader(DEPARTMENT).await.unwrap();
    let report = load_with(&mut db, ClassSetId(1), infer).await.unwrap();
    drop(guard);
    let said = String::from_utf8(log.0.lock().unwrap().clone()).unwrap();
    (report, said)
}

fn inferred(report: &ClassReport) -> Vec<bool> {
    let works = report.groups.iter().filter_map(|g| g.work.as_ref());
    works.map(|work| work.inference.is_some()).collect()
}

#[tokio::test]
async fn class_is_shown_without_what_that_sheet_suggests_and_the_log_names_it() {
    for infer in [breaks_alone, breaks_with_others] {
        let app = TestApp::new().await;
        let (report, log) = class(&app, infer).await;
        assert_eq!(inferred(&report), [true, false, true]);
        let sheet = report.groups[1].bench.sheet_id;
        assert_eq!(log.matches("panicked").count(), 1, "{log}");
        assert!(log.contains(&format!("class_set=1 sheet={sheet}")), "{log}");
        // What is kept is what the pages show.
        assert!(report.to_keep.is_some());
        acts::keep_derived(&app.store, app.clock.now(), DEPARTMENT, report.to_keep);
        app.written().await;
        let mut teacher = app.signed_in().await;
        let suggests = "made no slip in its readings";
        for page in ["summary", "room", "marking", "feedback"] {
            let path = format!("/class-sets/1/{page}");
            teacher.opens(&path).await;
        }
        for (label, times) in [("A", 1), ("B", 0)] {
            let path = format!("/class-sets/1/sheets/{label}");
            let page = teacher.opens(&path).await;
            assert_eq!(page.count(suggests), times, "{label}");
            let is_said = page.text.contains("could not be worked out");
            assert_eq!(is_said, times == 0, "{label}");
        }
    }
}

#[tokio::test]
async fn class_is_shown_without_inference_where_every_sheet_panics() {
    let app = TestApp::new().await;
    let (report, log) = class(&app, breaks_always).await;
    assert_eq!(inferred(&report), [false; 3]);
    assert_eq!(log.matches("panicked").count(), 3, "{log}");
}
