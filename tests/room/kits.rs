//! The kits in use, and whose an oddity is.

use crate::support::{Group, Lesson, Part, counted, lamp, tied};
use analysis::reading::{Cause, Finding};

/// Groups hand in, each with the kit beside it, and their readings suggest
/// this; the list of kits.
async fn kits(sheets: &[(&str, &'static str)], findings: &[(&str, Vec<Finding>)]) -> Part {
    let mut lesson = Lesson::new().await;
    for (label, kit) in sheets {
        let group = Group::CAREFUL.kit(kit);
        lesson.hands_in(&group, label).await;
    }
    lesson.suggest(findings).await;
    lesson.room_page().await.at("#kits + ul")
}

/// What is said of one kit.
fn of(list: &Part, kit: &str) -> String {
    let mut kits = list.all("li").into_iter();
    let named = kits.find(|line| line.at("strong").words() == kit);
    named.unwrap().words()
}

#[tokio::test]
async fn kits_are_listed_with_their_benches() {
    let sheets = [("A", "Tank 2"), ("B", ""), ("C", "Tank 1"), ("D", "Tank 2")];
    let list = kits(&sheets, &[]).await;
    let lines: Vec<_> = list.all("li").iter().map(Part::words).collect();
    let expected = [
        "Tank 1: bench C. Nothing odd.",
        "Tank 2: benches A, D. Nothing odd.",
        "No kit named: bench B.",
    ];
    assert_eq!(lines.len(), expected.len(), "{lines:?}");
    for (line, start) in lines.iter().zip(expected) {
        assert!(line.starts_with(start), "{line}");
    }
}

#[tokio::test]
async fn kit_is_one_however_it_is_spaced_and_spelled() {
    let sheets = [("A", "TANK 1"), ("B", "Tank  1"), ("C", "Tank 2")];
    let findings = [("A", vec![lamp(0.9)]), ("B", vec![lamp(0.88)])];
    let list = kits(&sheets, &findings).await;
    let first = of(&list, "TANK 1");
    assert!(first.starts_with("TANK 1: benches A, B."), "{first}");
    assert!(first.contains("lamp or screen moved"), "{first}");
    assert_eq!(list.count("lamp or screen moved"), 1, "{}", list.words());
}

#[tokio::test]
async fn fault_of_a_kit_is_told_from_a_groups_own_slip() {
    let sheets = [
        ("A", "Tank 1"),
        ("B", "Tank 1"),
        ("C", "Tank 2"),
        ("D", "Tank 2"),
    ];
    let findings = [
        ("A", vec![lamp(0.9)]),
        ("B", vec![lamp(0.88)]),
        ("D", vec![counted(0.9)]),
    ];
    let list = kits(&sheets, &findings).await;
    let first = of(&list, "Tank 1");
    assert!(first.contains("lamp or screen moved"), "{first}");
    assert!(first.contains("(inferred, 90 %)"), "{first}");
    assert!(
        first.contains(server::words::cause::ask(Cause::LampOff)),
        "{first}"
    );
    assert!(first.contains("The kit’s and not one group’s"), "{first}");
    let second = of(&list, "Tank 2");
    let own = "Bench D: the group’s own and not the kit’s, it seems: C shows nothing of the kind.";
    assert!(second.contains(own), "{second}");
}

#[tokio::test]
async fn one_bench_alone_is_said_to_be_all_that_there_is_to_go_by() {
    let sheets = [("A", "Tank 1"), ("B", "Tank 2"), ("C", "")];
    let findings = [
        ("A", vec![lamp(0.9)]),
        ("B", vec![counted(0.9)]),
        ("C", vec![lamp(0.9)]),
    ];
    let list = kits(&sheets, &findings).await;
    let first = of(&list, "Tank 1");
    assert!(first.contains("told from bench A alone"), "{first}");
    let second = of(&list, "Tank 2");
    assert!(
        second.contains("Bench B: the group’s own, it seems."),
        "{second}"
    );
    let unnamed = of(&list, "No kit named");
    assert!(
        unnamed.contains("bench C: lamp or screen moved"),
        "{unnamed}"
    );
    assert!(unnamed.contains("since no kit is named"), "{unnamed}");
}

#[tokio::test]
async fn what_may_be_either_is_said_to_be() {
    let either = tied(counted(0.9), Cause::DialOff);
    let sheets = [("A", "Tank 1"), ("B", "Tank 1")];
    let list = kits(&sheets, &[("A", vec![either])]).await;
    let said = of(&list, "Tank 1");
    let sentence = "Bench A: the group’s or the kit’s, the readings cannot tell.";
    assert!(said.contains(sentence), "{said}");
}

#[tokio::test]
async fn fault_below_the_threshold_of_the_bench_is_not_told() {
    let list = kits(&[("A", "Tank 1")], &[("A", vec![lamp(0.79)])]).await;
    assert!(of(&list, "Tank 1").contains("Nothing odd."));
}
