use super::department::{department, mark_all, marked};
use crate::support::TestApp;

const URL: &str = "/moderation/sizes";

#[tokio::test]
async fn table_begins_with_common_practice_and_says_what_sizes_tell() {
    let app = TestApp::new().await;
    let mut at = department(&app).await;
    at.tarn
        .get(URL)
        .await
        .expect(200)
        .says("<th scope=\"row\">up to 15</th><td class=\"num\">all</td>")
        .says("<th scope=\"row\">up to 100</th><td class=\"num\">15</td>")
        .says("<th scope=\"row\">up to 200</th><td class=\"num\">20</td>")
        .says("<th scope=\"row\">larger</th><td class=\"num\">25</td>")
        .says("nobody requires them here")
        .says("With differences of SD 2.0 marks, six sheets fix a marker’s severity to about ±2.1 marks.")
        .says_nothing_of("Change the table");
}

#[tokio::test]
async fn head_changes_the_table() {
    let app = TestApp::new().await;
    let mut at = department(&app).await;
    let boxes = [
        ("up_to.1", "60"),
        ("size.1", "12"),
        ("up_to.3", " 10 "),
        ("size.3", ""),
        ("size.larger", "18"),
    ];
    at.head.post_staff(URL, &boxes).await.expect(303);
    let page = at.head.get(URL).await.expect(200);
    let table = page.part("<tbody>", "</tbody>").text;
    let words: Vec<&str> = table
        .split(['<', '>'])
        .filter(|part| {
            part.starts_with("up to")
                || part.chars().all(|c| c.is_ascii_digit())
                || ["all", "larger"].contains(part)
        })
        .filter(|part| !part.is_empty())
        .collect();
    assert_eq!(words, ["up to 10", "all", "up to 60", "12", "larger", "18"]);
}

#[tokio::test]
async fn bad_table_comes_back_as_typed_and_changes_nothing() {
    let app = TestApp::new().await;
    let mut at = department(&app).await;
    for (boxes, reason) in [
        ([("up_to.1", "ten"), ("size.1", "5")], "Type a whole number"),
        ([("up_to.1", "10"), ("size.1", "0")], "Type a whole number"),
        (
            [("up_to.1", ""), ("size.1", "5")],
            "Type for cohorts of up to",
        ),
        (
            [("up_to.1", "10"), ("up_to.2", "10")],
            "is in the table already",
        ),
        (
            [("up_to.1", "10"), ("size.larger", "1.5")],
            "Type a whole number",
        ),
    ] {
        let page = at.head.post_staff(URL, &boxes).await.expect(422);
        let page = page.says(reason).says("<details open>");
        for (name, value) in boxes {
            assert!(
                page.text.contains(&format!(
                    "name=\"{name}\" inputmode=\"numeric\" autocomplete=\"off\" value=\"{value}\""
                )),
                "{name}"
            );
        }
    }
    at.tarn
        .post_staff(URL, &[("size.larger", "1")])
        .await
        .expect(403);
    at.head
        .get(URL)
        .await
        .expect(200)
        .says("<th scope=\"row\">larger</th><td class=\"num\">25</td>");
}

/// First totals are 20, 11, 2 and 19 in both classes, second ones 20: the
/// differences are 0, 9, 18 and 1 twice over, their standard deviation √60.
#[tokio::test]
async fn widths_are_those_of_the_newest_round_that_is_shown() {
    let app = TestApp::new().await;
    let mut at = marked(&app).await;
    let round = at.make_round(&["Mrs Gill"]).await;
    at.draw(&round).await;
    mark_all(&mut at.gill, &round, |_, most| most).await;
    at.head
        .get(URL)
        .await
        .says("taken to have a standard deviation of 2.0 marks");
    at.gill
        .post_staff(&format!("{round}/show"), &[])
        .await
        .expect(303);
    at.head
        .get(URL)
        .await
        .expect(200)
        .says("In Autumn the two marks of a sheet differed with a standard deviation of 7.7 marks (8 sheets).")
        .says("With differences of SD 7.7 marks, six sheets fix a marker’s severity to about ±8.1 marks.");
}

/// 2.0 × t/√n for 6 and 24 degrees of freedom: 2.446912 and 2.063899.
#[tokio::test]
async fn sizes_of_the_departments_own_table_have_widths_too() {
    let app = TestApp::new().await;
    let mut head = app.teacher().await;
    let width = |n: usize, reach: &str| {
        format!("<th scope=\"row\" class=\"num\">{n}</th><td class=\"num\">{reach}</td>")
    };
    let page = head.get(URL).await.expect(200);
    assert_eq!(page.count(&width(7, "1.8")), 0);
    page.says(&width(25, "0.8"))
        .says("this one counts those of one marker");
    head.post_staff(URL, &[("size.larger", "7")])
        .await
        .expect(303);
    head.get(URL).await.expect(200).says(&width(7, "1.8"));
}
