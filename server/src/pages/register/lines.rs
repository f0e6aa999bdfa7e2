//! From what was typed to the lines of a register, or to what is wrong.

use jiff::civil::Date;

use super::set::SetRegister;
use super::typed::{RegisterTyped, TypedAbsentee, TypedGroup};
use crate::db::bench::Bench;
use crate::db::register::RegisterLine;
use crate::words::refusal;

/// Most pupils of one group, and most absentees.
const MOST: usize = 40;
/// Longest initials, in characters.
const LONGEST: usize = 6;

/// The days between which somebody can have caught up, both included.
#[derive(Clone, Copy, Debug)]
pub(super) struct Days {
    pub(super) lesson: Date,
    pub(super) today: Date,
}

/// Returns the lines that boxes stand for. Returns `None` when one cannot be
/// taken, and then why stands beside it.
pub(super) fn check(
    typed: &mut RegisterTyped,
    set: &SetRegister,
    days: Days,
) -> Option<Vec<RegisterLine>> {
    let mut lines = Vec::new();
    for (bench, boxes) in set.benches.iter().zip(&mut typed.groups) {
        lines.extend(group(bench, boxes).into_iter().flatten());
    }
    let count = absent(typed);
    let filled = typed.absentees.iter_mut();
    let mut absentees: Vec<RegisterLine> =
        filled.filter_map(|boxes| absentee(boxes, days)).collect();
    let unknown = RegisterLine {
        bench_id: None,
        initials: String::new(),
        was_present: false,
        caught_up_on: None,
    };
    absentees.resize(count, unknown);
    lines.extend(absentees);
    (typed.count_wrong() == 0).then_some(lines)
}

/// A group's number may be left out where its initials say it.
fn group(bench: &Bench, boxes: &mut TypedGroup) -> Option<Vec<RegisterLine>> {
    let initials = boxes.initials.check(each);
    let present = boxes.present.check(count);
    let (initials, present) = initials.zip(present)?;
    let present = present.unwrap_or(initials.len());
    if initials.len() > present {
        boxes.present.refuse(refusal::more_initials(initials.len()));
        return None;
    }
    if present > MOST {
        boxes.initials.refuse(refusal::large_group(MOST));
        return None;
    }
    let blanks = present - initials.len();
    let all = initials.into_iter().chain(vec![String::new(); blanks]);
    let line = |initials| RegisterLine {
        bench_id: Some(bench.id),
        initials,
        was_present: true,
        caught_up_on: None,
    };
    Some(all.map(line).collect())
}

/// Returns a whole number. Returns `None` when nothing is typed.
fn count(text: &str) -> Result<Option<usize>, String> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(None);
    }
    let number = text.parse().ok().filter(|n| *n <= MOST);
    number.map(Some).ok_or_else(|| refusal::up_to(MOST))
}

/// Returns the initials in a box, with blanks or commas between.
fn each(text: &str) -> Result<Vec<String>, String> {
    let parts = text.split(|c: char| c.is_whitespace() || c == ',' || c == ';');
    let parts = parts.filter(|part| !part.is_empty());
    parts.map(one).collect()
}

/// Returns one pupil's; points between the letters are left out.
fn one(text: &str) -> Result<String, String> {
    let letters: String = text.trim().chars().filter(|c| *c != '.').collect();
    if letters.chars().count() > LONGEST || !letters.chars().all(char::is_alphabetic) {
        let short: String = letters.chars().take(20).collect();
        return Err(refusal::no_initials(&short, LONGEST));
    }
    Ok(letters)
}

/// Counts the absentees. One who is filled in counts also where the number
/// typed is smaller.
fn absent(typed: &mut RegisterTyped) -> usize {
    let filled = typed.absentees.iter().rposition(|one| !one.is_blank());
    let filled = filled.map_or(0, |last| last + 1);
    let count = typed.absent.check(|text| match count(text)? {
        Some(count) if count < filled => Err(refusal::absentee_filled(filled)),
        count => Ok(count),
    });
    count.flatten().unwrap_or(filled)
}

fn absentee(boxes: &mut TypedAbsentee, days: Days) -> Option<RegisterLine> {
    let initials = boxes.initials.check(one);
    let caught_up = boxes.caught_up.check(|text| day(text, days));
    Some(RegisterLine {
        bench_id: None,
        initials: initials?,
        was_present: false,
        caught_up_on: caught_up?.map(|day| day.to_string()),
    })
}

fn day(text: &str, days: Days) -> Result<Option<Date>, String> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(None);
    }
    let day: Date = text
        .parse()
        .map_err(|_| refusal::DAY_CAUGHT_UP.to_owned())?;
    if day < days.lesson {
        return Err(refusal::BEFORE_LESSON.to_owned());
    }
    if day > days.today {
        return Err(refusal::DAY_TO_COME.to_owned());
    }
    Ok(Some(day))
}
