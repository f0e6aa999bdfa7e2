//! What a group says in its own words.

use super::{BOXES, revisions};
use crate::support::Lesson;

/// Names of the three boxes.
const NAMES: [&str; 3] = ["words.method", "words.conclusion", "words.evaluation"];

#[tokio::test]
async fn words_are_kept_with_one_kind_of_line_end_and_shown_again() {
    let mut at = Lesson::at_bench().await;
    let boxes = [
        (
            "words.method",
            "\r\nFirst we <filled> the tank.\r\n\r\nThen…",
        ),
        ("words.evaluation", "Good & bad"),
    ];
    at.keeps("hand_in", &boxes).await;
    let page = at.reads().await.page();
    let typed = "\nFirst we <filled> the tank.\n\nThen…";
    assert_eq!(page.value("words.method"), typed);
    assert_eq!(page.value("words.evaluation"), "Good & bad");
    let body: String = at.app.one("SELECT body FROM revision").await;
    assert!(!body.contains("\\r"), "{body}");
    assert!(!body.contains("conclusion"), "not given: {body}");
}

#[tokio::test]
async fn sheet_with_words_alone_is_handed_in_and_blanks_alone_are_not() {
    let mut at = Lesson::at_bench().await;
    let draft = at.draft().await;
    let blank = [("words.method", " \r\n\t ")];
    at.send(&draft, "hand_in", &blank)
        .await
        .expect(422)
        .says("Nothing to keep yet");
    let words = [("words.conclusion", "Waves.")];
    at.send(&draft, "hand_in", &words).await.expect(303);
    assert_eq!(revisions(&at.app).await, 1);
}

#[tokio::test]
async fn same_words_sent_with_other_line_ends_are_one_version() {
    let mut at = Lesson::at_bench().await;
    for text in ["a\r\nb", "a\nb", "a\rb"] {
        at.keeps("save", &[("words.method", text)]).await;
    }
    assert_eq!(revisions(&at.app).await, 1);
}

#[tokio::test]
async fn words_that_cannot_be_kept_come_back_whole_with_a_sentence_beside_the_box() {
    let mut at = Lesson::at_bench().await;
    let draft = at.draft().await;
    let long = "é".repeat(3001);
    for name in NAMES {
        for (text, reason) in [
            (long.as_str(), "3001 characters long"),
            ("bell\u{7}", "cannot be shown"),
            ("\u{1b}[2J", "cannot be shown"),
        ] {
            let boxes = [("r1.dial", "10"), ("kit", "Tank 3"), (name, text)];
            let page = at.send(&draft, "save", &boxes).await.expect(422);
            page.says("Nothing is saved yet: put this box right")
                .says(&format!("<a href=\"#{name}\">"))
                .says(&format!("id=\"{name}-error\""))
                .says(&format!(
                    "aria-describedby=\"{name}-hint {name}-error\" aria-invalid=\"true\""
                ))
                .says(reason)
                .says(&format!(">\n{text}</textarea>"))
                .says("name=\"r1.dial\" value=\"10\"");
        }
    }
    assert_eq!(revisions(&at.app).await, 0);
}

#[tokio::test]
async fn nothing_is_complained_of_while_rows_are_added() {
    let mut at = Lesson::at_bench().await;
    let draft = at.draft().await;
    let long = "x".repeat(3001);
    at.send(&draft, "rows", &[("words.method", &long)])
        .await
        .expect(200)
        .says(&long)
        .says_nothing_of("words.method-error");
}

#[tokio::test]
async fn three_longest_answers_and_every_row_fit_into_one_form() {
    let mut at = Lesson::at_bench().await;
    let line = "It’s repeatable, we think: “0.21 m/s” (±0.02) again.\n";
    let long: String = line.chars().cycle().take(3000).collect();
    let long = long.replace('\n', "\r\n");
    let rows: Vec<_> = (1..=40)
        .flat_map(|row| {
            BOXES[5..].iter().filter_map(move |(name, text)| {
                let name = name.strip_prefix("r1")?;
                Some((format!("r{row}{name}"), *text))
            })
        })
        .collect();
    let mut boxes: Vec<_> = rows.iter().map(|(n, t)| (n.as_str(), *t)).collect();
    boxes.extend(NAMES.map(|name| (name, long.as_str())));
    at.keeps("hand_in", &boxes).await;
    assert_eq!(revisions(&at.app).await, 1);
}

#[tokio::test]
async fn versions_that_differ_in_words_are_shown_side_by_side() {
    let mut at = Lesson::at_bench().await;
    let first = at.draft().await;
    let both = [
        ("words.method", "the same"),
        ("words.conclusion", "one\r\ntwo"),
    ];
    at.send(&first, "save", &both).await.expect(303);
    let other = [("words.method", "the same"), ("words.conclusion", "three")];
    let page = at.send(&first, "save", &other).await.expect(409);
    let page = page
        .says("<th scope=\"row\">What you found</th><td>one\ntwo</td><td>three</td>")
        .says("<th scope=\"row\">How you measured</th><td>the same</td>");
    assert_eq!(page.hidden("words.conclusion"), "three");
}

#[tokio::test]
async fn words_that_were_not_kept_are_shown() {
    let mut at = Lesson::at_bench().await;
    let draft = at.draft().await;
    let words = [("words.evaluation", "a\r\nb")];
    at.app
        .browser()
        .send_sheet(&at.bench, &draft, "save", &words)
        .await
        .expect(403)
        .says("<th scope=\"row\">What was good and what was not</th><td>a\nb</td>");
    at.send(&draft, "save", &words).await.expect(303);
    at.closes().await;
    at.reads().await.says("<td>a\nb</td>");
}

#[tokio::test]
async fn uncertainty_stands_after_the_mean_with_its_sign() {
    let mut at = Lesson::at_bench().await;
    let draft = at.draft().await;
    // Two speeds that are alike differ by nought.
    let boxes = [("w.uncertainty", "0.00"), ("unit.uncertainty", "m/s")];
    at.send(&draft, "save", &boxes).await.expect(303);
    let page = at.reads().await;
    let part = page.section("part-4");
    let boxes = part.all("input[name^='w.']");
    let boxes: Vec<_> = boxes.iter().map(|field| field.attr("name")).collect();
    assert_eq!(boxes, ["w.mean_speed", "w.uncertainty", "w.gradient"]);
    part.at("span:has(+ [name='w.uncertainty'])").says("±");
    at.send(&draft, "save", &[("w.uncertainty", "0.01")])
        .await
        .expect(409)
        .says("<td>±0.00 m/s</td><td>±0.01</td>");
}
