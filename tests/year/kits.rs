//! The kits of a year.

use server::db::decision::Verdict;

use super::{Department, SMALL, decide, head, head_of, store};
use crate::support::{Group, Lesson};

#[tokio::test]
async fn kit_that_reads_high_is_named_with_its_lessons_and_what_to_check() {
    let department = Department {
        lamp: 0.09,
        ..SMALL
    };
    let mut head = head_of(&department).await;
    let page = head.opens("/year/kits").await;
    page.says("Tank 2 reads ")
        .says(" % high in twelve lessons of twelve: check the lamp’s height.")
        .says("Generator 3 reads ")
        .says(": check its dial against a counted frequency.")
        .says("Tank 1 reads neither high nor low.")
        .says("Each is compared with the middle one of the three tanks that have enough lessons.");
}

#[tokio::test]
async fn sound_kits_are_said_to_agree() {
    let mut head = head_of(&Department::SOUND).await;
    let page = head.opens("/year/kits").await;
    assert_eq!(
        page.count(" reads neither high nor low."),
        9,
        "{}",
        page.text
    );
    page.says_nothing_of(": check ");
    head.get("/year")
        .await
        .says("None of the nine kits with enough lessons reads high or low.");
}

#[tokio::test]
async fn kit_of_few_lessons_says_nothing() {
    let mut at = Lesson::new().await;
    let listed = [("label", "Tank 7"), ("kind", "tank")];
    at.teacher.sends("/kits", &listed).await;
    let group = Group::CAREFUL.kit("Tank 7").level(1.2);
    at.hands_in(&group, "A").await;
    at.teacher
        .opens("/year/kits")
        .await
        .says("Tank 7: 1 sheet from 1 lesson, too few to say.");
    at.teacher
        .get("/year")
        .await
        .says("No kit has been used in enough lessons yet");
}

#[tokio::test]
async fn kit_has_its_sheets_in_date_order_each_with_its_address() {
    let mut head = head().await;
    let page = head.opens("/year/kits/2").await;
    let order = page.section("order");
    // Two groups of six at each of three tanks, in two lessons of six classes.
    for each in [
        "figure.graph .cross, figure.graph .left-out",
        "tbody tr",
        "tbody a[href*='/sheets/']",
    ] {
        assert_eq!(order.all(each).len(), 24, "{each}");
    }
    let page = page.says("+3 s").says("−2 s").says("compared with");
    page.says("The same factor at all frequencies: it looks like the lamp or the screen");
}

#[tokio::test]
async fn sheet_with_a_confirmed_slip_is_taken_out_and_said_to_be() {
    let department = Department {
        counts_from_one: 0.5,
        ..SMALL
    };
    let mut head = head_of(&department).await;
    for kit in 1..=3 {
        head.opens(&format!("/year/kits/{kit}"))
            .await
            .says("with a confirmed slip in the readings")
            .says("taken out: a slip in its readings was confirmed");
    }
}

#[tokio::test]
async fn year_before_stands_beside_a_kit() {
    let mut head = head().await;
    store(&head.app, &Department::SOUND, 2025).await;
    let page = head.get("/year/kits").await.page();
    let last = page.with("tbody tr", "Tank 2").cells().pop().unwrap();
    assert!(last.contains("low") || last.contains("high"), "{last}");
    let page = head.opens("/year/kits?year=2025").await;
    page.says("Tank 2 reads neither high nor low.");
}

#[tokio::test]
async fn sheet_that_names_two_kits_counts_for_both() {
    let mut head = head().await;
    let both = head.opens("/year/sheets?kit=7&method=string-loops").await;
    both.says("String 1, Generator ");
    let generators = [4, 5, 6];
    let mut found = 0;
    for kit in generators {
        let page = head.opens(&format!("/year/sheets?kit={kit}")).await;
        found += page.count("aria-label=\"Sheet of group");
    }
    // Every string's sheet names a generator.
    assert_eq!(found, 72);
}

#[tokio::test]
async fn kit_that_is_none_is_404() {
    let mut head = head().await;
    head.get("/year/kits/99").await.expect(404);
    head.get("/year/kits/tank").await.expect(400);
}

#[tokio::test]
async fn sheet_whose_readings_were_mended_after_the_word_counts_again() {
    let mut at = Lesson::new().await;
    let listed = [("label", "Tank 7"), ("kind", "tank")];
    at.teacher.sends("/kits", &listed).await;
    let at_tank = Group::CAREFUL.kit("Tank 7");
    let slipped = at_tank.clone().level(0.8);
    let (mut pupil, url) = at.hands_in(&slipped, "A").await;
    let set = at.set.rsplit('/').next().unwrap();
    let counted = ("last_crest", "counted-from-one");
    decide(&at.app, (set, "A"), counted, Verdict::Confirmed).await;
    let taken_out = "1 sheet with a confirmed slip in the readings was taken out first.";
    at.teacher.opens("/year/kits/1").await.says(taken_out);
    // Other working leaves the slip in the readings; other readings mend it.
    let reworked = Group {
        leaves_scale_out: true,
        ..slipped
    };
    reworked.sends_again("hand_in", &mut pupil, &url).await;
    at.teacher.opens("/year/kits/1").await.says(taken_out);
    at_tank.sends_again("hand_in", &mut pupil, &url).await;
    at.teacher
        .opens("/year/kits/1")
        .await
        .says_nothing_of("taken out");
    // It was made all the same.
    at.teacher
        .opens("/year/slips")
        .await
        .says("count begun at one");
}
