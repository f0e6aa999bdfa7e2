use crate::support::{Browser, TestApp};

async fn thresholds(app: &TestApp) -> (i64, i64) {
    sqlx::query_as("SELECT bench_threshold, summary_threshold FROM class_set")
        .fetch_one(&mut app.sql().await)
        .await
        .unwrap()
}

async fn set<'a>(app: &'a TestApp) -> (Browser<'a>, String) {
    let mut teacher = app.teacher().await;
    let (set, _) = teacher.make_class_set("ripple-tank").await;
    (teacher, set)
}

#[tokio::test]
async fn class_set_starts_with_80_and_50_per_cent() {
    let app = TestApp::new().await;
    let (mut teacher, set) = set(&app).await;
    assert_eq!(thresholds(&app).await, (80, 50));
    let page = teacher.opens(&set).await;
    let section = page.section("thresholds");
    for (name, value) in [("bench", "80"), ("summary", "50")] {
        let field = section.at(&format!("[name={name}][aria-describedby={name}-hint]"));
        assert_eq!(field.attr("value"), value, "{name}");
    }
}

#[tokio::test]
async fn both_are_set_and_who_set_them_is_recorded() {
    let app = TestApp::new().await;
    let (mut teacher, set) = set(&app).await;
    let boxes = [("bench", " 90 % "), ("summary", "30%")];
    let reply = teacher
        .post_staff(&format!("{set}/thresholds"), &boxes)
        .await;
    assert_eq!(reply.expect(303).location(), format!("{set}#thresholds"));
    assert_eq!(thresholds(&app).await, (90, 30));
    let sql = "SELECT detail, staff_id, class_set_id FROM event WHERE what = 'thresholds_set'";
    let event: (String, i64, i64) = sqlx::query_as(sql)
        .fetch_one(&mut app.sql().await)
        .await
        .unwrap();
    assert_eq!(event, (r#"{"bench":90,"summary":30}"#.to_owned(), 1, 1));
}

#[tokio::test]
async fn what_cannot_be_comes_back_as_typed_with_a_sentence_beside_it() {
    let app = TestApp::new().await;
    let (mut teacher, set) = set(&app).await;
    for (bench, summary, wrong, right) in [
        ("49", "40", "bench", "summary"),
        ("100", "40", "bench", "summary"),
        ("most", "40", "bench", "summary"),
        ("", "40", "bench", "summary"),
        ("80.5", "40", "bench", "summary"),
        ("99999999999999999999", "40", "bench", "summary"),
        ("80", "4", "summary", "bench"),
        ("80", "-5", "summary", "bench"),
        ("80", "81", "summary", "bench"),
        ("80", "<b>", "summary", "bench"),
    ] {
        let boxes = [("bench", bench), ("summary", summary)];
        let page = teacher
            .post_staff(&format!("{set}/thresholds"), &boxes)
            .await
            .expect(422);
        let section = page.section("thresholds");
        let described = section.at(&format!("[name={wrong}]"));
        let beside = format!("{wrong}-hint {wrong}-error");
        assert_eq!(described.attr("aria-describedby"), beside);
        section.at(&format!("#{wrong}-error"));
        assert!(!section.has(&format!("#{right}-error")), "{boxes:?}");
        let shown = ["bench", "summary"].map(|name| section.value(name));
        assert_eq!(shown, [bench, summary]);
    }
    let page = teacher
        .post_staff(&format!("{set}/thresholds"), &[])
        .await
        .expect(422);
    page.says("id=\"bench-error\"").says("id=\"summary-error\"");
    assert_eq!(thresholds(&app).await, (80, 50));
}

#[tokio::test]
async fn thresholds_of_a_class_set_that_is_none_are_404() {
    let app = TestApp::new().await;
    let (mut teacher, _) = set(&app).await;
    for boxes in [
        [("bench", "90"), ("summary", "30")],
        [("bench", ""), ("summary", "")],
    ] {
        teacher
            .post_staff("/class-sets/99/thresholds", &boxes)
            .await
            .expect(404);
    }
}

#[tokio::test]
async fn data_file_itself_refuses_thresholds_that_cannot_be() {
    let app = TestApp::new().await;
    let (_teacher, _set) = set(&app).await;
    for sql in [
        "UPDATE class_set SET bench_threshold = 49",
        "UPDATE class_set SET bench_threshold = 100",
        "UPDATE class_set SET summary_threshold = 4",
        "UPDATE class_set SET summary_threshold = 81",
    ] {
        let write = sqlx::query(sql).execute(&mut app.sql().await).await;
        let refused = write.unwrap_err().to_string();
        assert!(refused.contains("CHECK"), "{sql}: {refused}");
    }
}
