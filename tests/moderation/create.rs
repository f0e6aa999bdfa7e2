use server::ids::ClassSetId;

use super::department::{department, marked, number};

#[tokio::test]
async fn new_round_is_listed_with_what_there_is_to_do() {
    let mut at = marked().await;
    let round = at.make_round(&["Ms Fell", "Mr Tarn"]).await;
    let list = at.head.opens("/moderation").await;
    list.says("Autumn")
        .says("Made, not begun")
        .says("Pick anchor sheets for everyone to mark first");
    let list = at.tarn.opens("/moderation").await;
    list.says("Autumn")
        .says_nothing_of("Pick anchor sheets")
        .says_nothing_of("/moderation/new");
    let page = at.tarn.opens(&round).await;
    page.says("Twenty marks")
        .says("Ms Fell")
        .says("2 marks of a whole sheet, 1 of one point")
        .says("four crests");
}

#[tokio::test]
async fn form_offers_class_sets_of_the_scheme_and_everybody() {
    let mut at = department().await;
    at.mark_first(0, "A", "Ms Fell", |_, most| most).await;
    let (string, _) = at.head.make_class_set("string-loops").await;
    let schemes = at.head.opens("/moderation/new").await;
    schemes.says("1 class set is marked with it");
    let url = format!("/moderation/new?scheme={}", at.scheme);
    let page = at.head.opens(url).await;
    let named = |id| format!("name=\"class_set.{id}\"");
    let page = page
        .says(&format!("{} value=\"on\" checked>10B/Ph2", named(at.id(0))))
        .says(&format!("{} value=\"on\">10B/Ph2", named(at.id(1))))
        .says("4 handed in, not marked yet")
        .says_nothing_of(&named(ClassSetId(number(&string))))
        .says("name=\"tolerance_total\" inputmode=\"numeric\" autocomplete=\"off\" value=\"2\"")
        .says("name=\"tolerance_point\" inputmode=\"numeric\" autocomplete=\"off\" value=\"1\"");
    let seed = page.hidden("seed");
    let figures = seed.chars().filter(char::is_ascii_digit).count();
    assert_eq!((figures, seed.len()), (8, 9), "{seed}");
}

#[tokio::test]
async fn bad_round_comes_back_as_typed_with_the_reasons() {
    let mut at = department().await;
    let url = format!("/moderation/new?scheme={}", at.scheme);
    let long = "x".repeat(81);
    let seed = "s".repeat(41);
    let boxes = [
        ("name", long.as_str()),
        ("marker.99", "on"),
        ("class_set.99", "on"),
        ("tolerance_total", "two"),
        ("tolerance_point", "-1"),
        ("seed", &seed),
    ];
    let page = at.head.post_staff(&url, &boxes).await.expect(422);
    let page = page
        .says("id=\"class_sets-error\"")
        .says("id=\"markers-error\"");
    for name in ["name", "tolerance_total", "tolerance_point", "seed"] {
        assert_eq!(page.count(&format!("id=\"{name}-error\"")), 1, "{name}");
    }
    page.says(&long)
        .says("value=\"two\"")
        .says("value=\"-1\"")
        .says(&seed);
    at.head.opens("/moderation").await.says("No rounds yet.");
}

#[tokio::test]
async fn round_without_a_scheme_that_there_is_is_none() {
    let mut at = department().await;
    at.head.get("/moderation/new?scheme=99").await.expect(404);
    at.head.post_staff("/moderation/new", &[]).await.expect(400);
    at.head.get("/moderation/99").await.expect(404);
}

#[tokio::test]
async fn pressed_twice_the_form_makes_one_round() {
    let mut at = marked().await;
    let round = at.make_round(&["Ms Fell", "Mr Tarn"]).await;
    assert_eq!(at.make_round(&["Ms Fell", "Mr Tarn"]).await, round);
    let other = at.make_round(&["Ms Fell"]).await;
    assert_ne!(other, round, "other markers are another round");
    at.pick(&round, &["A", "B"]).await;
    let later = at.make_round(&["Ms Fell", "Mr Tarn"]).await;
    assert_ne!(later, round, "one that has begun is left alone");
}
