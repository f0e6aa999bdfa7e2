use crate::support::{Browser, Lesson, Reply, pairs, teacher};

/// The boxes of the form as a page has them, to be sent back changed.
fn boxes(page: &Reply) -> Vec<(String, String)> {
    let mut boxes = page.at("form[action$='/edit']").fields();
    boxes.retain(|(name, _)| name != "token");
    boxes
}

fn set(boxes: &mut [(String, String)], name: &str, text: &str) {
    let found = boxes.iter_mut().find(|(n, _)| n == name).unwrap();
    text.clone_into(&mut found.1);
}

async fn send(teacher: &mut Browser, boxes: &[(String, String)], act: &str) -> Reply {
    let all = [&pairs(boxes), &[("act", act)][..]].concat();
    teacher.post_staff("/schemes/1/edit", &all).await
}

#[tokio::test]
async fn scheme_of_twenty_marks_comes_with_each_method() {
    let mut teacher = teacher().await;
    let list = teacher.opens("/schemes").await;
    assert_eq!(list.count("20 marks"), 2);
    list.says("the department’s own");
    teacher
        .get("/schemes/1")
        .await
        .says("By check. Each speed is the group’s own frequency × its own wavelength")
        .says("Version 1 (shown here): came with the program");
    teacher.get("/schemes/9").await.expect(404);
    let mut stranger = teacher.app.browser();
    stranger.get("/schemes").await.expect(303);
}

#[tokio::test]
async fn saving_makes_a_new_version_and_keeps_the_old() {
    let mut teacher = teacher().await;
    let mut typed = boxes(&teacher.opens("/schemes/1/edit").await);
    send(&mut teacher, &typed, "save").await.expect(303);
    teacher.get("/schemes/1").await.says("version 1</h1>");
    set(&mut typed, "p0.title", "How it was done");
    set(&mut typed, "p0.marks", "6");
    set(&mut typed, "p0.levels", "5-6: all of it\r\n1–4: some of it");
    send(&mut teacher, &typed, "save").await.expect(303);
    teacher
        .get("/schemes/1")
        .await
        .says("version 2</h1>")
        .says("How it was done")
        .says("<dt>5 to 6</dt><dd>all of it</dd>");
    teacher
        .get("/schemes/1/versions/1")
        .await
        .says("This is an earlier version")
        .says_nothing_of("How it was done");
    let mut db = teacher.app.sql().await;
    let keys: Vec<i64> =
        sqlx::query_scalar("SELECT key FROM marking_point WHERE title IN ('Method', 'How it was done') AND scheme_version_id <> 2 ORDER BY id")
            .fetch_all(&mut db)
            .await
            .unwrap();
    assert_eq!(keys, [1, 1], "the same point in both versions");
    assert!(
        sqlx::query("UPDATE marking_point SET marks = 1")
            .execute(&mut db)
            .await
            .is_err()
    );
}

#[tokio::test]
async fn points_are_added_moved_and_taken_away_before_anything_is_saved() {
    let mut teacher = teacher().await;
    let typed = boxes(&teacher.get("/schemes/1/edit").await);
    let moved = send(&mut teacher, &typed, "down.0").await.expect(200);
    let typed = boxes(&moved);
    assert_eq!(typed[2].1, "2", "the second point's key comes first");
    let added = send(&mut teacher, &typed, "add").await.expect(200);
    let mut typed = boxes(&added);
    set(&mut typed, "p17.title", "Tidy bench");
    let fewer = send(&mut teacher, &typed, "remove.1").await.expect(200);
    fewer.lacks("[value=Method]");
    teacher.get("/schemes/1").await.says("version 1</h1>");
    let last = send(&mut teacher, &typed, "remove.1").await;
    send(&mut teacher, &boxes(&last), "save").await.expect(303);
    teacher
        .get("/schemes/1")
        .await
        .says("17 Tidy bench")
        .says("version 2</h1>");
}

