use super::{APPLIED, METHOD, MOST, rows};
use crate::support::{Group, Lesson, Reply};

async fn undo(pile: &mut Lesson) -> Reply {
    let sheet = pile.marking("A");
    let url = format!("{}/marking/undo", pile.set);
    pile.teacher.post_staff(&url, &[("back", &sheet)]).await
}

#[tokio::test]
async fn undoing_goes_back_one_act_at_a_time() {
    let mut pile = Lesson::handed_in(&Group::CAREFUL).await;
    pile.award(METHOD, "1", "").await.expect(303);
    pile.award(METHOD, "3", "").await.expect(303);
    let sheet = pile.marking("A");
    pile.award_suggested("A").await.expect(303);
    assert_ne!(pile.total().await, format!("Group A: 3 of {MOST}"));
    assert_eq!(undo(&mut pile).await.expect(303).location(), sheet);
    assert_eq!(
        pile.total().await,
        format!("Group A: 3 of {MOST}"),
        "all suggestions at once"
    );
    undo(&mut pile).await.expect(303);
    assert_eq!(pile.total().await, format!("Group A: 1 of {MOST}"));
    undo(&mut pile).await.expect(303);
    assert_eq!(pile.total().await, format!("Group A: 0 of {MOST}"));
    pile.point(METHOD).await.says_nothing_of("awarded</strong>");
    undo(&mut pile)
        .await
        .expect(400)
        .says("no mark in this class set that could be undone");
}

#[tokio::test]
async fn undoing_rewrites_no_history() {
    let mut pile = Lesson::handed_in(&Group::CAREFUL).await;
    pile.award(METHOD, "1", "").await.expect(303);
    undo(&mut pile).await.expect(303);
    assert_eq!(rows(&pile.app).await, 2, "the mark and its undoing");
    let mut db = pile.app.sql().await;
    let mut changed = async |sql| sqlx::query(sql).execute(&mut db).await.is_ok();
    assert!(!changed("UPDATE mark SET awarded = 3").await);
    assert!(!changed("DELETE FROM mark").await);
}

#[tokio::test]
async fn mark_given_since_by_somebody_else_is_not_undone() {
    let mut pile = Lesson::handed_in(&Group::CAREFUL).await;
    pile.award(METHOD, "1", "").await.expect(303);
    // A colleague's, on the same point.
    for sql in [
        "INSERT INTO staff (department_id, name, name_key, password_hash, role, made_at)
         VALUES (1, 'Mr Tarn', 'mr tarn', '', 'teacher', 0)",
        "INSERT INTO mark (sheet_id, marking_point_id, revision_id, awarded, reason, act, staff_id, marked_at)
         SELECT sheet_id, marking_point_id, revision_id, 2, '', '00000000-0000-4000-8000-000000000000', 2, 0 FROM mark",
    ] {
        let write = sqlx::query(sql).execute(&mut pile.app.sql().await).await;
        write.unwrap();
    }
    undo(&mut pile)
        .await
        .expect(400)
        .says("Somebody else has marked one of these points since");
    pile.point(METHOD).await.says("2 of 3 awarded by Mr Tarn");
}

#[tokio::test]
async fn only_pages_of_the_class_set_are_gone_back_to() {
    let mut pile = Lesson::handed_in(&Group::FORGETFUL).await;
    for back in ["//elsewhere.test", "https://elsewhere.test/", "/kits", ""] {
        pile.award(APPLIED, "0", "").await.expect(303);
        let reply = pile.posts("/marking/undo", &[("back", back)]).await;
        assert_eq!(
            reply.expect(303).location(),
            format!("{}/marking", pile.set),
            "{back}"
        );
    }
}
