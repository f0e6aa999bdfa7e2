//! Classes compared as laboratories are.

use analysis::method::Method;
use analysis::year::cells::Cells;
use analysis::year::{Year, YearSheet, compare};
use simulator::dice::Dice;

use super::{Department, year};

fn ripples(year: &Year) -> Cells {
    let mut classes = compare(year).classes.into_iter();
    classes
        .find(|cells| cells.method == Method::RippleTank)
        .unwrap()
}

/// A year in which nobody slips.
fn careful() -> Year {
    let department = Department {
        counts_from_one: 0.0,
        ..Department::SOUND
    };
    year(&department, 2)
}

/// Multiplies the speeds of one class.
fn shift(year: &mut Year, class: usize, factor: impl Fn(usize) -> f64) {
    let of_class: Vec<usize> = (0..year.sheets.len())
        .filter(|at| year.lessons[year.sheets[*at].lesson].class == class)
        .collect();
    for (number, at) in of_class.into_iter().enumerate() {
        let speed = &mut year.sheets[at].judgement.speed;
        *speed = speed.map(|speed| speed * factor(number));
    }
}

/// Which classes stand apart with ripples.
fn apart(cells: &Cells) -> Vec<usize> {
    let cells = cells.cells.iter().enumerate();
    let apart = cells.filter(|(_, cell)| cell.stands_apart == Some(true));
    apart.map(|(at, _)| at).collect()
}

#[test]
fn class_that_measures_something_else_stands_apart() {
    let mut odd = careful();
    assert!(apart(&ripples(&odd)).is_empty());
    shift(&mut odd, 3, |_| 1.15);
    let cells = ripples(&odd);
    assert_eq!(apart(&cells), [3]);
    let off = cells.cells[3].against_others.unwrap();
    assert!(off.low < 0.15 && 0.15 < off.high, "{off:?}");
    let together = cells.together.unwrap();
    assert!(together.reproducibility > 1.3 * together.repeatability);
}

/// 500 years of six classes that are alike: one in twenty may have a class
/// that is said to stand apart, and four standard errors of that.
#[test]
fn classes_that_are_alike_seldom_stand_apart() {
    let mut year = careful();
    let mut dice = Dice::new(5);
    let wrong = (0..500).filter(|_| {
        for judgement in year.sheets.iter_mut().map(|sheet| &mut sheet.judgement) {
            let error = (0.05 * dice.normal()).exp();
            judgement.speed = judgement.expected.map(|speed| speed * error);
        }
        !apart(&ripples(&year)).is_empty()
    });
    let rate = wrong.count() as f64 / 500.0;
    assert!(rate < 0.05 + 0.039, "{rate}");
}

#[test]
fn group_that_does_not_belong_with_its_lesson_is_left_aside() {
    let mut gross = careful();
    let before = ripples(&gross);
    // In a class of which nobody is left aside so far.
    let quiet = before.cells.iter().position(|cell| cell.left_aside == 0);
    let class = quiet.unwrap();
    let lessons = gross.lessons.clone();
    let is_there = |s: &&mut YearSheet| s.kits[0] < 3 && lessons[s.lesson].class == class;
    let sheet = gross.sheets.iter_mut().find(is_there).unwrap();
    sheet.judgement.speed = sheet.judgement.speed.map(|speed| speed * 3.0);
    let after = ripples(&gross);
    assert_eq!(after.cells[class].left_aside, 1);
    let moved = after.cells[class].ratio.unwrap().value / before.cells[class].ratio.unwrap().value;
    assert!((moved - 1.0).abs() < 0.02, "{moved}");
}

/// Leaves so many groups of a class in the year.
fn thin_out(year: &mut Year, class: usize, groups: usize) {
    let mut left = 0;
    let lessons = year.lessons.clone();
    year.sheets.retain(|sheet| {
        let lesson = lessons[sheet.lesson];
        let is_of = lesson.class == class && lesson.method == Method::RippleTank;
        left += usize::from(is_of);
        !is_of || left <= groups
    });
}

#[test]
fn class_that_is_alone_has_its_ratio_and_nothing_to_stand_apart_from() {
    let mut alone = careful();
    for class in 1..6 {
        thin_out(&mut alone, class, 0);
    }
    let one = ripples(&alone);
    assert_eq!(one.together, None);
    let ratio = one.cells[0].ratio.unwrap();
    assert!(ratio.low < ratio.value && ratio.value < ratio.high);
    assert_eq!(one.cells[0].against_others, None);
    assert_eq!(one.cells[0].stands_apart, None);
}

#[test]
fn class_of_far_fewer_groups_than_the_others_is_not_compared() {
    let mut small = careful();
    thin_out(&mut small, 3, 5);
    let cells = ripples(&small);
    let compared = cells.cells.iter().map(|cell| cell.stands_apart.is_some());
    let compared: Vec<bool> = compared.collect();
    assert_eq!(compared, [true, true, true, false, true, true]);
    assert!(cells.cells[3].ratio.is_some());
}

#[test]
fn hand_in_and_completion_are_counted() {
    let mut year = careful();
    let first = year.sheets.iter().position(|s| s.kits[0] < 3).unwrap();
    year.sheets[first].judgement.has_answer = false;
    let class = year.lessons[year.sheets[first].lesson].class;
    let lost = year
        .sheets
        .iter()
        .rposition(|s| s.kits[0] < 3 && year.lessons[s.lesson].class == class);
    year.sheets.remove(lost.unwrap());
    let cell = &ripples(&year).cells[class];
    assert_eq!((cell.handed_in.made, cell.handed_in.of), (26, 27));
    assert_eq!((cell.complete.made, cell.complete.of), (25, 26));
}

#[test]
fn marks_have_a_mean_with_its_interval() {
    let mut year = careful();
    let in_first = |s: &&mut YearSheet| s.lesson == 0;
    for (sheet, mark) in year
        .sheets
        .iter_mut()
        .filter(in_first)
        .zip([0.5, 0.9, 0.6, 0.7, 0.8])
    {
        sheet.mark = Some(mark);
    }
    let class = year.lessons[0].class;
    let marks = ripples(&year).cells[class].marks.unwrap();
    assert_eq!(marks.groups, 5);
    let mean = marks.mean.unwrap();
    assert!((mean.value - 0.7).abs() < 1e-12);
    // s = 0.158, t for four degrees of freedom 2.776, over the root of five.
    assert!((mean.high - 0.7 - 0.1963).abs() < 1e-3, "{mean:?}");
}

#[test]
fn empty_year_has_nothing_to_compare() {
    let nothing = compare(&Year::default());
    assert!(nothing.classes.is_empty() && nothing.kits.is_empty());
    assert_eq!(nothing.handed_in.of, 0);
}
