//! First marks and registers of the demo.

use std::collections::{BTreeMap, BTreeSet};

use analysis::stats::spread::mean;
use server::db::{class, class_set, department, mark, register, release, scheme};
use server::ids::SheetId;

use super::{THIS_TERM, demo, open};

/// What one marker gave on whole sheets.
#[derive(Default)]
struct Given {
    /// Totals.
    totals: Vec<f64>,
    /// Marks below what was suggested, on all of them together.
    below: i64,
}

/// All first marks, by who gave them.
async fn given() -> BTreeMap<String, Given> {
    let mut db = open(demo()).await;
    let mut given: BTreeMap<String, Given> = BTreeMap::new();
    for listed in class_set::list(&mut db).await.unwrap() {
        let set = listed.class_set;
        let Some(version) = set.scheme_version_id else {
            continue;
        };
        let scheme = scheme::get_version(&mut db, version)
            .await
            .unwrap()
            .scheme_id;
        let marks = mark::list_standing(&mut db, &[set.id], scheme, None)
            .await
            .unwrap();
        let mut sheets: BTreeMap<SheetId, i64> = BTreeMap::new();
        let (mut by, mut below_in_all) = (String::new(), 0);
        for mark in marks {
            // What was agreed in a round is no marker's own.
            if mark.settlement_id.is_some() {
                continue;
            }
            let awarded = mark.awarded.unwrap();
            let below = mark.suggested.map_or(0, |suggested| suggested - awarded);
            assert_eq!(below != 0, !mark.reason.is_empty(), "{mark:?}");
            *sheets.entry(mark.sheet_id).or_default() += awarded;
            below_in_all += below;
            by = mark.by;
        }
        let of = given.entry(by).or_default();
        of.totals.extend(sheets.values().map(|total| *total as f64));
        of.below += below_in_all;
    }
    given
}

#[tokio::test]
async fn severe_marker_gives_two_marks_less_than_the_other_three() {
    let given = given().await;
    let names: Vec<&str> = given.keys().map(String::as_str).collect();
    assert_eq!(names, ["Dr Beck", "Mr Rook", "Mr Tarn", "Ms Holm"]);
    let severe = mean(&given["Mr Rook"].totals).unwrap();
    for name in ["Dr Beck", "Mr Tarn", "Ms Holm"] {
        let apart = mean(&given[name].totals).unwrap() - severe;
        assert!((1.4..2.9).contains(&apart), "{name}: {apart} above");
        assert_eq!(given[name].below, 0, "{name} gives what is suggested");
    }
    let below = given["Mr Rook"].below as f64 / given["Mr Rook"].totals.len() as f64;
    assert!(
        (0.3..1.0).contains(&below),
        "{below} below the suggestions a sheet"
    );
}

#[tokio::test]
async fn this_term_has_sets_given_out_one_marked_one_begun_and_one_not() {
    let mut db = open(demo()).await;
    let listed = class_set::list(&mut db).await.unwrap();
    let mut found = Vec::new();
    for listed in listed.iter().take(THIS_TERM) {
        let set = &listed.class_set;
        let sheets: BTreeSet<SheetId> = mark::list_hands(&mut db, &[set.id], None)
            .await
            .unwrap()
            .into_iter()
            .map(|(sheet, _)| sheet)
            .collect();
        let is_out = release::find_out(&mut db, set.id).await.unwrap().is_some();
        found.push((sheets.len(), is_out));
    }
    let expected = [
        (0, false),
        (5, false),
        (8, false),
        (8, true),
        (8, true),
        (8, true),
    ];
    assert_eq!(found, expected, "newest first: sheets marked, given out");
}

#[tokio::test]
async fn no_group_waits_for_marks_that_are_newer_than_what_it_reads() {
    let mut db = open(demo()).await;
    for listed in class_set::list(&mut db).await.unwrap() {
        let id = listed.class_set.id;
        let Some(out) = release::find_out(&mut db, id).await.unwrap() else {
            continue;
        };
        let since = release::count_since(&mut db, id, &out).await.unwrap();
        assert_eq!(since, release::Since::default(), "{id}");
    }
}

#[tokio::test]
async fn every_register_is_kept_but_the_open_ones() {
    let mut db = open(demo()).await;
    let department = department::get(&mut db).await.unwrap();
    assert!(department.keeps_initials, "initials are kept until a day");
    for year in class::list_years(&mut db).await.unwrap() {
        for line in register::list_year(&mut db, year).await.unwrap() {
            let set = class_set::get(&mut db, line.id).await.unwrap();
            let pupils = line.present + line.absent;
            assert!(line.caught_up <= line.absent, "{line:?}");
            match set.is_open() {
                true => assert_eq!(pupils, 0, "{line:?}"),
                false => assert!((26..=30).contains(&pupils), "{line:?}"),
            }
        }
    }
}

#[tokio::test]
async fn absentees_of_the_year_before_have_mostly_caught_up() {
    let mut db = open(demo()).await;
    let years = class::list_years(&mut db).await.unwrap();
    let lines = register::list_year(&mut db, *years.last().unwrap())
        .await
        .unwrap();
    let absent: i64 = lines.iter().map(|line| line.absent).sum();
    let caught_up: i64 = lines.iter().map(|line| line.caught_up).sum();
    assert!(
        caught_up * 2 > absent && caught_up < absent,
        "{caught_up} of {absent}"
    );
}

#[tokio::test]
async fn same_pupils_come_to_every_practical_of_a_class() {
    let mut db = open(demo()).await;
    let years = class::list_years(&mut db).await.unwrap();
    let year = *years.last().unwrap();
    let sets = register::list_year(&mut db, year).await.unwrap();
    let lines = register::list_lines_of_year(&mut db, year).await.unwrap();
    let mut rolls: BTreeMap<&str, BTreeSet<BTreeSet<&str>>> = BTreeMap::new();
    for set in &sets {
        let pupils = lines.iter().filter(|line| line.class_set_id == set.id);
        let pupils = pupils.map(|line| line.line.initials.as_str()).collect();
        rolls.entry(&set.class_name).or_default().insert(pupils);
    }
    assert_eq!(rolls.len(), 6);
    assert!(rolls.values().all(|rolls| rolls.len() == 1), "{rolls:?}");
    let distinct: BTreeSet<_> = rolls.values().flatten().collect();
    assert_eq!(distinct.len(), 6, "six classes, six rolls");
}
