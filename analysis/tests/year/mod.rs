//! A simulated school year compared: what is wrong with a kit is found, what
//! is not is not, and every count is a count.

#![expect(clippy::unwrap_used, reason = "a test that cannot go on should stop")]

mod cells;
mod judgement;
mod kits;
mod slips;

use analysis::assess::assess;
use analysis::method::Method;
use analysis::reading::Cause;
use analysis::sheet::Sheet;
use analysis::slip::Kind;
use analysis::year::{Judgement, Lesson, Made, Year, YearSheet, kits as judged};
use simulator::year::{self as simulated, CLASSES, Department, HandedIn, KITS, TEACHER_OF};

use crate::pupil::typed;
use crate::reading::cause;

/// A simulated year as the analysis takes it.
fn year(department: &Department, seed: u64) -> Year {
    let drawn = department.year(seed);
    let lessons = drawn.iter().map(|lesson| Lesson {
        class: lesson.class,
        teacher: TEACHER_OF[lesson.class],
        method: method(lesson.method),
        month: usize::try_from(lesson.day / 31).unwrap().min(11),
        groups: lesson.sheets.len(),
    });
    let sheets = drawn.iter().enumerate().flat_map(sheets);
    Year {
        lessons: lessons.collect(),
        classes: CLASSES.len(),
        teachers: 4,
        kits: KITS.iter().map(|label| kind(label)).collect(),
        sheets: sheets.collect(),
    }
}

fn sheets((lesson, simulated): (usize, &simulated::Lesson)) -> impl Iterator<Item = YearSheet> {
    simulated
        .sheets
        .iter()
        .map(move |sheet| judged_sheet(lesson, sheet))
}

fn judged_sheet(lesson: usize, simulated: &HandedIn) -> YearSheet {
    let sheet = Sheet::check(&typed(&simulated.sheet)).unwrap();
    let judgement = Judgement::of(&sheet, &assess(&sheet));
    let confirmed = simulated.confirmed.map(|(_, code)| cause(code));
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

fn method(method: simulator::sheet::Method) -> Method {
    match method {
        simulator::sheet::Method::RippleTank => Method::RippleTank,
        simulator::sheet::Method::StringLoops => Method::StringLoops,
    }
}
