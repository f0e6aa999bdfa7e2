//! Teachers are compared for the head of department alone.

use super::{PAGES, head};

#[tokio::test]
async fn head_of_department_sees_class_sets_by_teacher() {
    let mut head = head().await;
    head.opens("/year/teachers")
        .await
        .says("Only the head of department sees this page.")
        .says("Mr Tarn")
        .says("Mrs Holm");
    head.get("/year").await.says("/year/teachers?year=2026");
    let sheets = head.opens("/year/sheets?teacher=2").await;
    let sheets = sheets.says(" of Mr Tarn");
    // Two classes of four lessons with six groups.
    assert_eq!(sheets.count("aria-label=\"Sheet of group"), 48);
}

#[tokio::test]
async fn teacher_sees_no_comparison_of_teachers() {
    let mut head = head().await;
    let mut colleague = head.colleague("Mx Gill").await;
    for page in [
        "/year/teachers",
        "/year/teachers?year=2026",
        "/year/sheets?teacher=2",
    ] {
        colleague
            .get(page)
            .await
            .expect(403)
            .says("for the head of department alone")
            .says_nothing_of("Mr Tarn");
    }
    for page in &PAGES[..5] {
        let page = colleague.opens(page).await;
        page.says_nothing_of("Mr Tarn")
            .says_nothing_of("/year/teachers");
    }
}
