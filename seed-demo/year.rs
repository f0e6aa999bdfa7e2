//! The year before: six classes, four teachers, the same apparatus. Nobody
//! planned these groups one by one; what befalls each is its luck.

use analysis::method::Method;
use analysis::slip::Slip;
use jiff::civil::{Date, Time, time};
use simulator::dice::Dice;
use simulator::kit::Tank;

use crate::group::{Group, Word, loops, ripples};
use crate::kit::{
    GENERATOR_1, GENERATOR_2_HIGH, Generator, STRING_1, STRING_2, Strung, TANK_1, TANK_2_CLEAN,
    TANK_3, TANK_4,
};
use crate::lesson::number;
use crate::term::{Lesson, Marked, Teacher, When, nth_school_day};

/// Groups in a class.
const GROUPS: usize = 8;

/// Lessons of this term come first in the numbers that decide luck.
const AFTER_THIS_TERM: usize = 20;

/// A class of the year before, with when it has its lessons.
struct Class {
    name: &'static str,
    teacher: Teacher,
    starts: Time,
    /// How often its groups slip in the working, as a share of one.
    slips: f64,
}

fn classes() -> [Class; 6] {
    let class = |name, teacher, starts, slips| Class {
        name,
        teacher,
        starts,
        slips,
    };
    [
        class("10A/Ph1", Teacher::Tarn, time(9, 50, 0, 0), 0.40),
        class("10B/Ph2", Teacher::Beck, time(11, 20, 0, 0), 0.50),
        class("10D/Ph1", Teacher::Holm, time(13, 55, 0, 0), 0.45),
        class("11A/Ph2", Teacher::Rook, time(9, 50, 0, 0), 0.45),
        class("11C/Ph1", Teacher::Tarn, time(11, 20, 0, 0), 0.40),
        class("11F/Ph2", Teacher::Rook, time(13, 55, 0, 0), 0.55),
    ]
}

/// When the three practicals begin, by month and day; each class has its own
/// a school day later than the one before it.
const AUTUMN: (i8, i8) = (10, 13);
const SPRING: (i8, i8) = (2, 23);
const SUMMER: (i8, i8) = (6, 8);

/// Returns the lessons of the year before, oldest first: tanks in autumn,
/// strings in spring, tanks again in summer after the counting was taught
/// anew.
pub(crate) fn lessons() -> Vec<Lesson> {
    let practicals = [
        (AUTUMN, &WATER, 1.0),
        (SPRING, &CORD, 1.0),
        (SUMMER, &WATER, 0.35),
    ];
    let mut lessons = Vec::new();
    for ((month, day), practical, taught) in practicals {
        for (later, class) in (0_u32..).zip(classes()) {
            let place = AFTER_THIS_TERM + lessons.len();
            let groups = (0..GROUPS).map(|at| group(practical, place, at, taught * class.slips));
            lessons.push(Lesson {
                place,
                class: class.name,
                method: practical.method,
                teacher: class.teacher,
                when: When::LastYear { month, day, later },
                starts: class.starts,
                is_open: false,
                marked: Marked::GivenOut,
                groups: groups.collect(),
            });
        }
    }
    lessons
}

/// Returns the school day so much later than a day of the school year before
/// `today`'s.
pub(crate) fn last_year(today: Date, month: i8, day: i8, later: u32) -> Date {
    let start = today.year() - i16::from(today.month() < 9) - 1;
    let year = start + i16::from(month < 9);
    // The days are constants of this file, and all of them are in the calendar.
    let first = Date::new(year, month, day).unwrap_or(today);
    nth_school_day(
        std::iter::successors(Some(first), |day| day.tomorrow().ok()),
        later,
    )
    .unwrap_or(first)
}

/// The apparatus as it was that year, eight kits of it; the other strings and
/// generators came in the summer.
const TANKS: [&Tank; 4] = [TANK_1, TANK_2_CLEAN, TANK_3, TANK_4];
/// Each string on each generator, so that one that is off tells which.
const STRINGS: [(&Strung, &Generator); 4] = [
    (STRING_1, GENERATOR_1),
    (STRING_2, GENERATOR_2_HIGH),
    (STRING_1, GENERATOR_2_HIGH),
    (STRING_2, GENERATOR_1),
];

const RIPPLES: [&[f64]; 4] = [
    &[10.0, 15.0, 20.0, 25.0, 30.0],
    &[10.0, 20.0, 30.0, 40.0, 50.0],
    &[12.0, 18.0, 24.0, 30.0, 36.0],
    &[10.0, 15.0, 20.0, 25.0, 30.0, 40.0],
];
const LOOPS: [&[u32]; 3] = [&[1, 2, 3, 4, 5], &[2, 3, 4, 5], &[1, 2, 3, 4, 5, 6]];
const HUNG: [f64; 3] = [150.0, 200.0, 250.0];

const WATER_SLIPS: [Slip; 6] = [
    Slip::ScaleLeftOut,
    Slip::UnitPowerOfTen,
    Slip::SpanNotDivided,
    Slip::MeanNotDivided,
    Slip::ScaleUpsideDown,
    Slip::GradientUpsideDown,
];
const CORD_SLIPS: [Slip; 5] = [
    Slip::LoopTakenAsWavelength,
    Slip::NodesCountedAsLoops,
    Slip::DialMultiplierLeftOut,
    Slip::MeanWrongCount,
    Slip::SpeedInverted,
];

/// What groups do in a lesson.
struct Practical {
    method: Method,
    /// Sets a group up by its place among the others, and by luck.
    set_up: fn(usize, &mut Dice) -> Group,
    /// Commonest first; the first is drawn most often.
    slips: &'static [Slip],
    /// The slip that makes a count too high by one.
    one_too_many: &'static str,
}

const WATER: Practical = Practical {
    method: Method::RippleTank,
    set_up: |at, luck| ripples(TANKS[at % TANKS.len()], luck.pick(&RIPPLES)),
    slips: &WATER_SLIPS,
    one_too_many: "counted-from-one",
};

const CORD: Practical = Practical {
    method: Method::StringLoops,
    set_up: |at, luck| {
        let (cord, generator) = STRINGS[at % STRINGS.len()];
        loops(cord, luck.pick(&HUNG), luck.pick(&LOOPS)).on(generator)
    },
    slips: &CORD_SLIPS,
    one_too_many: "nodes-counted-as-loops",
};

fn group(practical: &Practical, lesson: usize, at: usize, slips: f64) -> Group {
    // A generator of its own: the readings' luck stays what it would be.
    let mut luck = Dice::new(number(lesson, at) + 5_000_000);
    let mut group = (practical.set_up)(at, &mut luck);
    if luck.share() < 0.3 {
        group = group.rounding_on_the_way();
    }
    if luck.share() < slips {
        let slip = common(&mut luck, practical.slips);
        group = group.wrong(slip).word(Word::Confirmed);
    }
    if luck.share() < 0.08 {
        group = group
            .slipping(practical.one_too_many)
            .word(Word::FoundAtTheBench);
    } else if luck.share() < 0.2 {
        group = group.plain_dial();
    }
    group
}

/// Returns the smaller of two draws, so that the first come most often.
fn common(luck: &mut Dice, of: &[Slip]) -> Slip {
    let (one, other) = (luck.within(0..of.len()), luck.within(0..of.len()));
    of[one.min(other)]
}
