//! The demo's moderation rounds: one that is closed, one that is being marked.

use std::collections::BTreeMap;

use analysis::moderation::comparison::Verdict;
use analysis::moderation::ticket::ticket;
use analysis::stats::spread::{mean, sample_sd};
use server::db::round::{self, Round, Step};
use server::db::round_sheet::{self, Kind};
use server::db::{Connection, class_set, moderation_record, ruling, staff};
use server::report::moderation::record::{Decided, Record};
use server::report::moderation::{name, pairs, standard};

use super::{demo, open};

/// The two rounds, the older first.
async fn rounds(db: &mut Connection) -> [Round; 2] {
    let mut rounds = round::list(db).await.unwrap();
    rounds.reverse();
    rounds.try_into().unwrap()
}

#[tokio::test]
async fn one_round_is_closed_and_one_is_being_marked() {
    let mut db = open(demo()).await;
    let [older, newer] = rounds(&mut db).await;
    assert_eq!(
        (older.step, newer.step),
        (Some(Step::Closed), Some(Step::Drawn))
    );
    for (round, class_sets, markers, rulings) in [(&older, 6, 4, 3), (&newer, 2, 3, 1)] {
        let sets = round::list_class_sets(&mut db, round.id).await.unwrap();
        assert_eq!(sets.len(), class_sets, "{}", round.name);
        let people = round::list_markers(&mut db, round.id).await.unwrap();
        assert_eq!(people.len(), markers, "{}", round.name);
        let written = ruling::list_in_round(&mut db, round.id).await.unwrap();
        assert_eq!(written.len(), rulings, "{}", round.name);
    }
}

#[tokio::test]
async fn sample_covers_every_class_in_the_order_that_its_seed_gives() {
    let mut db = open(demo()).await;
    for round in rounds(&mut db).await {
        let sheets = round_sheet::list(&mut db, round.id).await.unwrap();
        let sample = sheets.iter().filter(|sheet| sheet.kind == Kind::Sample);
        let tickets: Vec<String> = sample
            .clone()
            .map(|sheet| ticket(&round.seed, &name(sheet.class_set_id, &sheet.label)))
            .collect();
        assert!(tickets.is_sorted(), "{}: by ticket", round.name);
        for set in round::list_class_sets(&mut db, round.id).await.unwrap() {
            assert!(
                sample.clone().any(|sheet| sheet.class_set_id == set.id),
                "{} of {}",
                set.class_name,
                round.name
            );
        }
    }
}

#[tokio::test]
async fn severe_marker_gives_the_anchors_about_two_marks_less_than_the_others() {
    let mut db = open(demo()).await;
    let [older, _] = rounds(&mut db).await;
    let standard = standard::load(&mut db, &older).await.unwrap();
    let markers = standard.markers.iter();
    let severe = markers.clone().position(|m| m.name == "Mr Rook").unwrap();
    let mut below = Vec::new();
    for totals in &standard.totals {
        let others = (0..totals.len()).filter(|at| *at != severe);
        let others: Vec<f64> = others.map(|at| totals[at].unwrap() as f64).collect();
        below.push(mean(&others).unwrap() - totals[severe].unwrap() as f64);
    }
    assert_eq!(below.len(), 3, "anchors");
    let mean = mean(&below).unwrap();
    assert!((1.0..4.0).contains(&mean), "{below:?}");
}

#[tokio::test]
async fn second_marks_are_two_above_the_severe_markers_and_even_with_the_others() {
    let mut db = open(demo()).await;
    let [older, _] = rounds(&mut db).await;
    let pairs = pairs::load(&mut db, &older).await.unwrap();
    let mut by_marker: BTreeMap<&str, Vec<f64>> = BTreeMap::new();
    for pair in &pairs {
        let first = pair.points[0].first.as_ref().unwrap();
        assert_ne!(
            Some(first.staff_id),
            pair.sheet.marker_id,
            "never their own"
        );
        let apart = pair.difference().expect("both have marked every point");
        by_marker.entry(&first.by).or_default().push(apart as f64);
    }
    let severe = by_marker.remove("Mr Rook").unwrap();
    assert!(severe.len() >= 5, "{} of the severe marker's", severe.len());
    let above = mean(&severe).unwrap();
    assert!((1.2..3.0).contains(&above), "{severe:?}");
    assert_eq!(by_marker.len(), 3);
    let others: Vec<f64> = by_marker.into_values().flatten().collect();
    let (apart, sd) = (mean(&others).unwrap(), sample_sd(&others).unwrap());
    assert!(apart.abs() < 0.6, "{others:?}");
    assert!((0.5..1.5).contains(&sd), "{others:?}");
}

#[tokio::test]
async fn of_the_open_rounds_markers_one_has_finished_one_is_half_way_and_one_has_not_begun() {
    let mut db = open(demo()).await;
    let [_, newer] = rounds(&mut db).await;
    let mut by_marker: BTreeMap<String, (usize, usize)> = BTreeMap::new();
    let progress = round_sheet::list_progress(&mut db, newer.id, None).await;
    for line in progress.unwrap() {
        if line.kind == Kind::Sample {
            let (complete, sheets) = by_marker.entry(line.marker.clone()).or_default();
            *complete += usize::from(line.is_complete());
            *sheets += 1;
        }
    }
    let (finished, sheets) = by_marker["Mr Tarn"];
    assert!(finished == sheets && sheets >= 4, "{by_marker:?}");
    let (half, sheets) = by_marker["Ms Holm"];
    assert_eq!(half, sheets.div_ceil(2), "{by_marker:?}");
    assert!(half < sheets, "{by_marker:?}");
    assert_eq!(by_marker["Mr Rook"].0, 0, "{by_marker:?}");
}

#[tokio::test]
async fn every_class_set_is_open_to_the_head_and_some_are_closed_to_second_markers() {
    let mut db = open(demo()).await;
    let sets = class_set::list(&mut db).await.unwrap();
    for person in staff::list(&mut db).await.unwrap() {
        let closed = round_sheet::list_closed(&mut db, person.id).await.unwrap();
        let sets = sets
            .iter()
            .filter(|set| closed.class_set(set.class_set.id).is_some());
        let is_marker = person.name.to_string() != "Dr Beck";
        assert_eq!(sets.count() > 0, is_marker, "{}", person.name);
    }
}

#[tokio::test]
async fn closed_round_says_that_one_marker_is_severe_and_how_it_was_settled() {
    let mut db = open(demo()).await;
    let [older, _] = rounds(&mut db).await;
    let stored = moderation_record::find(&mut db, older.id).await.unwrap();
    let record: Record = serde_json::from_str(&stored.unwrap().body).unwrap();
    let mut severe = Vec::new();
    for person in &record.comparison.first_markers {
        let is_severe = |verdict: &Verdict| matches!(verdict, Verdict::SecondHigher { .. });
        if person.verdicts.iter().any(is_severe) {
            severe.push(record.people[&person.person].as_str());
        }
    }
    assert_eq!(severe, ["Mr Rook"]);
    assert_eq!(record.again.len(), 1);
    assert!(record.again[0].of >= 8, "a whole class");
    assert_eq!(record.again[0].done, record.again[0].of);
    let decisions = record.decisions.iter();
    let agreed = decisions.filter(|one| matches!(one.decided, Decided::Agreed(_)));
    assert!(agreed.count() > 0, "nothing was agreed");
}
