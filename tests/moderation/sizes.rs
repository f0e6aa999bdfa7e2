use super::department::department;
use crate::support::Part;

const URL: &str = "/moderation/sizes";

#[tokio::test]
async fn table_begins_with_common_practice() {
    let mut at = department().await;
    let page = at.tarn.opens(URL).await;
    page.says("<th scope=\"row\">up to 15</th><td class=\"num\">all</td>")
        .says("<th scope=\"row\">up to 100</th><td class=\"num\">15</td>")
        .says("<th scope=\"row\">up to 200</th><td class=\"num\">20</td>")
        .says("<th scope=\"row\">larger</th><td class=\"num\">25</td>")
        .says("nobody requires them here")
        .says_nothing_of("Change the table");
}

#[tokio::test]
async fn head_changes_the_table() {
    let mut at = department().await;
    let boxes = [
        ("up_to.1", "60"),
        ("size.1", "12"),
        ("up_to.3", " 10 "),
        ("size.3", ""),
        ("size.larger", "18"),
    ];
    at.head.sends(URL, &boxes).await;
    let page = at.head.opens(URL).await;
    let rows = page.at("tbody").all("tr");
    let cells: Vec<_> = rows.iter().flat_map(Part::cells).collect();
    assert_eq!(cells, ["up to 10", "all", "up to 60", "12", "larger", "18"]);
}

#[tokio::test]
async fn bad_table_comes_back_as_typed_and_changes_nothing() {
    let mut at = department().await;
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
    let mine = [("size.larger", "1")];
    at.tarn.post_staff(URL, &mine).await.expect(403);
    let page = at.head.opens(URL).await;
    page.says("<th scope=\"row\">larger</th><td class=\"num\">25</td>");
}
