use crate::support::{Lesson, TestApp};

async fn thresholds(app: &TestApp) -> (i64, i64) {
    app.rows("SELECT bench_threshold, summary_threshold FROM class_set")
        .await
        .remove(0)
}

#[tokio::test]
async fn class_set_starts_with_80_and_50_per_cent() {
    let mut at = Lesson::new().await;
    assert_eq!(thresholds(&at.app).await, (80, 50));
    let page = at.page("").await;
    let section = page.section("thresholds");
    for (name, value) in [("bench", "80"), ("summary", "50")] {
        let field = section.at(&format!("[name={name}][aria-describedby={name}-hint]"));
        assert_eq!(field.attr("value"), value, "{name}");
    }
}

#[tokio::test]
async fn both_are_set_and_who_set_them_is_recorded() {
    let mut at = Lesson::new().await;
    let boxes = [("bench", " 90 % "), ("summary", "30%")];
    let reply = at.posts("/thresholds", &boxes).await;
    assert_eq!(
        reply.expect(303).location(),
        format!("{}#thresholds", at.set)
    );
    assert_eq!(thresholds(&at.app).await, (90, 30));
    let sql = "SELECT detail, staff_id, class_set_id FROM event WHERE what = 'thresholds_set'";
    let event: (String, i64, i64) = at.app.rows(sql).await.remove(0);
    assert_eq!(event, (r#"{"bench":90,"summary":30}"#.to_owned(), 1, 1));
}

#[tokio::test]
async fn what_cannot_be_comes_back_as_typed_with_a_sentence_beside_it() {
    let mut at = Lesson::new().await;
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
        let page = at.posts("/thresholds", &boxes).await.expect(422);
        let section = page.section("thresholds");
        let described = section.at(&format!("[name={wrong}]"));
        let beside = format!("{wrong}-hint {wrong}-error");
        assert_eq!(described.attr("aria-describedby"), beside);
        section.at(&format!("#{wrong}-error"));
        let shown = ["bench", "summary"].map(|name| section.value(name));
        assert_eq!(shown, [bench, summary]);
        section.lacks(&format!("#{right}-error"));
    }
    let page = at.posts("/thresholds", &[]).await.expect(422);
    page.says("id=\"bench-error\"").says("id=\"summary-error\"");
    assert_eq!(thresholds(&at.app).await, (80, 50));
}

#[tokio::test]
async fn data_file_itself_refuses_thresholds_that_cannot_be() {
    let at = Lesson::new().await;
    let refused = [
        "UPDATE class_set SET bench_threshold = 49",
        "UPDATE class_set SET bench_threshold = 100",
        "UPDATE class_set SET summary_threshold = 4",
        "UPDATE class_set SET summary_threshold = 81",
    ];
    for refused in at.app.refuses(&refused).await {
        assert!(refused.contains("CHECK"), "{refused}");
    }
}
