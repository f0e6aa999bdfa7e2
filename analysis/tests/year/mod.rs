//! A simulated school year compared: what is wrong with a kit is found, what
//! is not is not, and every count is a count.

#![expect(clippy::unwrap_used, reason = "a test that cannot go on should stop")]

mod cells;
mod judgement;
mod kits;
mod slips;

#[path = "../../../tests/support/school/mod.rs"]
#[expect(
    unreachable_pub,
    reason = "the same files serve the tests of another crate"
)]
mod school;

use analysis::assess::assess;
use analysis::reading::Cause;
use analysis::sheet::Sheet;
use analysis::slip::Kind;
use analysis::year::{Judgement, Lesson, Made, Year, YearSheet, kits as judged};

use school::{CLASSES, KITS, School, SimLesson, SimSheet, TEACHER_OF};

/// A simulated year as the analysis takes it.
fn year(school: &School, seed: u64) -> Year {
    let simulated = school.year(seed);
    let lessons = simulated.iter().map(|lesson| Lesson {
        class: lesson.class,
        teacher: TEACHER_OF[lesson.class],
        method: lesson.method,
        month: usize::try_from(lesson.day / 31).unwrap().min(11),
        groups: lesson.sheets.len(),
    });
    let sheets = simulated.iter().enumerate().flat_map(sheets);
    Year {
        lessons: lessons.collect(),
        classes: CLASSES.len(),
        teachers: 4,
        kits: KITS.iter().map(|label| kind(label)).collect(),
        sheets: sheets.collect(),
    }
}

fn sheets((lesson, simulated): (usize, &SimLesson)) -> impl Iterator<Item = YearSheet> {
    simulated
        .sheets
        .iter()
        .map(move |sheet| judged_sheet(lesson, sheet))
}

fn judged_sheet(lesson: usize, simulated: &SimSheet) -> YearSheet {
    let sheet = Sheet::check(&simulated.typed).unwrap();
    let judgement = Judgement::of(&sheet, &assess(&sheet));
    let confirmed = simulated.confirmed.map(|(_, cause)| cause);
    let mut made: Vec<Made> = judgement
        .slips
        .iter()
        .map(|shown| Made::Shown(shown.slip))
        .chain(confirmed.map(Made::Confirmed))
        .collect();
    made.sort_unstable();
    made.dedup();
    let kits = KITS.iter().enumerate();
    let kits = kits.filter(|(_, label)| simulated.kit.contains(**label));
    YearSheet {
        lesson,
        kits: kits.map(|(at, _)| at).collect(),
        is_slipped: confirmed.is_some_and(|cause: Cause| cause.kind() == Kind::Slip),
        judgement,
        made,
        mark: None,
    }
}

fn kind(label: &str) -> judged::Kind {
    match label.split(' ').next() {
        Some("Tank") => judged::Kind::Tank,
        Some("Generator") => judged::Kind::Generator,
        _ => judged::Kind::String,
    }
}
