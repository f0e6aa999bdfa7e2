//! One thing at a time, in the order of the work, of what is stored.

use analysis::slip::Slip;

use super::{sheets, told};
use crate::support::{Group, TestApp};

const CLEAR: &str = "Nothing in your working needs another look.";

/// Two rows whose wavelength is not divided by the enlargement, one that is
/// right, and a speed that is out by a power of ten.
const TWO_THINGS: [(&str, &str); 22] = [
    ("w.scale_true", "8.0"),
    ("unit.scale_true", "cm"),
    ("w.scale_image", "14.0"),
    ("unit.scale_image", "cm"),
    ("unit.span", "cm"),
    ("unit.wavelength", "cm"),
    ("unit.speed", "m/s"),
    ("r1.dial", "12"),
    ("r1.last_crest", "8"),
    ("r1.span", "22.4"),
    ("r1.wavelength", "2.80"),
    ("r2.dial", "16"),
    ("r2.last_crest", "8"),
    ("r2.span", "18.2"),
    ("r2.wavelength", "1.30"),
    ("r2.speed", "20.8"),
    ("r4.dial", "20"),
    ("r4.last_crest", "8"),
    ("r4.span", "16.8"),
    ("r4.wavelength", "2.10"),
    ("r2.first_crest", "0"),
    ("r4.first_crest", "0"),
];

/// The same with these boxes typed anew.
fn mended(anew: &[(&'static str, &'static str)]) -> Vec<(&'static str, &'static str)> {
    let new = |(name, old): &(&'static str, &'static str)| {
        let found = anew.iter().find(|(n, _)| n == name);
        found.copied().unwrap_or((name, old))
    };
    TWO_THINGS.iter().map(new).collect()
}

#[tokio::test]
async fn next_thing_is_shown_when_the_first_is_mended_and_saved() {
    let mut at = told(TestApp::new().await, "ripple-tank", "step").await;
    at.keeps("save", &TWO_THINGS).await;
    // Row 3 was left blank: what the group calls row 4 is the page's third.
    let page = at
        .look()
        .await
        .says("Look again at your wavelength in rows 1 and 4.")
        .leads("Go to row 1", &format!("{}#r1.wavelength", at.bench))
        .leads("Go to row 4", &format!("{}#r3.wavelength", at.bench))
        .says_nothing_of("speed");
    assert_eq!(page.count("Look again at"), 1, "{}", page.words());
    at.reads()
        .await
        .says("id=\"r3.wavelength\" name=\"r3.wavelength\" value=\"2.10\"");

    at.keeps("save", &mended(&[("r1.wavelength", "1.60")]))
        .await;
    at.look()
        .await
        .says("Look again at your wavelength in row 4.");

    let right = [("r1.wavelength", "1.60"), ("r4.wavelength", "1.20")];
    at.keeps("save", &mended(&right)).await;
    at.look().await.says("Look again at your speed in row 2.");

    let all = [
        ("r1.wavelength", "1.60"),
        ("r4.wavelength", "1.20"),
        ("r2.speed", "0.208"),
    ];
    at.keeps("save", &mended(&all)).await;
    at.look().await.says(CLEAR).says_nothing_of("Look again at");
}

#[tokio::test]
async fn slip_of_every_row_is_one_thing() {
    let mut at = told(TestApp::new().await, "ripple-tank", "step").await;
    at.sends_again(&Group::FORGETFUL, "hand_in").await;
    at.look()
        .await
        .says("Look again at your wavelength in every row.")
        .leads("Go to row 1", "#r1.wavelength");
}

