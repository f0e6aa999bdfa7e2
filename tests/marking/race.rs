//! What two people do at once: the acts decide, whatever a page had read.

use server::acts::{Award, ChooseScheme, Given, NotAwarded, NotChosen, StillHolds};
use server::db::scheme;
use server::ids::{ClassSetId, SchemeVersionId};
use server::report::desk::{Desk, Unfit, first};

use super::{APPLIED, METHOD, rows};
use crate::support::{Group, HEAD, Lesson, pairs};

/// What a page has read, before anybody acts on it.
async fn read(pile: &Lesson) -> Desk {
    let id: i64 = pile.set.rsplit('/').next().unwrap().parse().unwrap();
    let mut db = pile.app.db().await;
    first::load(&mut db, ClassSetId(id), None).await.unwrap()
}

/// Group A's mark on a point, as this desk would give it.
fn award(desk: &Desk, key: i64, marks: i64, reason: &str) -> Award {
    let point = desk.point(key).unwrap();
    let given = Given {
        sheet: desk.sheets[0].sheet_id,
        key,
        marks: Some(marks),
        reason: reason.to_owned(),
        revision: desk.sheets[0].revision_id(),
        newest: desk.standing(0, point).newest,
    };
    Award {
        class_set: desk.class_set.id,
        version: desk.version.id,
        given: vec![given],
    }
}

/// A copy of the scheme that comes with the program, under another name.
async fn copy(pile: &mut Lesson) -> SchemeVersionId {
    let scheme = read(pile).await.version.scheme_id;
    let copy = format!("/schemes/{scheme}/copy");
    let boxes = [("name", "Ours")];
    pile.teacher.sends(&copy, &boxes).await;
    let mut db = pile.app.db().await;
    let schemes = scheme::list(&mut db).await.unwrap();
    let ours = schemes.iter().find(|scheme| scheme.name == "Ours");
    ours.unwrap().version_id
}

#[tokio::test]
async fn scheme_chosen_before_the_first_mark_meets_it() {
    let mut pile = Lesson::handed_in(&Group::CAREFUL).await;
    let version = copy(&mut pile).await;
    let desk = read(&pile).await;
    assert_ne!(desk.version.id, version);
    let class_set = desk.class_set.id;
    let choose = ChooseScheme { class_set, version };
    assert_eq!(pile.app.act(HEAD, choose).await, Ok(()));
    let late = award(&desk, METHOD, 3, "");
    assert_eq!(pile.app.act(HEAD, late).await, Err(NotAwarded::Met));
    assert_eq!(
        rows(&pile.app).await,
        0,
        "no mark of a scheme that is no more used"
    );
    let desk = read(&pile).await;
    assert_eq!(desk.version.id, version, "the choice stands");
    assert_eq!(
        pile.app.act(HEAD, award(&desk, METHOD, 3, "")).await,
        Ok(())
    );
}

#[tokio::test]
async fn first_mark_keeps_another_scheme_from_being_chosen() {
    let mut pile = Lesson::handed_in(&Group::CAREFUL).await;
    let version = copy(&mut pile).await;
    // Whoever chooses has read a pile without a mark.
    let desk = read(&pile).await;
    assert!(!desk.is_begun());
    let class_set = desk.class_set.id;
    assert_eq!(
        pile.app.act(HEAD, award(&desk, METHOD, 3, "")).await,
        Ok(())
    );
    let choose = ChooseScheme { class_set, version };
    assert_eq!(pile.app.act(HEAD, choose).await, Err(NotChosen));
    let after = read(&pile).await;
    assert_eq!(after.version.id, desk.version.id);
    assert_eq!(after.sheets[0].marks.marked(), 1, "the mark is not hidden");
}

/// The page says which version it was made from.
#[tokio::test]
async fn page_of_another_scheme_awards_nothing() {
    let mut pile = Lesson::handed_in(&Group::CAREFUL).await;
    let version = copy(&mut pile).await;
    let form = pile.point(METHOD).await;
    let [shown, revision] = ["version", "revision"].map(|name| form.value(name));
    let boxes = [("version", version.to_string())];
    let boxes = pairs(&boxes);
    pile.does("/marking/scheme", &boxes).await;
    let boxes = [
        ("version", shown.as_str()),
        ("revision", &revision),
        ("newest", "0"),
        ("marks", "3"),
    ];
    let url = format!("{}/award/{METHOD}", pile.marking("A"));
    let reply = pile.teacher.post_staff(&url, &boxes).await;
    reply.expect(409).says("Nothing was awarded");
    assert_eq!(rows(&pile.app).await, 0);
}

/// What a form must say is asked for where it is written, too.
#[tokio::test]
async fn act_asks_for_what_the_form_asks_for() {
    let pile = Lesson::handed_in(&Group::FORGETFUL).await;
    let desk = read(&pile).await;
    for (marks, reason, why) in [
        (1, "", Unfit::NoReason),
        (2, "", Unfit::NoSuchMarks),
        (-1, "", Unfit::NoSuchMarks),
        (1, &*"é".repeat(1001), Unfit::LongReason),
    ] {
        let refused = pile
            .app
            .act(HEAD, award(&desk, APPLIED, marks, reason))
            .await;
        assert_eq!(refused, Err(NotAwarded::Unfit(why)), "{marks}");
    }
    let again = StillHolds {
        class_set: desk.class_set.id,
        sheet: desk.sheets[0].sheet_id,
        point: None,
    };
    assert!(
        pile.app.act(HEAD, again).await.is_err(),
        "there is no earlier mark"
    );
    assert_eq!(rows(&pile.app).await, 0);
}

/// A mark that somebody gave meanwhile, taken back by now.
#[tokio::test]
async fn mark_that_came_and_went_meanwhile_is_met() {
    let pile = Lesson::handed_in(&Group::CAREFUL).await;
    let desk = read(&pile).await;
    assert_eq!(
        pile.app.act(HEAD, award(&desk, METHOD, 3, "")).await,
        Ok(())
    );
    let class_set = desk.class_set.id;
    let undo = server::acts::UndoMarks { class_set };
    assert_eq!(pile.app.act(HEAD, undo).await, Ok(()));
    let late = pile.app.act(HEAD, award(&desk, METHOD, 1, "")).await;
    assert_eq!(late, Err(NotAwarded::Met));
}
