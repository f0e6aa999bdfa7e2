use super::{APPLIED, METHOD, MOST, POINTS, SPEED, TABLE, rows};
use crate::support::{Group, Lesson};

#[tokio::test]
async fn nothing_is_awarded_until_somebody_awards_it() {
    let mut pile = Lesson::handed_in(&Group::FORGETFUL).await;
    assert_eq!(pile.total().await, format!("Group A: 0 of {MOST}"));
    let applied = pile.point(APPLIED).await;
    applied
        .says("0 of 1 suggested.")
        .says("enlargement left out")
        .says_nothing_of("awarded</strong>");
    pile.point(SPEED).await.says("1 of 1 suggested.");
    assert_eq!(rows(&pile.app).await, 0);
    pile.page("/marking")
        .await
        .says(&format!("0 of {} points marked", 4 * POINTS))
        .says("nothing is awarded until you award it");
}

#[tokio::test]
async fn award_goes_on_to_the_next_point_without_a_mark() {
    let mut pile = Lesson::handed_in(&Group::CAREFUL).await;
    let sheet = pile.marking("A");
    let reply = pile.award(METHOD, "2", "").await.expect(303);
    assert_eq!(reply.location(), format!("{sheet}#point-{TABLE}"));
    pile.point(METHOD)
        .await
        .says("2 of 3 awarded by Ms Fell at 10:42");
    let reply = pile.award(17, "1", "").await.expect(303);
    assert_eq!(reply.location(), format!("{sheet}#point-{TABLE}"), "round");
    assert_eq!(pile.total().await, format!("Group A: 3 of {MOST}"));
}

#[tokio::test]
async fn mark_against_what_their_figures_show_wants_a_reason() {
    let mut pile = Lesson::handed_in(&Group::FORGETFUL).await;
    pile.award(APPLIED, "1", " ")
        .await
        .expect(422)
        .says("Their own figures show otherwise: say why")
        .says("You chose 1.");
    assert_eq!(rows(&pile.app).await, 0);
    pile.award(APPLIED, "1", "It is divided in their book.")
        .await
        .expect(303);
    pile.point(APPLIED)
        .await
        .says("by Ms Fell at 10:42: It is divided in their book.");
    pile.award(SPEED, "1", "").await.expect(303);
}

#[tokio::test]
async fn marks_that_the_point_does_not_have_are_refused() {
    let mut pile = Lesson::handed_in(&Group::CAREFUL).await;
    for marks in ["4", "-1", "1.5", "two", ""] {
        pile.award(METHOD, marks, "kept as typed")
            .await
            .expect(422)
            .says("Choose one of the marks that the point has.")
            .says("kept as typed</textarea>");
    }
    assert_eq!(rows(&pile.app).await, 0);
    pile.teacher
        .post_staff(&format!("{}/award/99", pile.marking("A")), &[])
        .await
        .expect(404);
    pile.teacher
        .post_staff(&format!("{}/award/1", pile.marking("Q")), &[])
        .await
        .expect(404);
}

#[tokio::test]
async fn all_suggestions_are_one_act_and_leave_marked_points_alone() {
    let mut pile = Lesson::handed_in(&Group::FORGETFUL).await;
    pile.award(APPLIED, "1", "In their book.").await.expect(303);
    let sheet = pile.marking("A");
    let seen = pile.marking_page().await.hidden("seen");
    let stale = pile.award_all(&sheet, "0-0").await.expect(400);
    stale.says("so nothing was awarded");
    let reply = pile.award_all(&sheet, &seen).await.expect(303);
    assert_eq!(reply.location(), format!("{sheet}#point-{METHOD}"));
    pile.point(APPLIED).await.says("1 of 1 awarded");
    pile.point(SPEED).await.says("1 of 1 awarded");
    pile.point(METHOD).await.says_nothing_of("awarded</strong>");
    let acts: i64 = pile.app.one("SELECT count(DISTINCT act) FROM mark").await;
    assert_eq!(acts, 2, "the one award, and all others at once");
}

#[tokio::test]
async fn one_point_is_marked_across_all_sheets() {
    let mut pile = Lesson::handed_in(&Group::CAREFUL).await;
    let url = format!("{}/marking/points/{SPEED}", pile.set);
    let page = pile.teacher.opens(&url).await;
    for label in ["A", "B", "C", "D"] {
        page.at(&format!("#bench-{label}"));
    }
    let seen = page.hidden("seen");
    pile.award_all(&url, &seen).await.expect(303);
    let page = pile.teacher.opens(&url).await;
    assert_eq!(page.count("1 of 1 awarded"), 1, "only A has anything");
    let form = page.at("#bench-B .award");
    let reply = pile
        .teacher
        .fill(&form, &[("marks", "1")])
        .await
        .expect(303);
    assert_eq!(reply.location(), format!("{url}#bench-C"), "paper only");
}

#[tokio::test]
async fn two_who_mark_the_same_point_notice_each_other() {
    let mut pile = Lesson::handed_in(&Group::CAREFUL).await;
    let form = pile.point(METHOD).await.at(".award");
    pile.award(METHOD, "3", "").await.expect(303);
    pile.award_from(&form, "1", "")
        .await
        .expect(409)
        .says("This point was marked by somebody else")
        .says("3 of 3 awarded")
        .says("You chose 1.");
    assert_eq!(rows(&pile.app).await, 1);
}

#[tokio::test]
async fn marks_stay_when_the_sheet_is_handed_in_again() {
    let mut pile = Lesson::handed_in(&Group::FORGETFUL).await;
    pile.award(APPLIED, "0", "").await.expect(303);
    pile.award(METHOD, "2", "").await.expect(303);
    let (bench, group) = (pile.bench.clone(), Group::CAREFUL);
    group.sends_again("hand_in", &mut pile.pupil, &bench).await;
    pile.point(APPLIED)
        .await
        .says("0 of 1 awarded")
        .says("Given on an earlier revision of the sheet. Suggested then: 0; now: 1.")
        .at("a[href$='/sheets/A/versions/1']");
    pile.page("/marking")
        .await
        .says("2 marks given on an earlier revision: look again.");
    let holds = format!("{}/holds", pile.marking("A"));
    let one = [("point", "1")];
    pile.teacher.sends(&holds, &one).await;
    pile.point(METHOD)
        .await
        .says("2 of 3 awarded")
        .says_nothing_of("earlier revision");
    pile.point(APPLIED).await.says("earlier revision");
    pile.award(APPLIED, "1", "").await.expect(303);
    pile.point(APPLIED)
        .await
        .says("1 of 1 awarded")
        .says_nothing_of("earlier revision");
}

#[tokio::test]
async fn award_from_a_page_of_an_earlier_revision_is_not_taken() {
    let mut pile = Lesson::handed_in(&Group::FORGETFUL).await;
    let form = pile.point(APPLIED).await.at(".award");
    let (bench, group) = (pile.bench.clone(), Group::CAREFUL);
    group.sends_again("hand_in", &mut pile.pupil, &bench).await;
    pile.award_from(&form, "0", "")
        .await
        .expect(409)
        .says("the sheet was stored again");
    assert_eq!(rows(&pile.app).await, 0);
}