#[tokio::test]
async fn wrong_boxes_come_back_as_they_were_typed() {
    let mut teacher = teacher().await;
    let page = teacher.get("/schemes/1/edit").await;
    let long = "x".repeat(121);
    for (name, text, why) in [
        ("p2.title", "", "Say what the point asks."),
        ("p2.title", long.as_str(), "Use at most 120 characters."),
        ("p2.marks", "0", "Type a whole number from 1 to 20."),
        ("p2.marks", "21", "Type a whole number from 1 to 20."),
        ("p2.marks", "two", "Type a whole number from 1 to 20."),
        ("p2.judged", "check:levitation", "Choose how it is judged."),
        ("p2.levels", "all of it", "Write one level a line"),
        (
            "p2.levels",
            "2: more than there is",
            "Write one level a line",
        ),
        (
            "p0.levels",
            "1-2: some\n2-3: overlapping",
            "Write one level a line",
        ),
    ] {
        let mut typed = boxes(&page);
        set(&mut typed, name, text);
        let reply = send(&mut teacher, &typed, "save").await.expect(422);
        reply
            .says(&format!("<a href=\"#{name}\">Point "))
            .says(why)
            .says(&format!("id=\"{name}-error\""));
    }
    teacher.get("/schemes/1").await.says("version 1</h1>");
}

#[tokio::test]
async fn two_who_change_a_scheme_notice_each_other() {
    let mut teacher = teacher().await;
    let mut one = boxes(&teacher.get("/schemes/1/edit").await);
    let mut other = one.clone();
    set(&mut one, "p0.title", "First");
    set(&mut other, "p0.title", "Second");
    send(&mut teacher, &one, "save").await.expect(303);
    let met = send(&mut teacher, &other, "save").await.expect(409);
    let again = boxes(&met);
    met.says("A colleague has saved a newer version")
        .says("value=\"Second\"");
    teacher.get("/schemes/1").await.says("First");
    send(&mut teacher, &again, "save").await.expect(303);
    teacher.get("/schemes/1").await.says("Second");
}

#[tokio::test]
async fn scheme_is_copied_and_retired() {
    let mut teacher = teacher().await;
    for (name, why) in [
        ("", "Give the new scheme a name."),
        ("Twenty marks", "There is a scheme of this name already."),
        ("twenty  MARKS", "There is a scheme of this name already."),
    ] {
        let reply = teacher
            .post_staff("/schemes/1/copy", &[("name", name)])
            .await
            .expect(422);
        assert!(reply.text.contains(why), "{name}");
        reply.says(&format!("name=\"name\" value=\"{name}\""));
    }
    let only = [("retired", "yes")];
    teacher
        .post_staff("/schemes/1/retire", &only)
        .await
        .expect(400)
        .says("This is the only scheme");
    let boxes = [("name", "Short")];
    let made = teacher.post_staff("/schemes/1/copy", &boxes).await;
    assert_eq!(made.expect(303).location(), "/schemes/3/edit");
    teacher.sends("/schemes/1/retire", &only).await;
    let (set, _) = teacher.make_class_set("ripple-tank").await;
    teacher
        .get(&format!("{set}/marking"))
        .await
        .says("<strong>Short</strong>, version 1");
}

#[tokio::test]
async fn class_set_keeps_its_version_until_somebody_moves_it_on() {
    let mut at = Lesson::new().await;
    let marking = at.url("/marking");
    let award = format!("{marking}/sheets/A/award/1");
    let first = [("revision", "0"), ("newest", "0"), ("marks", "2")];
    at.teacher.sends(&award, &first).await;
    let mut typed = boxes(&at.teacher.get("/schemes/1/edit").await);
    set(&mut typed, "p0.marks", "1");
    set(&mut typed, "p0.levels", "");
    send(&mut at.teacher, &typed, "save").await.expect(303);
    let page = at.teacher.get(&marking).await;
    let form = page.at("form[action$='/scheme']");
    let button = form.at("button");
    let newer = [("version", button.attr("value"))];
    page.says("version 1: 17 points, 20 marks")
        .says("There is a newer version of this scheme: version 2");
    at.teacher.fill(&form, &newer).await.expect(303);
    at.teacher.get(&marking).await.says("version 2: 17 points");
    at.teacher
        .get(&format!("{marking}/sheets/A"))
        .await
        .at("#point-1")
        .says("Given by an earlier version of the scheme")
        .says("2 of 1 awarded")
        .says("This is more than the point has now");
    let other = [("version", "2")];
    at.teacher
        .post_staff(&format!("{marking}/scheme"), &other)
        .await
        .expect(400);
}
