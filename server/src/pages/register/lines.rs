//! From what was typed to the lines of a register, or to what is wrong.

use jiff::civil::Date;

use super::set::SetRegister;
use super::typed::{Typed, TypedAbsentee, TypedGroup};
use crate::db::bench::Bench;
use crate::db::register::Line;

/// Most pupils of one group, and most absentees.
const MOST: usize = 40;
/// Longest initials, in characters.
const LONGEST: usize = 6;

/// What is wrong with each box.
#[derive(Debug, Default)]
pub(super) struct Wrong {
    /// Of each bench: the number, the initials.
    pub(super) groups: Vec<(Option<String>, Option<String>)>,
    pub(super) absent: Option<String>,
    /// Of each absentee: the initials, the day.
    pub(super) absentees: Vec<(Option<String>, Option<String>)>,
}

impl Wrong {
    /// How many boxes are wrong.
    pub(super) fn count(&self) -> usize {
        let pairs = self.groups.iter().chain(&self.absentees);
        let in_pairs =
            pairs.map(|(one, other)| usize::from(one.is_some()) + usize::from(other.is_some()));
        in_pairs.sum::<usize>() + usize::from(self.absent.is_some())
    }
}

/// The days between which somebody can have caught up, both included.
#[derive(Clone, Copy, Debug)]
pub(super) struct Days {
    pub(super) lesson: Date,
    pub(super) today: Date,
}

/// The lines that boxes stand for.
pub(super) fn check(typed: &Typed, set: &SetRegister, days: Days) -> Result<Vec<Line>, Wrong> {
    let mut wrong = Wrong::default();
    let mut lines = Vec::new();
    for (bench, boxes) in set.benches.iter().zip(&typed.groups) {
        let (taken, faults) = group(bench, boxes);
        lines.extend(taken);
        wrong.groups.push(faults);
    }
    let (count, fault) = absent(typed);
    wrong.absent = fault;
    let blank = TypedAbsentee::default();
    for at in 0..count.max(typed.absentees.len()) {
        let (taken, faults) = absentee(typed.absentees.get(at).unwrap_or(&blank), days);
        lines.extend(taken.filter(|_| at < count));
        wrong.absentees.push(faults);
    }
    if wrong.count() == 0 {
        Ok(lines)
    } else {
        Err(wrong)
    }
}

type Faults = (Option<String>, Option<String>);

/// A group's number may be left out where its initials say it.
fn group(bench: &Bench, boxes: &TypedGroup) -> (Vec<Line>, Faults) {
    let initials = match each(&boxes.initials) {
        Ok(initials) => initials,
        Err(fault) => return (Vec::new(), (count(&boxes.present).err(), Some(fault))),
    };
    let present = match count(&boxes.present) {
        Ok(present) => present.unwrap_or(initials.len()),
        Err(fault) => return (Vec::new(), (Some(fault), None)),
    };
    if initials.len() > present {
        let fault = format!(
            "There are initials of {}. Type {} present, or take some away.",
            initials.len(),
            initials.len()
        );
        return (Vec::new(), (Some(fault), None));
    }
    if present > MOST {
        let fault = format!("A group has at most {MOST} pupils.");
        return (Vec::new(), (None, Some(fault)));
    }
    let blanks = present - initials.len();
    let all = initials.into_iter().chain(vec![String::new(); blanks]);
    let line = |initials| Line {
        bench_id: Some(bench.id),
        initials,
        was_present: true,
        caught_up_on: None,
    };
    (all.map(line).collect(), (None, None))
}

/// A whole number, `None` where nothing is typed.
fn count(text: &str) -> Result<Option<usize>, String> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(None);
    }
    let number = text.parse().ok().filter(|n| *n <= MOST);
    number
        .map(Some)
        .ok_or_else(|| format!("Type a whole number from 0 to {MOST}."))
}

/// The initials in a box, with blanks or commas between.
fn each(text: &str) -> Result<Vec<String>, String> {
    let parts = text.split(|c: char| c.is_whitespace() || c == ',' || c == ';');
    let parts = parts.filter(|part| !part.is_empty());
    parts.map(one).collect()
}

/// One pupil's; points between the letters are left out.
fn one(text: &str) -> Result<String, String> {
    let letters: String = text.trim().chars().filter(|c| *c != '.').collect();
    if letters.chars().count() > LONGEST || !letters.chars().all(char::is_alphabetic) {
        let short: String = letters.chars().take(20).collect();
        return Err(format!(
            "“{short}” cannot be kept: initials are at most {LONGEST} letters, with a space between two pupils’."
        ));
    }
    Ok(letters)
}

/// How many absentees there are. What is filled in about one is not dropped
/// because a smaller number stands above it.
fn absent(typed: &Typed) -> (usize, Option<String>) {
    let filled = typed.absentees.iter().rposition(|one| !one.is_blank());
    let filled = filled.map_or(0, |last| last + 1);
    match count(&typed.absent) {
        Ok(None) => (filled, None),
        Ok(Some(count)) if count < filled => {
            let fault = format!(
                "Something is filled in for absentee {filled}. Clear that first, or type {filled}."
            );
            (filled, Some(fault))
        }
        Ok(Some(count)) => (count, None),
        Err(fault) => (filled, Some(fault)),
    }
}

fn absentee(boxes: &TypedAbsentee, days: Days) -> (Option<Line>, Faults) {
    match (one(&boxes.initials), day(&boxes.caught_up, days)) {
        (Ok(initials), Ok(caught_up)) => {
            let line = Line {
                bench_id: None,
                initials,
                was_present: false,
                caught_up_on: caught_up.map(|day| day.to_string()),
            };
            (Some(line), (None, None))
        }
        (initials, caught_up) => (None, (initials.err(), caught_up.err())),
    }
}

fn day(text: &str, days: Days) -> Result<Option<Date>, String> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(None);
    }
    let day: Date = text
        .parse()
        .map_err(|_| "Type the day as year-month-day, for instance 2026-12-01.".to_owned())?;
    if day < days.lesson {
        return Err("That day is before the lesson.".to_owned());
    }
    if day > days.today {
        return Err("That day has not come yet. Type it once the pupil has caught up.".to_owned());
    }
    Ok(Some(day))
}
