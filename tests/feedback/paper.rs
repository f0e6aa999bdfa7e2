use analysis::scheme::{Judged, Point};
use server::acts::SaveScheme;
use server::db::scheme::{self, NewPoint};
use server::ids::SchemeId;

use super::marked;
use crate::support::{Group, HEAD, TestApp, pairs, walk};

/// Forty points of the longest title: as many as a scheme may have.
async fn longest_scheme(app: &TestApp) -> i64 {
    let point = |number: usize| Point {
        title: format!("{number:03} {}", "measured and worked out ".repeat(5))
            .chars()
            .take(120)
            .collect(),
        guidance: String::new(),
        marks: 20,
        judged: Judged::ByEye(None),
        levels: Vec::new(),
    };
    let points = (0..40).map(|number| NewPoint {
        key: None,
        point: point(number),
    });
    let save = SaveScheme {
        scheme: SchemeId(1),
        base: 1,
        points: points.collect(),
    };
    app.act(HEAD, save).await.unwrap();
    let saved = scheme::find(&mut app.db().await, SchemeId(1)).await;
    saved.unwrap().unwrap().version_id.0
}

/// The sheet of a group with fifteen rows.
fn many_rows() -> Vec<(String, String)> {
    let mut boxes = Group::FORGETFUL.boxes();
    let first: Vec<_> = boxes
        .iter()
        .filter_map(|(name, text)| {
            let rest = name.strip_prefix("r1.")?;
            Some((rest.to_owned(), text.clone()))
        })
        .collect();
    for row in 6..=15 {
        let again = first.iter();
        boxes.extend(again.map(|(name, text)| (format!("r{row}.{name}"), text.clone())));
    }
    boxes
}

#[tokio::test(flavor = "multi_thread")]
async fn each_sheet_takes_one_side_of_paper() {
    let (mut at, _) = marked(TestApp::new().await).await;
    for _ in 0..5 {
        at.note(&"Look at the first row again. ".repeat(9), "group")
            .await;
    }
    let print = format!("{}/feedback/print", at.set);
    let one = format!("{}/feedback/sheets/A", at.set);
    let sheets = format!("[[\"{print}\", 2], [\"{one}\", 1]]");
    walk(&at.app, "feedback_sheets.mjs", &[("SHEETS", &sheets)]).await;

    // Everything as long as it may be.
    let sheet = at.bench.clone();
    let draft = at.pupil.open_sheet(&sheet).await;
    let boxes = many_rows();
    let boxes = pairs(&boxes);
    let sent = at.pupil.send_sheet(&sheet, &draft, "hand_in", &boxes).await;
    sent.expect(303);
    at.note(&"é".repeat(500), "group").await;
    let version = longest_scheme(&at.app).await.to_string();
    let boxes = [("version", version.as_str())];
    at.does("/marking/scheme", &boxes).await;
    at.teacher.opens(&one).await.says("densest");
    let sheets = format!("[[\"{print}\", 2], [\"{one}\", 1]]");
    walk(&at.app, "feedback_sheets.mjs", &[("SHEETS", &sheets)]).await;
}
