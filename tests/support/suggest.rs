//! Findings of a test's own, in the place of those that the program keeps for
//! a class set: what a page does with a finding is told apart from whether
//! there should be one.

use std::time::Duration;

use analysis::field::Field;
use analysis::reading::{Cause, Counts, Finding, Inference, Mended, Misfit, Rival};
use server::db::inference::Together;

use super::{Browser, TestApp};

/// A finding about a row (from 0), or about the whole sheet.
pub(crate) fn finding(cause: Cause, row: Option<usize>, step: Field, probability: f64) -> Finding {
    Finding {
        cause,
        row,
        step,
        probability,
        rival: Some(Rival {
            cause: Cause::ZeroError,
            row: None,
            probability: 0.031,
        }),
        is_tie: false,
        given: "10".to_owned(),
        expected: "9".to_owned(),
        counts: Some(Counts {
            written: 10.0,
            fits: 9.0,
        }),
        misfit: Misfit {
            before: -0.11,
            mended: Some(0.0),
        },
        mended: Some(Mended {
            speed: 0.2345,
            in_line: true,
        }),
    }
}

/// A count begun at one, in every row.
pub(crate) fn counted(probability: f64) -> Finding {
    finding(Cause::CountedFromOne, None, Field::LastCrest, probability)
}

/// A count out by one wave, in row 3.
pub(crate) fn miscount(probability: f64) -> Finding {
    finding(Cause::CrestMiscount, Some(2), Field::LastCrest, probability)
}

/// A lamp that has moved, which no group can mend.
pub(crate) fn lamp(probability: f64) -> Finding {
    Finding {
        mended: None,
        ..finding(Cause::LampOff, None, Field::ScaleImage, probability)
    }
}

/// One of two that cannot be told apart.
pub(crate) fn tied(first: Finding, twin: Cause) -> Finding {
    Finding {
        is_tie: true,
        rival: Some(Rival {
            cause: twin,
            row: None,
            probability: 0.4,
        }),
        ..first
    }
}

/// What the pages of a class set show of its groups, by label: these, until
/// one of its groups changes.
pub(crate) async fn suggest(teacher: &mut Browser, set: &str, findings: &[(&str, Vec<Finding>)]) {
    let app = teacher.app.clone();
    let id: i64 = set.rsplit('/').next().unwrap().parse().unwrap();
    kept(&app, teacher, id).await;
    let sql = "SELECT bench.label FROM sheet JOIN bench ON bench.id = sheet.bench_id
               WHERE class_set_id = $1 AND sheet.version > 0 ORDER BY bench.label";
    let labels: Vec<String> = sqlx::query_scalar(sql)
        .bind(id)
        .fetch_all(&mut app.sql().await)
        .await
        .unwrap();
    let inferences = labels.iter().map(|label| {
        let theirs = findings.iter().find(|(of, _)| of == label);
        Some(Inference {
            no_slip: 0.123,
            findings: theirs
                .map(|(_, findings)| findings.clone())
                .unwrap_or_default(),
        })
    });
    let together = Together {
        inferences: inferences.collect(),
        questions: Vec::new(),
    };
    let body = serde_json::to_string(&together).unwrap();
    let write = sqlx::query("UPDATE inference SET body = $2 WHERE class_set_id = $1")
        .bind(id)
        .bind(body)
        .execute(&mut app.sql().await)
        .await;
    assert_eq!(write.unwrap().rows_affected(), 1, "nothing was kept");
}

/// Opens the summary until what it inferred of the class set as it is has
/// been kept.
async fn kept(app: &TestApp, teacher: &mut Browser, id: i64) {
    sqlx::query("DELETE FROM inference WHERE class_set_id = $1")
        .bind(id)
        .execute(&mut app.sql().await)
        .await
        .unwrap();
    let summary = format!("/class-sets/{id}/summary");
    teacher.opens(&summary).await;
    for _ in 0..2000 {
        if made_at(app, id).await.is_some() {
            return;
        }
        tokio::time::sleep(Duration::from_millis(5)).await;
    }
    panic!("nothing was kept of {summary}");
}

/// When the inference that is kept of a class set was made.
pub(crate) async fn made_at(app: &TestApp, id: i64) -> Option<i64> {
    sqlx::query_scalar("SELECT made_at FROM inference WHERE class_set_id = $1")
        .bind(id)
        .fetch_optional(&mut app.sql().await)
        .await
        .unwrap()
}
