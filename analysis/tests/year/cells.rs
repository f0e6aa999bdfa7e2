//! Classes compared as laboratories are.

use analysis::method::Method;
use analysis::year::cells::Cells;
use analysis::year::{Year, compare};

use super::{School, year};

fn ripples(year: &Year) -> Cells {
    let mut classes = compare(year).classes.into_iter();
    classes
        .find(|cells| cells.method == Method::RippleTank)
        .unwrap()
}

/// A year in which nobody slips.
fn careful() -> Year {
    let school = School {
        counts_from_one: 0.0,
        ..School::SOUND
    };
    year(&school, 2)
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

#[test]
fn classes_that_differ_by_chance_stay_within_the_lines() {
    let cells = ripples(&careful());
    let lines = cells.together.unwrap().h_lines.unwrap();
    for cell in &cells.cells {
        assert!(cell.h.unwrap().abs() < lines[1], "{cell:?}");
        assert!(cell.k.unwrap() < cell.k_lines.unwrap()[1], "{cell:?}");
    }
}

#[test]
fn class_that_measures_something_else_is_beyond_the_line_of_h() {
    let mut odd = careful();
    shift(&mut odd, 3, |_| 1.15);
    let cells = ripples(&odd);
    let together = cells.together.unwrap();
    let lines = together.h_lines.unwrap();
    let beyond = |at: usize| cells.cells[at].h.unwrap().abs() > lines[1];
    let beyond: Vec<usize> = (0..6).filter(|at| beyond(*at)).collect();
    assert_eq!(beyond, [3]);
    let off = cells.cells[3].against_others.unwrap();
    assert!(off.low < 0.15 && 0.15 < off.high, "{off:?}");
    assert!(together.reproducibility > 1.3 * together.repeatability);
}

#[test]
fn class_that_scatters_is_beyond_the_line_of_k() {
    let mut rough = careful();
    shift(
        &mut rough,
        4,
        |number| if number % 2 == 0 { 1.1 } else { 0.9 },
    );
    let cells = ripples(&rough);
    let beyond = |at: usize| cells.cells[at].k.unwrap() > cells.cells[at].k_lines.unwrap()[1];
    let beyond: Vec<usize> = (0..6).filter(|at| beyond(*at)).collect();
    assert_eq!(beyond, [4]);
}

#[test]
fn group_that_does_not_belong_with_its_lesson_is_left_aside() {
    let mut gross = careful();
    let before = ripples(&gross);
    let sheet = gross.sheets.iter_mut().find(|s| s.kits[0] < 3).unwrap();
    sheet.judgement.speed = sheet.judgement.speed.map(|speed| speed * 3.0);
    let lesson = sheet.lesson;
    let class = gross.lessons[lesson].class;
    let after = ripples(&gross);
    assert_eq!(
        after.cells[class].left_aside,
        before.cells[class].left_aside + 1
    );
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
fn class_of_far_fewer_groups_than_the_others_has_no_h() {
    let mut small = careful();
    thin_out(&mut small, 3, 5);
    let cells = ripples(&small);
    assert!((3..=5).contains(&cells.cells[3].counted));
    assert_eq!(cells.cells[3].h, None);
    assert!(cells.cells[3].k.is_some() && cells.cells[3].ratio.is_some());
    assert!(cells.cells[2].h.is_some());
    // Five cells are left, and the lines are theirs: 1.57 and 1.72.
    let [five, one] = cells.together.unwrap().h_lines.unwrap();
    assert!((five - 1.57).abs() < 0.01 && (one - 1.72).abs() < 0.01);
}

#[test]
fn three_classes_have_no_h_and_one_has_its_ratio_still() {
    let mut three = careful();
    for class in 3..6 {
        thin_out(&mut three, class, 0);
    }
    let cells = ripples(&three);
    assert!(cells.cells.iter().all(|cell| cell.h.is_none()));
    assert_eq!(cells.together.unwrap().h_lines, None);
    thin_out(&mut three, 1, 0);
    thin_out(&mut three, 2, 0);
    let one = ripples(&three);
    assert_eq!(one.together, None);
    let ratio = one.cells[0].ratio.unwrap();
    assert!(ratio.low < ratio.value && ratio.value < ratio.high);
    assert_eq!(one.cells[0].against_others, None);
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
fn marks_are_spread_by_quartiles() {
    let mut year = careful();
    let in_first = |s: &&mut analysis::year::YearSheet| s.lesson == 0;
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
    for (found, mark) in marks.quartiles.into_iter().zip([0.5, 0.6, 0.7, 0.8, 0.9]) {
        assert!((found - mark).abs() < 1e-12, "{found} for {mark}");
    }
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
