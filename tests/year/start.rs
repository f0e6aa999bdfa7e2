//! The first page of the year.

use super::{Department, PAGES, SMALL, head, store};
use crate::support::teacher;

#[tokio::test]
async fn year_stands_out_in_three_sentences() {
    let mut head = head().await;
    let page = head.opens("/year").await;
    let page = page
        .says("The year 2026/27")
        .says("24 class sets; 144 of 144 groups have handed in")
        .says("<a href=\"/year/kits?year=2026\">Kits</a>")
        .says("<a href=\"/year/slips?year=2026\">Slips</a>")
        .says("The commonest slip is “enlargement left out”:")
        .says("<a href=\"/year/classes?year=2026\">Classes</a>");
    // One lamp too low, one dial out.
    page.says(" reads ")
        .says("One other kit reads high or low too.");
    head.get("/class-sets")
        .await
        .says("<a href=\"/year\">The year</a>");
}

#[tokio::test]
async fn department_without_class_sets_is_told_so() {
    let mut head = teacher().await;
    head.opens("/year")
        .await
        .says("No group has handed in yet.")
        .says("There are no class sets in this school year.");
    for page in PAGES {
        head.opens(page).await;
    }
}

#[tokio::test]
async fn year_can_be_chosen_and_the_one_before_stands_beside_it() {
    let mut head = head().await;
    let sound = Department {
        lessons: 2,
        ..Department::SOUND
    };
    store(&head.app, &sound, 2025).await;
    head.opens("/year")
        .await
        .says("<option value=\"2026\" selected>2026/27</option>")
        .says("<option value=\"2025\">2025/26</option>")
        .says("In 2025/26: 12 class sets; 108 of 108 groups have handed in.");
    head.opens("/year?year=2025")
        .await
        .says("The year 2025/26")
        .says("12 class sets; 108 of 108 groups have handed in.")
        .says_nothing_of("In 2024/25");
}

#[tokio::test]
async fn newest_year_is_shown_where_this_one_has_no_class_set() {
    let mut head = teacher().await;
    store(&head.app, &SMALL, 2023).await;
    head.opens("/year").await.says("The year 2023/24");
    // Asked for, an empty year is shown.
    head.opens("/year?year=2026")
        .await
        .says("no class sets in this school year");
}

#[tokio::test]
async fn year_that_is_none_is_404() {
    let mut head = teacher().await;
    for year in ["soon", "-5", "20260", "2026.5"] {
        for page in PAGES {
            head.get(&format!("{page}?year={year}")).await.expect(404);
        }
    }
}
