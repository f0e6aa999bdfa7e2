//! What the readings suggest, in the class summary.

use analysis::field::Field;
use analysis::reading::{Cause, Finding};

use crate::support::{Group, Lesson, Part, counted, finding, lamp, miscount, tied};

const LAMP_MOVED: &str = "as when the lamp or the screen has moved";

/// Groups A, B and C hand in, each with the kit beside it, and their readings
/// are said to suggest this.
async fn class_of_three(kits: [&'static str; 3], findings: &[(&str, Vec<Finding>)]) -> Lesson {
    let mut at = Lesson::new().await;
    for (label, kit) in ["A", "B", "C"].into_iter().zip(kits) {
        at.hands_in(&Group::CAREFUL.kit(kit), label).await;
    }
    at.suggest(findings).await;
    at
}

#[tokio::test]
async fn probable_slip_is_worth_a_visit_and_the_most_probable_comes_first() {
    let findings = [
        ("A", vec![miscount(0.796), counted(0.10)]),
        ("B", vec![counted(0.95)]),
        ("C", vec![miscount(0.794)]),
    ];
    let mut at = class_of_three(["Tank 1", "Tank 2", ""], &findings).await;
    let page = at.page("/summary").await;
    let visits = page
        .section("visits")
        .says("Worth a visit while the apparatus is up")
        .says("80 % or more probable")
        .says("would fit the others if 9 waves were counted, not 10.")
        .says("row 3: count out by one wave")
        .says("Inferred, 80 %")
        .says_nothing_of("10 %");
    let benches: Vec<_> = visits.all("h3 a").iter().map(Part::words).collect();
    assert_eq!(benches, ["B", "A"]);
}

#[tokio::test]
async fn shown_and_inferred_slips_are_told_apart_by_word_and_by_class() {
    let mut at = Lesson::new().await;
    at.hands_in(&Group::FORGETFUL, "A").await;
    at.suggest(&[("A", vec![miscount(0.62)])]).await;
    let page = at.page("/summary").await;
    let groups = page.lacks("#visits").section("groups");
    groups
        .at("li .slip.shown")
        .says("wavelength, every row: enlargement left out");
    groups
        .at("li.slip.inferred")
        .says("row 3: count out by one wave (inferred, 62 %)");
    groups.says("An open mark: inferred");
}

#[tokio::test]
async fn finding_below_the_threshold_is_not_in_the_summary() {
    let findings = [("A", vec![miscount(0.49)])];
    let mut at = class_of_three([""; 3], &findings).await;
    at.page("/summary")
        .await
        .lacks(".slip.inferred")
        .says("no slip in the working");
    let thresholds = [("bench", "60"), ("summary", "40")];
    at.does("/thresholds", &thresholds).await;
    at.page("/summary")
        .await
        .says("(inferred, 49 %)")
        .lacks("#visits");
}

#[tokio::test]
async fn two_that_look_alike_are_named_together() {
    let tie = tied(counted(0.9), Cause::ZeroError);
    let mut at = class_of_three([""; 3], &[("B", vec![tie])]).await;
    at.page("/summary")
        .await
        .says("one of these two: every row: count begun at one; or ruler’s end used for its zero");
}

#[tokio::test]
async fn fault_of_a_kit_is_told_once_and_accuses_no_group() {
    let findings = [
        ("A", vec![lamp(0.86)]),
        ("B", vec![lamp(0.84)]),
        ("C", vec![lamp(0.30)]),
    ];
    let mut at = class_of_three(["Tank 1", "Tank 1", "Tank 2"], &findings).await;
    let page = at.page("/summary").await;
    assert_eq!(page.count(LAMP_MOVED), 1, "{}", page.text);
    for name in ["groups", "slips"] {
        page.section(name).says_nothing_of("amp or screen");
    }
    page.section("visits")
        .says("The apparatus may want a look: Tank 1.");
    let kits = page.section("kits");
    let links: Vec<_> = kits.all("a[href*='/sheets/']");
    let links: Vec<_> = links.iter().map(|link| link.attr("href")).collect();
    assert_eq!(
        links,
        ["A", "B"].map(|of| format!("{}/sheets/{of}#suggested", at.set))
    );
    kits.says("Tank 1: lamp or screen moved")
        .says("Inferred, 86 %. Used by groups")
        .says_nothing_of("Tank 2: lamp");
}

#[tokio::test]
async fn groups_that_name_no_kit_do_not_share_a_fault() {
    let findings = [("A", vec![lamp(0.6)]), ("B", vec![lamp(0.7)])];
    let mut at = class_of_three([""; 3], &findings).await;
    let page = at.page("/summary").await;
    let kits = page.section("kits");
    assert_eq!(kits.count(LAMP_MOVED), 2, "{}", kits.words());
    assert_eq!(kits.count("Used by group "), 2, "{}", kits.words());
}

#[tokio::test]
async fn fault_that_was_dismissed_on_the_sheet_of_one_group_is_told_no_more() {
    let findings = [("A", vec![lamp(0.86)]), ("B", vec![lamp(0.84)])];
    let mut at = class_of_three(["Tank 1", "Tank 1", "Tank 1"], &findings).await;
    on_lamp(&mut at, "B", "dismissed").await;
    at.page("/summary").await.says_nothing_of("lamp-off");
}

/// The teacher's word on a moved lamp, at the sheet of one group.
async fn on_lamp(at: &mut Lesson, label: &str, verdict: &str) {
    let sheet = format!("/sheets/{label}");
    let form = at.page(&sheet).await.at("#suggested-0 form");
    let boxes = [
        ("verdict", verdict),
        ("reason", "I measured the object myself"),
    ];
    at.teacher.fill(&form, &boxes).await.expect(303);
}

#[tokio::test]
async fn word_on_a_kit_holds_for_every_group_of_the_kit_until_a_newer_one() {
    let findings = [
        ("A", vec![lamp(0.86)]),
        ("B", vec![lamp(0.84)]),
        ("C", vec![lamp(0.82)]),
    ];
    let mut at = class_of_three(["Tank 1", "Tank 1", "Tank 2"], &findings).await;
    on_lamp(&mut at, "B", "dismissed").await;
    at.page("/sheets/A")
        .await
        .says("What you decide counts for every sheet of Tank 1 in this class set.")
        .says("<strong>Dismissed</strong> by Ms Fell on the sheet of group B, with the same kit: I measured");
    at.page("/sheets/C")
        .await
        .says_nothing_of("Dismissed</strong>");
    at.page("/summary")
        .await
        .says_nothing_of("Tank 1: lamp or screen moved")
        .says("Tank 2: lamp or screen moved");
    on_lamp(&mut at, "A", "confirmed").await;
    at.page("/sheets/B")
        .await
        .says("<strong>Confirmed</strong> by Ms Fell on the sheet of group A");
    at.page("/summary")
        .await
        .says("Tank 1: lamp or screen moved")
        .says("Inferred, 86 %. Confirmed. Used by groups");
}

#[tokio::test]
async fn kit_is_the_same_however_it_is_spaced_and_spelled() {
    let findings = [("A", vec![lamp(0.86)]), ("B", vec![lamp(0.84)])];
    let mut at = class_of_three(["Tank 1", " tank  1", "Tank 2"], &findings).await;
    let summary = at.url("/summary");
    let page = at.teacher.opens(&summary).await;
    let page = page
        .says("Tank 1: lamp or screen moved")
        .says_nothing_of("tank  1: lamp or screen moved");
    page.section("kits")
        .says("Tank 1")
        .says_nothing_of("tank 1");
    on_lamp(&mut at, "B", "dismissed").await;
    at.page("/sheets/A")
        .await
        .says("<strong>Dismissed</strong> by Ms Fell on the sheet of group B, with the same kit");
    let page = at.teacher.opens(&summary).await;
    page.says_nothing_of("ank 1: lamp or screen moved");
}

#[tokio::test]
async fn groups_without_a_kit_hear_nothing_of_each_other() {
    let findings = [("A", vec![lamp(0.86)]), ("B", vec![lamp(0.84)])];
    let mut at = class_of_three([""; 3], &findings).await;
    on_lamp(&mut at, "B", "dismissed").await;
    at.page("/sheets/A")
        .await
        .says_nothing_of("Dismissed</strong>")
        .says_nothing_of("counts for every sheet");
    let page = at.page("/summary").await;
    assert_eq!(page.count(LAMP_MOVED), 1, "{}", page.text);
}

#[tokio::test]
async fn two_faults_of_a_kit_are_told_once_whichever_is_the_likelier() {
    let dial = finding(Cause::DialOff, None, Field::Dial, 0.84);
    let findings = [
        ("A", vec![tied(lamp(0.86), Cause::DialOff)]),
        ("B", vec![tied(dial, Cause::LampOff)]),
    ];
    let mut at = class_of_three(["Tank 1", "Tank 1", "Tank 2"], &findings).await;
    let page = at.page("/summary").await;
    assert_eq!(page.count("Tank 1: one of these two"), 1, "{}", page.text);
    on_lamp(&mut at, "A", "dismissed").await;
    at.page("/summary")
        .await
        .says_nothing_of("one of these two");
}

#[tokio::test]
async fn what_may_be_the_group_or_the_kit_is_worth_a_visit_to_the_group() {
    let findings = [
        ("A", vec![tied(lamp(0.9), Cause::ZeroError)]),
        ("B", vec![lamp(0.9)]),
    ];
    let mut at = class_of_three(["Tank 1", "Tank 1", "Tank 2"], &findings).await;
    on_lamp(&mut at, "B", "dismissed").await;
    let summary = at.url("/summary");
    let page = at.teacher.opens(&summary).await;
    page.says_nothing_of("not the groups’ doing")
        .section("visits")
        .at("a[aria-label='What the readings of bench A suggest']");
    let page = at.teacher.get(&summary).await;
    page.section("slips")
        .says("One of these two: ruler’s end used for its zero; or lamp or screen moved");
}

#[tokio::test]
async fn slips_to_reteach_count_inferred_ones_apart_from_shown_ones() {
    let findings = [
        ("A", vec![counted(0.9)]),
        ("B", vec![counted(0.6), miscount(0.55)]),
        ("C", vec![counted(0.2)]),
    ];
    let mut at = class_of_three([""; 3], &findings).await;
    let page = at.page("/summary").await;
    let slips = page
        .section("slips")
        .says("None that the groups’ own figures show.")
        .says("Count begun at one")
        .says("2 groups, inferred:")
        .says("Count out by one wave")
        .says("1 group, inferred:");
    let slips = slips.lacks("a[href$='/sheets/C']");
    let words = slips.words();
    assert!(
        words.find("Count begun") < words.find("Count out"),
        "commonest first"
    );
}

#[tokio::test]
async fn closed_class_set_has_no_apparatus_up() {
    let mut at = class_of_three([""; 3], &[]).await;
    at.closes().await;
    at.suggest(&[("A", vec![miscount(0.9)])]).await;
    for page in ["/summary", "/sheets/A"] {
        let page = at.page(page).await;
        page.says("<p>Row 3 would fit the others")
            .says_nothing_of("is up");
    }
    let summary = at.page("/summary").await;
    summary.says("What may have happened at the bench");
}

#[tokio::test]
async fn declared_shared_readings_are_shown_beside_the_group() {
    let mut at = Lesson::at_bench().await;
    let url = at.bench.clone();
    let boxes = [("r1.dial", "10"), ("shared", " group <B> ")];
    at.pupil.keeps(&url, "save", &boxes).await;
    at.page("/summary")
        .await
        .says("readings said to be shared: group &#60;B&#62;");
    at.page("/sheets/A")
        .await
        .says("The group says that these readings are shared: group &#60;B&#62;.");
}
