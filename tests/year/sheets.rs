//! What every figure of the year's pages leads to.

use super::{head, sheets_with};
use crate::support::TestApp;

#[tokio::test]
async fn figure_leads_to_just_so_many_sheets() {
    let app = TestApp::new().await;
    let mut head = head(&app).await;
    let page = head.get("/year/slips").await.expect(200);
    let table = page.between("Table of slips by class\"", "</table>");
    let mut followed = 0;
    for link in table
        .split("href=\"")
        .skip(1)
        .map(|l| l.split('"').next().unwrap())
    {
        if !link.contains("/year/sheets?") {
            continue;
        }
        let figure = table.split(link).nth(1).unwrap();
        let figure = figure.split('>').nth(1).unwrap();
        let count: usize = figure.split(" of ").next().unwrap().parse().unwrap();
        let sheets = head.get(&link.replace("&#38;", "&")).await.expect(200);
        assert_eq!(sheets.count("aria-label=\"Sheet of group"), count, "{link}");
        followed += 1;
    }
    assert!(followed > 5, "{followed}");
}

#[tokio::test]
async fn sheets_can_be_narrowed_down() {
    let app = TestApp::new().await;
    let mut head = head(&app).await;
    let count = async |head: &mut crate::support::Browser<'_>, query: &str| {
        let page = head.get(&format!("/year/sheets?{query}")).await.expect(200);
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
    let app = TestApp::new().await;
    let mut head = head(&app).await;
    let (set, label) = sheets_with(&mut head, "working.scale-left-out")
        .await
        .remove(0);
    let sheet = head.get(&format!("/class-sets/{set}/sheets/{label}")).await;
    sheet.expect(200).says("nlargement left out");
}
