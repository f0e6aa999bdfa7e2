use crate::support::{Group, Lesson, Reply};

async fn note(pile: &mut Lesson, boxes: &[(&str, &str)]) -> Reply {
    let url = format!("{}/notes", pile.marking("A"));
    pile.teacher.post_staff(&url, boxes).await
}

#[tokio::test]
async fn note_is_for_the_group_unless_it_is_for_the_staff() {
    let mut pile = Lesson::handed_in(&Group::FORGETFUL).await;
    let boxes = [("row", "2"), ("step", "wavelength"), ("note", "Divide.")];
    note(&mut pile, &boxes).await.expect(303);
    let boxes = [("note", "Speak to them."), ("for", "staff")];
    note(&mut pile, &boxes).await.expect(303);
    pile.marking_page()
        .await
        .says("<strong>row 2, wavelength:</strong> Divide. <small>Ms Fell, for the group</small>")
        .says("<strong>the sheet:</strong> Speak to them. <small>Ms Fell, for the staff only");
}

#[tokio::test]
async fn note_that_is_taken_back_is_kept_and_not_shown() {
    let mut pile = Lesson::handed_in(&Group::FORGETFUL).await;
    note(&mut pile, &[("note", "Divide.")]).await.expect(303);
    let form = pile.marking_page().await.at("form[action$='/withdraw']");
    let button = form.at("button");
    let taken = [("note", button.attr("value"))];
    pile.teacher.fill(&form, &taken).await.expect(303);
    pile.marking_page().await.says_nothing_of("Divide.");
    pile.teacher.fill(&form, &taken).await.expect(404);
    let kept: i64 = pile.app.one("SELECT count(*) FROM annotation").await;
    assert_eq!(kept, 1);
}

#[tokio::test]
async fn bad_note_comes_back_as_it_was_typed() {
    let mut pile = Lesson::handed_in(&Group::FORGETFUL).await;
    let long = "é".repeat(501);
    for (row, text, sentence) in [
        ("", "", "Type the note first, or pick a comment."),
        ("9", "Divide.", "There is no such row now."),
        ("2", long.as_str(), "Use at most 500 characters"),
    ] {
        let boxes = [("row", row), ("note", text), ("for", "group")];
        note(&mut pile, &boxes)
            .await
            .expect(422)
            .says(sentence)
            .says(&format!("{text}</textarea>"));
    }
    let boxes = [("note", long.as_str()), ("for", "staff")];
    note(&mut pile, &boxes).await.expect(303);
}

#[tokio::test]
async fn comments_come_from_the_bank_and_go_into_it() {
    let mut pile = Lesson::handed_in(&Group::FORGETFUL).await;
    let picked = "The picture is larger than the water: divide by the enlargement.";
    pile.marking_page().await.says(picked);
    note(&mut pile, &[("comment", picked)]).await.expect(303);
    let boxes = [("comment", picked), ("note", "Then go on.")];
    note(&mut pile, &boxes).await.expect(303);
    pile.marking_page()
        .await
        .says(&format!("{picked} Then go on. <small>"));
    let boxes = [("note", "Square across the lines."), ("keep", "yes")];
    note(&mut pile, &boxes).await.expect(303);
    let bank = pile.teacher.opens("/comments").await;
    assert_eq!(bank.count("Offer no more:"), 11, "ten, and the new one");
    pile.teacher
        .post_staff("/comments", &[("comment", " ")])
        .await
        .expect(422)
        .says("Type the comment first.");
    let last = bank.page().all("form[action='/comments/retire']").pop();
    let retired = [("retired", "yes")];
    pile.teacher
        .fill(&last.unwrap(), &retired)
        .await
        .expect(303);
    pile.marking_page()
        .await
        .lacks("option[value='Square across the lines.']");
}
