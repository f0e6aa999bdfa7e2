use crate::support::{Group, Lesson, TestApp};

async fn notes(app: &TestApp) -> i64 {
    app.one("SELECT count(*) FROM annotation").await
}

#[tokio::test]
async fn note_says_what_it_is_about_and_who_wrote_it() {
    let mut at = Lesson::handed_in(&Group::FORGETFUL).await;
    for (row, step, about) in [
        ("", "", "the sheet"),
        ("2", "", "row 2"),
        ("", "wavelength", "wavelength"),
        ("2", "wavelength", "row 2, wavelength"),
    ] {
        let text = format!("look again at {about}");
        let boxes = [("row", row), ("step", step), ("note", text.as_str())];
        let reply = at.does("/sheets/A/notes", &boxes).await;
        assert_eq!(reply.location(), format!("{}#notes", at.sheet));
        at.page("/sheets/A").await.says(&format!(
            "<strong>{about}:</strong> {text} <small>Ms Fell, at 10:42</small>"
        ));
    }
    assert_eq!(notes(&at.app).await, 4);
}

#[tokio::test]
async fn bad_note_is_given_back_with_the_reason_beside_the_box() {
    let mut at = Lesson::handed_in(&Group::FORGETFUL).await;
    let long = "é".repeat(2001);
    for (row, step, text, reason) in [
        ("", "", "", "Type the note first."),
        ("2", "speed", " \r\n ", "Type the note first."),
        ("2", "speed", &long, "Use at most 2000 characters."),
        ("6", "speed", "look", "There is no such row now."),
        ("2", "sped", "look", "Choose a figure from the list."),
        ("2", "loops", "look", "Choose a figure from the list."),
    ] {
        let boxes = [("row", row), ("step", step), ("note", text)];
        let page = at.posts("/sheets/A/notes", &boxes).await.expect(422);
        page.says(&format!("id=\"note-error\">{reason}"))
            .says("aria-describedby=\"note-hint note-error\"")
            .says(&format!("{}</textarea>", text.trim()));
    }
    let kept = [("row", "2"), ("step", "speed"), ("note", "")];
    at.posts("/sheets/A/notes", &kept)
        .await
        .says("<option value=\"2\" selected>")
        .says("<option value=\"speed\" selected>");
    assert_eq!(notes(&at.app).await, 0);
}

#[tokio::test]
async fn line_ends_count_once_as_in_the_browsers_own_limit() {
    let mut at = Lesson::handed_in(&Group::FORGETFUL).await;
    let text = format!("{}\r\n{}", "a".repeat(999), "b".repeat(1000));
    at.does("/sheets/A/notes", &[("note", &text)]).await;
}

#[tokio::test]
async fn character_that_no_text_has_does_no_harm() {
    let mut at = Lesson::handed_in(&Group::FORGETFUL).await;
    at.does("/sheets/A/notes", &[("note", "\0look")]).await;
    at.page("/sheets/A").await.says("look <small>");
}

#[tokio::test]
async fn note_is_shown_as_text() {
    let mut at = Lesson::handed_in(&Group::FORGETFUL).await;
    let text = "</textarea><script>alert(3)</script>";
    at.does("/sheets/A/notes", &[("note", text)]).await;
    let refused = [("note", text), ("row", "\"><script>alert(4)")];
    let page = at.posts("/sheets/A/notes", &refused).await.expect(422);
    page.says_nothing_of("<script>alert").says("alert(3)");
    at.page("/sheets/A")
        .await
        .says_nothing_of("<script>alert")
        .says("alert(3)");
}

#[tokio::test]
async fn note_may_be_kept_before_anything_is_stored() {
    let mut at = Lesson::handed_in(&Group::FORGETFUL).await;
    let sheet = format!("{}/sheets/B", at.set);
    let note = [("note", "away today")];
    at.teacher.sends(&format!("{sheet}/notes"), &note).await;
    at.teacher
        .get(&sheet)
        .await
        .says("<strong>the sheet:</strong> away today");
}
