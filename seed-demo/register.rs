//! The register: who of a class was there, and who caught up. The same pupils
//! come to every practical of their class.

use jiff::civil::Date;
use server::acts::{Doing, KeepRegister};
use server::clock::{HOUR, MINUTE, school_year};
use server::db::Error;
use server::db::bench::Bench;
use server::db::register::{self, RegisterLine};
use server::ids::ClassSetId;
use simulator::dice::Dice;

use crate::department::done;
use crate::lesson::{Held, number};
use crate::term::{Lesson, nth_school_day};

/// Pupils in the smallest class, and how many more there may be.
const FEWEST: usize = 26;
const MORE: usize = 5;

/// How often a pupil is absent, and how often an absentee catches up.
const ABSENT: f64 = 0.07;
const CATCHES_UP: f64 = 0.75;

/// Letters that initials begin and end with.
const FIRST: [char; 14] = [
    'A', 'B', 'C', 'D', 'E', 'F', 'H', 'J', 'K', 'L', 'M', 'N', 'R', 'T',
];
const LAST: [char; 14] = [
    'B', 'C', 'D', 'F', 'G', 'H', 'K', 'L', 'M', 'N', 'P', 'R', 'T', 'W',
];

/// Keeps the register of a lesson at its end; those who were absent catch up
/// in the weeks after it.
pub(crate) async fn keep(
    doing: &mut Doing<'_>,
    held: &Held,
    id: ClassSetId,
    benches: &[Bench],
    lesson: &Lesson,
) -> Result<(), Error> {
    let roll = roll(lesson.class, school_year(held.on));
    let mut luck = Dice::new(number(lesson.place, 0) + 6_000_000);
    let (mut present, mut absent) = (Vec::new(), Vec::new());
    for (place, initials) in roll.iter().enumerate() {
        if luck.share() < ABSENT {
            absent.push((initials, caught_up(held, &mut luck)));
        } else {
            // Groups sit together on the roll.
            let bench = benches.get(place * benches.len() / roll.len());
            present.push(line(initials, bench, None));
        }
    }
    let at = held.starts + 70 * MINUTE;
    let missing = absent.iter().map(|(of, _)| line(of, None, None));
    let lines = present.iter().cloned().chain(missing).collect();
    write(doing, held, id, lines, at).await?;
    let Some(last) = absent.iter().filter_map(|(_, day)| *day).max() else {
        return Ok(());
    };
    present.extend(absent.iter().map(|(of, day)| line(of, None, *day)));
    let days = held.on.until(last).map_or(0, |span| span.get_days());
    write(doing, held, id, present, at + i64::from(days) * 24 * HOUR).await
}

/// Puts these lines in the place of those that are there.
async fn write(
    doing: &mut Doing<'_>,
    held: &Held,
    class_set: ClassSetId,
    lines: Vec<RegisterLine>,
    at: i64,
) -> Result<(), Error> {
    let keep = KeepRegister {
        class_set,
        lines,
        seen: register::digest(&register::list(doing.read(), class_set).await?)?,
        today: held.on,
    };
    done(doing.perform(at, held.marker.staff, keep).await?)
}

fn line(initials: &str, bench: Option<&Bench>, caught_up_on: Option<Date>) -> RegisterLine {
    RegisterLine {
        bench_id: bench.map(|bench| bench.id),
        initials: initials.to_owned(),
        was_present: bench.is_some(),
        caught_up_on: caught_up_on.map(|day| day.to_string()),
    }
}

/// Returns the day on which an absentee caught up; `None`: not so far.
fn caught_up(held: &Held, luck: &mut Dice) -> Option<Date> {
    let (comes, later) = (luck.share() < CATCHES_UP, luck.within(0..14));
    let days = std::iter::successors(held.on.tomorrow().ok(), |day| day.tomorrow().ok());
    let day = nth_school_day(days, 3 + later)?;
    (comes && day < held.today).then_some(day)
}

/// Returns the initials of a class in the order of its roll; no two alike.
fn roll(class: &str, school_year: i64) -> Vec<String> {
    let name = class
        .bytes()
        .fold(0, |sum, byte| 31 * sum + u64::from(byte));
    let year = u64::try_from(school_year).unwrap_or(0);
    let mut dice = Dice::new(name % 1_000_000 + year);
    let pupils = FEWEST + dice.within(0..MORE);
    let mut roll: Vec<String> = Vec::new();
    while roll.len() < pupils {
        let letters = [dice.pick(&FIRST), dice.pick(&LAST)];
        let initials = String::from_iter(letters);
        if letters[0] != letters[1] && !roll.contains(&initials) {
            roll.push(initials);
        }
    }
    roll
}
