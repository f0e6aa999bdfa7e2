//! What the readings suggest, on the page of a sheet.

use analysis::field::Field;
use analysis::reading::{Cause, Finding, Mended};

use crate::support::{Group, Lesson, Part, Reply, counted, finding, lamp, miscount, tied};

/// A careful group, of whom the readings are said to suggest this.
async fn suggested(findings: Vec<Finding>) -> Lesson {
    let mut at = Lesson::handed_in(&Group::CAREFUL).await;
    at.suggest(&[("A", findings)]).await;
    at
}

async fn section(at: &mut Lesson) -> Part {
    at.page("/sheets/A").await.section("suggested")
}

async fn decide(at: &mut Lesson, slip: &str, row: &str, verdict: &str, reason: &str) -> Reply {
    let revision = at.page("/sheets/A").await.hidden("revision");
    let boxes = [
        ("revision", revision.as_str()),
        ("step", "last_crest"),
        ("slip", slip),
        ("row", row),
        ("verdict", verdict),
        ("reason", reason),
    ];
    at.posts("/sheets/A/decision", &boxes).await
}

#[tokio::test]
async fn finding_says_what_why_how_sure_and_what_else() {
    let mut at = suggested(vec![miscount(0.917)]).await;
    section(&mut at)
        .await
        .says("row 3: count out by one wave")
        .says("Inferred, 92 %.")
        .says("would fit the others if 9 waves were counted, not 10.")
        .says("As written, the wavelength of row 3 is 11 % short")
        .says("The next best explanation: ruler’s end used for its zero (3 %).")
        .says("Mended, the sheet would give 0.234 m/s, and its rows would agree with one another and with what is expected.")
        .says("Probability that the group made no slip in its readings: 12 %.")
        .says_nothing_of("Less likely");
}

#[tokio::test]
async fn mending_that_would_not_do_is_said() {
    let finding = Finding {
        rival: None,
        mended: Some(Mended {
            speed: 0.301,
            in_line: false,
        }),
        ..counted(0.7)
    };
    let mut at = suggested(vec![finding]).await;
    section(&mut at)
        .await
        .says("every row: count begun at one")
        .says("0.301 m/s, but its rows would still not agree")
        .says_nothing_of("next best");
}

#[tokio::test]
async fn two_that_cannot_be_told_apart_are_said_to_be() {
    let tie = tied(counted(0.9), Cause::ZeroError);
    let mut at = suggested(vec![tie]).await;
    section(&mut at)
        .await
        .says("one of these two: every row: count begun at one; or ruler’s end used for its zero")
        .says("90 % for the two together: the readings cannot tell one from the other.")
        .says_nothing_of("next best");
}

#[tokio::test]
async fn less_likely_findings_are_folded_away() {
    let mut at = suggested(vec![miscount(0.5), counted(0.494)]).await;
    let section = section(&mut at).await;
    let folded = section.at("details:not([open])");
    folded
        .says("Less likely")
        .says("count begun at one")
        .says_nothing_of("row 3: count out");
    assert_eq!(section.count("row 3: count out"), 1, "in sight");
}

#[tokio::test]
async fn fault_of_the_apparatus_is_not_the_groups() {
    let mut at = suggested(vec![lamp(0.8)]).await;
    section(&mut at)
        .await
        .says("This would be the apparatus, not the group.")
        .says_nothing_of("Mended");
}

#[tokio::test]
async fn sheet_of_which_nothing_is_suggested_says_so() {
    let mut at = suggested(Vec::new()).await;
    section(&mut at)
        .await
        .says("Nothing in the readings looks like a slip at the bench.");
}

#[tokio::test]
async fn confirmed_finding_says_who_confirmed_it_and_stays() {
    let mut at = suggested(vec![miscount(0.9)]).await;
    let reply = at.decides("suggested-0", "confirmed", "").await;
    assert_eq!(reply.location(), format!("{}#suggested-0", at.sheet));
    section(&mut at).await.says("Confirmed by Ms Fell");
    at.page("/summary")
        .await
        .says("row 3: count out by one wave")
        .says("Confirmed.");
}

#[tokio::test]
async fn dismissed_finding_is_shown_as_dismissed_and_leaves_the_summary() {
    let mut at = suggested(vec![miscount(0.9)]).await;
    at.decides("suggested-0", "dismissed", "we counted together")
        .await;
    section(&mut at)
        .await
        .says("Dismissed by Ms Fell: we counted together");
    at.page("/summary")
        .await
        .says("dismissed: row 3: count out by one wave")
        .lacks(".slip.inferred")
        .lacks("#visits");
}