#[tokio::test]
async fn remark_waits_until_no_slip_is_left() {
    let mut at = told(TestApp::new().await, "ripple-tank", "explain").await;
    let (_, mut boxes) = sheets::of(Slip::TooFewFigures);
    let (_, slip) = sheets::of(Slip::UnitPowerOfTen);
    let missing = slip
        .iter()
        .copied()
        .filter(|(n, _)| *n != "unit.wavelength");
    let missing: Vec<_> = missing.collect();
    at.keeps("save", &missing).await;
    at.look().await.says("Look again at your speed in row 1.");
    boxes.retain(|(name, _)| *name != "unit.wavelength");
    at.keeps("save", &boxes).await;
    at.look()
        .await
        .says("Look again at the unit of your wavelength in row 1.")
        .leads("Go to the unit", "#unit.wavelength");
    let (_, boxes) = sheets::of(Slip::TooFewFigures);
    at.keeps("save", &boxes).await;
    at.look()
        .await
        .says("Look again at how many figures you gave for your speed in row 1.");
}

#[tokio::test]
async fn slip_that_the_teacher_dismissed_is_not_shown() {
    let mut at = told(TestApp::new().await, "ripple-tank", "step").await;
    at.sends_again(&Group::FORGETFUL, "hand_in").await;
    let reason = "They measured in the water.";
    at.decides("slip-0", "dismissed", reason).await;
    at.look().await.says(CLEAR);
}

#[tokio::test]
async fn only_what_is_stored_is_looked_at() {
    let mut at = told(TestApp::new().await, "ripple-tank", "step").await;
    at.look().await.says("Nothing is stored on your sheet yet.");
    at.keeps("save", &[("r1.dial", "10")]).await;
    at.look()
        .await
        .says("There is no working on your sheet yet.")
        .says_nothing_of(CLEAR);
    // Sent but not kept: a box is wrong.
    let (_, mut boxes) = sheets::of(Slip::ScaleLeftOut);
    boxes.push(("r2.dial", "ten"));
    let draft = at.draft().await;
    at.send(&draft, "look_again", &boxes)
        .await
        .expect(422)
        .says("Save and look again at our working");
    at.look()
        .await
        .says("There is no working on your sheet yet.");
}

#[tokio::test]
async fn button_saves_and_leads_there_once() {
    let mut at = told(TestApp::new().await, "ripple-tank", "step").await;
    let (_, boxes) = sheets::of(Slip::ScaleLeftOut);
    for _ in 0..2 {
        let reply = at.keeps("look_again", &boxes).await;
        assert_eq!(reply.location(), format!("{}/look-again", at.bench));
    }
    assert_eq!(super::super::revisions(&at.app).await, 1);
    at.reads().await.says("Saved at 10:42. Not handed in yet.");
}

#[tokio::test]
async fn button_of_two_versions_goes_on_to_look_again() {
    let mut at = told(TestApp::new().await, "ripple-tank", "step").await;
    let draft = at.draft().await;
    let (_, boxes) = sheets::of(Slip::ScaleLeftOut);
    at.keeps("save", &[("r1.dial", "10")]).await;
    let page = at
        .pupil
        .send_sheet(&at.bench, &draft, "look_again", &boxes)
        .await;
    page.expect(409).says("name=\"act\" value=\"look_again\"");
}

#[tokio::test]
async fn uncertainty_that_does_not_agree_comes_before_remarks() {
    let mut at = told(TestApp::new().await, "ripple-tank", "explain").await;
    // Speeds of 0.192 and 0.208: half their range is 0.008.
    let (_, mut boxes) = sheets::of(Slip::MeanNotDivided);
    boxes.push(("unit.uncertainty", "m/s"));
    boxes.push(("w.uncertainty", "0.016"));
    at.keeps("save", &boxes).await;
    at.look().await.says("Look again at your mean speed.");
    boxes.retain(|(name, _)| *name != "w.mean_speed" && *name != "unit.wavelength");
    at.keeps("save", &boxes).await;
    at.look()
        .await
        .says("Look again at your uncertainty of the mean.")
        .says("Find your largest speed and your smallest one.")
        .leads("Go to", &format!("{}#w.uncertainty", at.bench))
        .says_nothing_of("0.008");
    boxes.retain(|(name, _)| *name != "w.uncertainty");
    boxes.push(("w.uncertainty", "0.008"));
    at.keeps("save", &boxes).await;
    at.look()
        .await
        .says("Look again at the unit of your wavelength in every row.");
}
