//! Slips counted over a year.

use analysis::reading::Cause;
use analysis::slip::Slip;
use analysis::year::share::Share;
use analysis::year::slips::{SlipYear, count, since_first, since_lesson};
use analysis::year::{Made, Year};

use super::{Department, year};

const LEFT_OUT: Made = Made::Shown(Slip::ScaleLeftOut);

fn of(counted: &[SlipYear], slip: Made) -> &SlipYear {
    counted.iter().find(|counted| counted.slip == slip).unwrap()
}

fn sum(shares: &[Share]) -> Share {
    shares.iter().copied().fold(Share::default(), Share::and)
}

fn ripple_sheets(year: &Year) -> usize {
    // The simulated classes are at the tanks every other time.
    year.sheets
        .iter()
        .filter(|sheet| !sheet.judgement.rows.is_empty() && sheet.kits[0] < 3)
        .count()
}

#[test]
fn counts_by_class_and_by_month_add_up() {
    let year = year(&Department::WORN, 1);
    for counted in count(&year) {
        assert_eq!(sum(&counted.by_class), counted.whole, "{:?}", counted.slip);
        assert_eq!(sum(&counted.by_month), counted.whole, "{:?}", counted.slip);
        assert_eq!(counted.in_months(0..12), counted.whole);
        assert!(counted.whole.made <= counted.whole.of);
    }
}

#[test]
fn only_groups_that_could_have_made_it_are_counted() {
    let mut year = year(&Department::WORN, 1);
    let at_tanks = ripple_sheets(&year);
    assert_eq!(of(&count(&year), LEFT_OUT).whole.of, at_tanks);
    let counted_from_one = Made::Confirmed(Cause::CountedFromOne);
    assert_eq!(of(&count(&year), counted_from_one).whole.of, at_tanks);
    let gradient = Made::Shown(Slip::GradientUpsideDown);
    assert_eq!(of(&count(&year), gradient).whole.of, year.sheets.len());

    // A group that worked nothing out can show no slip in its working, but
    // its readings can hold one.
    let idle = year
        .sheets
        .iter_mut()
        .find(|sheet| sheet.kits[0] < 3)
        .unwrap();
    idle.judgement.has_working = false;
    assert_eq!(of(&count(&year), LEFT_OUT).whole.of, at_tanks - 1);
    assert_eq!(of(&count(&year), counted_from_one).whole.of, at_tanks);
}

#[test]
fn commonest_slip_comes_first() {
    let counted = count(&year(&Department::WORN, 1));
    let made: Vec<usize> = counted.iter().map(|slip| slip.whole.made).collect();
    assert!(made.is_sorted_by(|one, other| one >= other), "{made:?}");
    assert_eq!(counted[0].slip, LEFT_OUT);
}

#[test]
fn reteaching_shows_between_before_and_after() {
    let year = year(&Department::WORN, 1);
    let middle = year.lessons.len() / 2;
    let change = since_lesson(&year, LEFT_OUT, middle);
    assert_eq!(
        change.before.and(change.after),
        of(&count(&year), LEFT_OUT).whole
    );
    let difference = change.difference().unwrap();
    // Forty in a hundred before, ten after.
    assert!(
        difference.low < -0.3 && -0.3 < difference.high,
        "{difference:?}"
    );
    assert!(difference.high < 0.0, "{difference:?}");
}

#[test]
fn later_practicals_of_a_class_stand_beside_its_first() {
    let year = year(&Department::WORN, 1);
    let changes = since_first(&year, LEFT_OUT);
    assert_eq!(changes.len(), year.classes);
    for change in changes {
        let change = change.unwrap();
        // One lesson of nine groups, and the two later ones at the tanks.
        assert_eq!((change.before.of, change.after.of), (9, 18));
    }
}

#[test]
fn class_with_one_practical_has_nothing_to_compare() {
    let department = Department {
        lessons: 2,
        ..Department::WORN
    };
    let year = year(&department, 1);
    assert!(since_first(&year, LEFT_OUT).iter().all(Option::is_none));
    // A slip that both methods know has a first and a later one.
    let both = since_first(&year, Made::Shown(Slip::GradientUpsideDown));
    assert!(both.iter().all(Option::is_some));
}

#[test]
fn difference_of_none_is_none() {
    let year = year(&Department::WORN, 1);
    assert_eq!(since_lesson(&year, LEFT_OUT, 0).difference(), None);
}