#[tokio::test]
async fn decision_on_one_row_does_not_reach_another() {
    let other = finding(Cause::CrestMiscount, Some(4), Field::LastCrest, 0.8);
    let mut at = suggested(vec![miscount(0.9), other]).await;
    at.decides("suggested-1", "dismissed", "seen it").await;
    at.page("/summary")
        .await
        .says("<li class=\"slip inferred\">row 3: count out by one wave")
        .says("dismissed: row 5: count out by one wave");
}

fn zero_or_lamp(first: Cause, twin: Cause) -> Finding {
    tied(finding(first, None, Field::ScaleImage, 0.9), twin)
}

#[tokio::test]
async fn decision_on_either_of_two_counts_when_the_other_becomes_the_likelier() {
    for (first, twin) in [
        (Cause::LampOff, Cause::ZeroError),
        (Cause::ZeroError, Cause::LampOff),
    ] {
        let mut at = suggested(vec![zero_or_lamp(first, twin)]).await;
        at.decides("suggested-0", "dismissed", "both measured again")
            .await;
        let flipped = zero_or_lamp(twin, first);
        at.suggest(&[("A", vec![flipped])]).await;
        section(&mut at)
            .await
            .says("Dismissed by Ms Fell: both measured again");
        at.page("/summary")
            .await
            .lacks("#visits")
            .lacks(".slip.inferred");

        let alone = Finding {
            is_tie: false,
            ..zero_or_lamp(twin, first)
        };
        at.suggest(&[("A", vec![alone])]).await;
        section(&mut at).await.says_nothing_of("Dismissed by");
    }
}

#[tokio::test]
async fn form_that_names_what_was_the_likelier_of_two_is_taken() {
    let tie = zero_or_lamp(Cause::ZeroError, Cause::LampOff);
    let mut at = suggested(vec![miscount(0.95), tie]).await;
    let reply = {
        let revision = at.page("/sheets/A").await.hidden("revision");
        let boxes = [
            ("revision", revision.as_str()),
            ("step", "scale_image"),
            ("slip", "lamp-off"),
            ("row", ""),
            ("verdict", "confirmed"),
        ];
        let decision = format!("{}/decision", at.sheet);
        at.teacher.post_staff(&decision, &boxes).await
    };
    assert_eq!(
        reply.expect(303).location(),
        format!("{}#suggested-1", at.sheet)
    );
    section(&mut at)
        .await
        .says("Confirmed by Ms Fell")
        .says("One of them would be the apparatus, not the group.");
}

#[tokio::test]
async fn dismissing_without_a_reason_comes_back_unfolded() {
    let mut at = suggested(vec![miscount(0.9), counted(0.2)]).await;
    let page = at.sends_word("suggested-1", "dismissed", " ").await;
    page.expect(422)
        .at("details[open] #reason-suggested-1-error")
        .says("Say why it is no slip.");
}

#[tokio::test]
async fn finding_that_is_not_there_cannot_be_decided() {
    let mut at = suggested(vec![miscount(0.9)]).await;
    for (slip, row) in [
        ("crest-miscount", ""),
        ("crest-miscount", "4"),
        ("counted-from-one", "3"),
        ("", ""),
    ] {
        decide(&mut at, slip, row, "dismissed", "no")
            .await
            .expect(404);
    }
}

#[tokio::test]
async fn earlier_version_says_that_nothing_is_inferred_of_it() {
    let mut at = suggested(vec![miscount(0.9)]).await;
    let again = Group::CAREFUL.level(1.01);
    at.sends_again(&again, "hand_in").await;
    at.suggest(&[("A", vec![counted(0.9)])]).await;
    at.page("/sheets/A/versions/1")
        .await
        .says("an earlier version has none of this")
        .lacks(".slip.inferred");
    at.page("/sheets/A/versions/2")
        .await
        .says("count begun at one");
}

#[tokio::test]
async fn pupils_are_told_nothing_of_it() {
    let mut at = suggested(vec![miscount(0.95)]).await;
    for page in [at.bench.clone(), at.bench[..8].to_owned()] {
        let page = at.pupil.opens(&page).await;
        page.says_nothing_of("Look again")
            .says_nothing_of("count out by one wave")
            .says_nothing_of("nferred");
    }
}
