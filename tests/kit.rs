//! The department's kits.

use crate::support::{Group, Lesson, teacher};

#[tokio::test]
async fn added_kit_is_in_the_list() {
    let mut teacher = teacher().await;
    teacher
        .sends("/kits", &[("label", " Tank 3 "), ("kind", "tank")])
        .await;
    let list = teacher.opens("/kits").await.page();
    list.with("tbody tr", "Tank 3").says("Ripple tank");
}

#[tokio::test]
async fn label_that_is_blank_long_or_taken_comes_back_as_typed() {
    let mut teacher = teacher().await;
    teacher
        .sends("/kits", &[("label", "Tank 3"), ("kind", "tank")])
        .await;
    let long = "x".repeat(41);
    for label in ["", "tank 3", "TANK  3", &long] {
        let page = teacher
            .post_staff("/kits", &[("label", label), ("kind", "tank")])
            .await
            .expect(422);
        page.says("label-error")
            .says(&format!("name=\"label\" value=\"{label}\""));
    }
    teacher
        .post_staff("/kits", &[("label", "Tank 4"), ("kind", "submarine")])
        .await
        .expect(422)
        .says("kind-error");
}

#[tokio::test]
async fn kit_that_is_listed_later_is_tied_to_the_sheets_that_name_it() {
    let mut at = Lesson::new().await;
    for (label, kit) in [("A", " tank  7"), ("B", "TANK 7"), ("C", "Tank 77")] {
        let group = Group::CAREFUL.kit(kit);
        at.hands_in(&group, label).await;
    }
    let boxes = [("label", "Tank 7"), ("kind", "tank")];
    at.teacher.sends("/kits", &boxes).await;
    let sql = "SELECT bench.label FROM sheet JOIN bench ON bench.id = bench_id WHERE kit_id IS NOT NULL ORDER BY 1";
    let tied: Vec<String> = at.app.values(sql).await;
    assert_eq!(tied, ["A", "B"]);
    let page = at.page("/sheets/B").await;
    page.says("Tank 7").says_nothing_of("TANK 7");
}
