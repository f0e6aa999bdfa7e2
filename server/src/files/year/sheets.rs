//! The sheets of a year: one line a sheet.

use std::collections::HashMap;

use analysis::year::groups::{self, GroupPlace, Groups};
use analysis::year::{Made, Year};

use super::{number, table, typed};
use crate::report::year::words::slip;
use crate::report::year::{Frame, Sheets};

/// The sheets file: those in these places of the year.
///
/// # Errors
/// When the table cannot be written.
pub fn sheets(frame: &Frame, sheets: &Sheets, wanted: &[usize]) -> csv::Result<Vec<u8>> {
    let columns = [
        "date",
        "class",
        "group",
        "method",
        "kit",
        "speed",
        "expected_speed",
        "ratio",
        "speed_uncertainty",
        "h",
        "k",
        "slips_in_working",
        "confirmed",
        "slip_in_readings",
        "mark",
    ];
    let year = &sheets.year;
    let mut places = Places::default();
    let lines = wanted.iter().map(|at| {
        let sheet = &year.sheets[*at];
        let lesson = &frame.lessons[sheet.lesson];
        let judgement = &sheet.judgement;
        let place = places.of(year, *at);
        [
            lesson.held_on.clone(),
            typed(&lesson.class_name),
            typed(&sheets.labels[*at]),
            lesson.method.clone(),
            typed(&sheets.kits_as_written[*at]),
            number(judgement.speed),
            number(judgement.expected),
            number(judgement.log_ratio().map(f64::exp)),
            number(judgement.uncertainty),
            number(place.h),
            number(place.k),
            codes(&sheet.made, |made| matches!(made, Made::Shown(_))),
            codes(&sheet.made, |made| matches!(made, Made::Confirmed(_))),
            if sheet.is_slipped { "yes" } else { "" }.to_owned(),
            number(sheet.mark),
        ]
    });
    table(columns, lines)
}

fn codes(made: &[Made], is_wanted: impl Fn(&Made) -> bool) -> String {
    let wanted = made.iter().filter(|made| is_wanted(made));
    let codes: Vec<&str> = wanted.map(|made| slip::code(*made)).collect();
    codes.join(" ")
}

/// How groups stand in their lessons, each lesson compared once.
#[derive(Default)]
struct Places(HashMap<usize, Groups>);

impl Places {
    fn of(&mut self, year: &Year, at: usize) -> GroupPlace {
        let lesson = year.sheets[at].lesson;
        let groups = self
            .0
            .entry(lesson)
            .or_insert_with(|| groups::compare(year, lesson));
        // Sheets come by lesson, so the first of it is not far.
        let before = year.sheets[..at].iter().rev();
        let in_lesson = before.take_while(|sheet| sheet.lesson == lesson).count();
        groups.places.get(in_lesson).copied().unwrap_or_default()
    }
}
