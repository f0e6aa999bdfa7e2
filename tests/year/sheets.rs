//! What every figure of the year's pages leads to.

use super::{head, sheets_with};

#[tokio::test]
async fn figure_leads_to_just_so_many_sheets() {
    let mut head = head().await;
    let page = head.opens("/year/slips").await;
    let links = page.section("by-class").all("a[href^='/year/sheets?']");
    assert!(links.len() > 5, "{}", links.len());
    for link in links {
        let (figure, address) = (link.words(), link.attr("href"));
        let count = figure.split(" of ").next().unwrap().parse();
        let sheets = head.opens(address).await;
        let listed = sheets.count("aria-label=\"Sheet of group");
        assert_eq!(Ok(listed), count, "{address}");
    }
}

#[tokio::test]
async fn sheets_can_be_narrowed_down() {
    let mut head = head().await;
    let count = async |head: &mut crate::support::Browser, query: &str| {
        let page = head.opens(&format!("/year/sheets?{query}")).await;
        page.count("aria-label=\"Sheet of group")
    };
    assert_eq!(count(&mut head, "").await, 144);
    assert_eq!(count(&mut head, "method=ripple-tank").await, 72);
    assert_eq!(count(&mut head, "class=1").await, 24);
    assert_eq!(count(&mut head, "class=1&method=string-loops").await, 12);
    assert_eq!(count(&mut head, "kit=1").await, 24);
    assert_eq!(count(&mut head, "kit=1&method=string-loops").await, 0);
    // What means nothing finds nothing.
    assert_eq!(count(&mut head, "kit=%22%3E").await, 0);
    assert_eq!(count(&mut head, "slip=working").await, 0);
    assert_eq!(count(&mut head, "year=2025").await, 0);
}

#[tokio::test]
async fn sheet_in_the_list_is_the_sheet_behind_its_link() {
    let mut head = head().await;
    let (set, label) = sheets_with(&mut head, "working.scale-left-out")
        .await
        .remove(0);
    let sheet = head.get(&format!("/class-sets/{set}/sheets/{label}")).await;
    sheet.expect(200).says("nlargement left out");
}
