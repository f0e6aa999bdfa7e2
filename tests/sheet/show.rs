use crate::support::{Group, Lesson, Part, teacher};

#[tokio::test]
async fn slip_on_every_row_is_said_once_with_the_arithmetic_written_out() {
    let mut at = Lesson::handed_in(&Group::FORGETFUL).await;
    let page = at.page("/sheets/A").await;
    assert_eq!(page.count("<li id=\"slip-"), 1, "{}", page.text);
    page.says("wavelength, every row")
        .says("The wavelength was not divided by the enlargement")
        .says("Row 1: 22.4 cm ÷ 8 = 2.80 cm; on the water 2.80 ÷ 1.75 = 1.60 cm; they have <strong>2.80 cm</strong>");
}

#[tokio::test]
async fn later_figures_are_judged_on_the_groups_own_wavelength() {
    let mut at = Lesson::handed_in(&Group::FORGETFUL).await;
    let working = at.page("/sheets/A").await.section("working");
    // Five wavelengths are wrong; the reciprocals and speeds follow from them.
    assert_eq!(working.count("does not agree"), 5, "{}", working.words());
    working
        .says("15.0 Hz × 0.0280 m = 0.420 m/s")
        .says("1 ÷ 0.0280 m = 35.7 1/m");
}

#[tokio::test]
async fn clean_sheet_is_said_to_be_clean() {
    let mut at = Lesson::handed_in(&Group::CAREFUL).await;
    let page = at.page("/sheets/A").await;
    page.says("No slip in the working.")
        .says_nothing_of("does not agree")
        .says("Handed in at 10:42");
}

#[tokio::test]
async fn readings_are_shown_as_typed_beside_what_follows() {
    let mut at = Lesson::handed_in(&Group::CAREFUL).await;
    let readings = at.page("/sheets/A").await.section("readings");
    let facts: Vec<_> = readings.all("dd").iter().map(Part::words).collect();
    assert!(facts.contains(&"14.0 cm".to_owned()), "{facts:?}");
    let rows = readings.all("tbody tr");
    for (at, (f, wavelength)) in Group::CAREFUL.points().into_iter().enumerate() {
        let figures: Vec<_> = rows[at].all("td.num").iter().map(Part::words).collect();
        let worked = [
            (f, 0.05),
            (100.0 * wavelength, 0.005),
            (1.0 / wavelength, 0.5),
            (f * wavelength, 0.0005),
        ];
        let last = figures.len() - worked.len();
        for (shown, (value, half_a_unit)) in figures[last..].iter().zip(worked) {
            let off = (shown.parse::<f64>().unwrap() - value).abs();
            assert!(
                off < 1.0001 * half_a_unit,
                "{shown} for {value}: {figures:?}"
            );
        }
    }
    readings.says("22.4 cm");
}

#[tokio::test]
async fn row_that_does_not_belong_is_said() {
    let group = Group::CAREFUL.odd(2, 1.3);
    let mut at = Lesson::handed_in(&group).await;
    let page = at.page("/sheets/A").await;
    assert_eq!(
        page.count("It does not belong with the others."),
        1,
        "{}",
        page.text
    );
    page.page()
        .with("tr", "It does not belong with the others.")
        .at("th")
        .says("3");
}

#[tokio::test]
async fn empty_sheet_says_so_and_leads_to_its_neighbours() {
    let mut at = Lesson::handed_in(&Group::CAREFUL).await;
    let page = at.page("/sheets/B").await;
    page.says("Nothing stored yet")
        .says(&format!("{}/sheets/A\">Group before: A", at.set))
        .says(&format!("{}/sheets/C\">Next group: C", at.set));
    at.page("/sheets/A").await.says_nothing_of("Group before");
    at.page("/sheets/D").await.says_nothing_of("Next group");
}

#[tokio::test]
async fn every_stored_version_is_in_the_history() {
    let mut at = Lesson::handed_in(&Group::FORGETFUL).await;
    at.app.clock.advance(60_000);
    at.sends_again(&Group::CAREFUL, "save").await;
    at.page("/sheets/A")
        .await
        .says("2 stored versions")
        .says("<li>Saved at 10:43 (shown here)</li>")
        .says("Handed in at 10:42</a></li>")
        .says("Handed in at 10:42, changed at 10:43.");
}

#[tokio::test]
async fn earlier_version_can_be_read_and_not_decided_on() {
    let mut at = Lesson::handed_in(&Group::FORGETFUL).await;
    at.sends_again(&Group::CAREFUL, "hand_in").await;
    at.page("/sheets/A")
        .await
        .says_nothing_of("enlargement left out");
    at.page("/sheets/A/versions/1")
        .await
        .says("This is an earlier version")
        .says("enlargement left out")
        .lacks("[name=verdict]")
        .lacks("[name=note]");
    at.teacher
        .get(&format!("{}/versions/3", at.sheet))
        .await
        .expect(404);
}

#[tokio::test]
async fn kit_text_is_shown_as_text() {
    let group = Group::CAREFUL.kit("<script>alert(1)</script>");
    let mut at = Lesson::handed_in(&group).await;
    for page in [at.sheet, format!("{}/summary", at.set)] {
        at.teacher
            .opens(&page)
            .await
            .says_nothing_of("<script>alert")
            .says("alert(1)");
    }
}

#[tokio::test]
async fn ripples_are_said_to_depend_on_frequency_and_strings_are_not() {
    let mut teacher = teacher().await;
    for (method, dial_row, is_water) in [
        ("ripple-tank", &[("r1.dial", "15"), ("r1.span", "2")], true),
        (
            "string-loops",
            &[("r1.dial", "40"), ("r1.length", "1.20")],
            false,
        ),
    ] {
        let (set, code) = teacher.make_class_set(method).await;
        let mut pupil = teacher.app.browser();
        pupil.take_bench(&code, "A").await;
        let url = format!("/c/{code}/A");
        pupil.keeps(&url, "hand_in", dial_row).await;
        for page in [format!("{set}/sheets/A"), format!("{set}/summary")] {
            let page = teacher.opens(&page).await;
            let says = page.text.contains("depends on their frequency");
            assert_eq!(says, is_water, "{}", page.text);
        }
    }
}

#[tokio::test]
async fn unknown_sheet_is_404() {
    let mut at = Lesson::handed_in(&Group::FORGETFUL).await;
    for path in ["sheets/E", "sheets/a", "sheets/AA"] {
        let page = at
            .teacher
            .get(&format!("{}/{path}", at.set))
            .await
            .expect(404);
        page.says("There is no such bench or version in this class set.");
    }
    at.teacher.get("/class-sets/x/sheets/A").await.expect(400);
}

#[tokio::test]
async fn sheet_without_working_is_not_praised_for_it() {
    let mut at = Lesson::at_bench().await;
    let url = at.bench.clone();
    let draft = at.pupil.open_sheet(&url).await;
    let boxes = [
        ("w.scale_image", "17.5"),
        ("unit.scale_image", "cm"),
        ("w.scale_true", "10.0"),
        ("unit.scale_true", "cm"),
        ("unit.span", "cm"),
        ("r1.dial", "10"),
        ("r1.first_crest", "0"),
        ("r1.last_crest", "10"),
        ("r1.span", "38.9"),
    ];
    let saved = at.pupil.send_sheet(&url, &draft, "save", &boxes).await;
    saved.expect(303);
    let sheet = at.page("/sheets/A").await;
    sheet
        .says("No working yet.")
        .says_nothing_of("No slip in the working");
    let summary = at.page("/summary").await;
    summary
        .says("no working yet")
        .says_nothing_of("no slip in the working");
}
