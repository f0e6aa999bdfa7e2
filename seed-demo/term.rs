//! The term: three classes, each at the tanks and at the strings.

use analysis::field::Field;
use analysis::method::Method;
use analysis::slip::Slip;
use jiff::civil::{Date, Time, Weekday, time};

use crate::group::{Group, Progress, Word, loops, ripples};
use crate::kit::{
    STRING_1, STRING_2, STRING_3, STRING_4, TANK_1, TANK_1_LAMP_MOVED, TANK_2, TANK_3,
};
use crate::year;

/// Who teaches a class.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Teacher {
    /// The head of department.
    Beck,
    Tarn,
    Holm,
    /// Marks more severely than the others.
    Rook,
}

impl Teacher {
    /// Returns a number of their own.
    pub(crate) fn number(self) -> u64 {
        match self {
            Self::Beck => 0,
            Self::Tarn => 1,
            Self::Holm => 2,
            Self::Rook => 3,
        }
    }
}

/// How much of a class set is marked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Marked {
    No,
    /// The first so many sheets.
    First(usize),
    All,
    /// All, and the groups may read it.
    GivenOut,
}

/// When a lesson is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum When {
    /// With so many school days between it and today.
    Ago(u32),
    /// On the school day so much later than a day of the school year before
    /// this one.
    LastYear { month: i8, day: i8, later: u32 },
}

#[derive(Debug)]
pub(crate) struct Lesson {
    /// Its place among all lessons: decides the luck of its groups.
    pub(crate) place: usize,
    pub(crate) class: &'static str,
    pub(crate) method: Method,
    pub(crate) teacher: Teacher,
    pub(crate) when: When,
    /// When it starts.
    pub(crate) starts: Time,
    /// Whether its class set is still open.
    pub(crate) is_open: bool,
    /// How much of it is marked.
    pub(crate) marked: Marked,
    /// Groups A, B, C and so on.
    pub(crate) groups: Vec<Group>,
}

/// Returns the lessons, oldest first; the last is the one still open.
pub(crate) fn lessons() -> Vec<Lesson> {
    let lesson = |class, method, ago, starts, groups| Lesson {
        place: 0,
        class,
        method,
        teacher: if class == "10A/Ph1" {
            Teacher::Tarn
        } else {
            Teacher::Beck
        },
        when: When::Ago(ago),
        starts,
        is_open: ago == 0,
        marked: match ago {
            0 => Marked::No,
            1..10 => Marked::First(5),
            10..20 => Marked::All,
            _ => Marked::GivenOut,
        },
        groups,
    };
    let (water, cord) = (Method::RippleTank, Method::StringLoops);
    let lessons = [
        lesson("11C/Ph1", water, 38, time(9, 50, 0, 0), ripples_of_11c()),
        lesson("10B/Ph2", cord, 33, time(11, 20, 0, 0), loops_of_10b()),
        lesson("10A/Ph1", water, 29, time(13, 55, 0, 0), ripples_of_10a()),
        lesson("11C/Ph1", cord, 14, time(9, 50, 0, 0), loops_of_11c()),
        lesson("10A/Ph1", cord, 7, time(13, 55, 0, 0), loops_of_10a()),
        lesson("10B/Ph2", water, 0, time(11, 20, 0, 0), ripples_of_10b()),
    ];
    let placed = lessons.into_iter().enumerate();
    placed
        .map(|(place, lesson)| Lesson { place, ..lesson })
        .collect()
}

pub(crate) fn day(today: Date, when: When) -> Date {
    match when {
        When::Ago(ago) => school_day(today, ago),
        When::LastYear { month, day, later } => year::last_year(today, month, day, later),
    }
}

/// Returns the weekday before `today` with so many weekdays between.
pub(crate) fn school_day(today: Date, ago: u32) -> Date {
    let earlier = std::iter::successors(today.yesterday().ok(), |day| day.yesterday().ok());
    nth_school_day(earlier, ago).unwrap_or(today)
}

/// Returns the weekday among these days that has so many weekdays before it.
pub(crate) fn nth_school_day(days: impl Iterator<Item = Date>, before: u32) -> Option<Date> {
    let is_school_day = |day: &Date| !matches!(day.weekday(), Weekday::Saturday | Weekday::Sunday);
    days.filter(is_school_day)
        .nth(usize::try_from(before).unwrap_or(0))
}

const TO_50: &[f64] = &[10.0, 20.0, 30.0, 40.0, 50.0];
const TO_40: &[f64] = &[10.0, 15.0, 20.0, 25.0, 30.0, 40.0];
const TO_30: &[f64] = &[10.0, 15.0, 20.0, 25.0, 30.0];
const TO_36: &[f64] = &[12.0, 18.0, 24.0, 30.0, 36.0];
const REPEATED: &[f64] = &[15.0, 15.0, 25.0, 25.0, 35.0, 35.0];
const BY_WATCH: &[f64] = &[2.5, 3.0, 3.5, 4.0, 5.0];

fn ripples_of_11c() -> Vec<Group> {
    vec![
        ripples(TANK_1, TO_50).wrong(Slip::GradientFromOnePoint).word(Word::Dismissed(
            "Their graph shows a line drawn through the first cross: the slip is in the drawing, and we talked it over.",
        )),
        ripples(TANK_2, TO_30).speeds_in("cm/s"),
        ripples(TANK_3, TO_40)
            .calling_one_first()
            .wrong(Slip::CountedFromOne)
            .word(Word::Confirmed),
        ripples(TANK_1, REPEATED).rounding_on_the_way(),
        ripples(TANK_2, TO_40).wrong(Slip::ScaleLeftOut).word(Word::Confirmed),
        ripples(TANK_3, TO_36).lengths_in("mm").plain_dial(),
        ripples(TANK_1, TO_40).miscounting(3).leaving_it_out().word(Word::Note(
            Some("4"),
            None,
            "Well spotted, and rightly left out: it looks like one crest too many.",
        )),
        ripples(TANK_2, TO_36),
    ]
}

fn loops_of_10b() -> Vec<Group> {
    vec![
        loops(STRING_1, 200.0, &[1, 2, 3, 4, 5])
            .slipping("nodes-counted-as-loops")
            .word(Word::FoundAtTheBench),
        loops(STRING_2, 150.0, &[2, 3, 4, 5])
            .wrong(Slip::LoopTakenAsWavelength)
            .word(Word::Confirmed),
        loops(STRING_3, 300.0, &[1, 2, 3, 4]).wrong(Slip::InnerNodesCounted),
        loops(STRING_4, 200.0, &[1, 2, 3, 3, 4, 4]).two_loops_measured(),
        loops(STRING_1, 100.0, &[2, 3, 4, 5, 6])
            .miscounting(2)
            .wrong(Slip::MeanNotDivided),
        loops(STRING_2, 250.0, &[1, 2, 3, 4, 5])
            .lengths_in("cm")
            .wrong(Slip::NodesCountedAsLoops),
        loops(STRING_3, 200.0, &[2, 3, 4, 5])
            .plain_dial()
            .wrong(Slip::SpeedInverted),
        loops(STRING_4, 150.0, &[1, 2, 3, 4, 5])
            .slipping("dial-multiplier-left-out")
            .wrong(Slip::TooManyFigures)
            .word(Word::Note(
                None,
                Some(Field::Speed),
                "How many of these figures can you trust?",
            )),
    ]
}

fn ripples_of_10a() -> Vec<Group> {
    vec![
        ripples(TANK_1_LAMP_MOVED, TO_30)
            .wrong(Slip::ScaleLeftOut)
            .word(Word::Confirmed),
        ripples(TANK_2, TO_40).rounding_on_the_way(),
        ripples(TANK_3, TO_36).wrong(Slip::ScaleUpsideDown),
        ripples(TANK_1_LAMP_MOVED, TO_50).wrong(Slip::SpanNotDivided),
        ripples(TANK_2, REPEATED)
            .lengths_in("mm")
            .wrong(Slip::TooFewFigures),
        ripples(TANK_3, BY_WATCH)
            .by_watch()
            .wrong(Slip::CountNotDivided),
        ripples(TANK_1_LAMP_MOVED, TO_40)
            .miscounting(1)
            .leaving_it_out()
            .wrong(Slip::AnomalyAveragedIn),
        ripples(TANK_2, TO_30)
            .wrong(Slip::ReciprocalLeftOut)
            .without(&[Field::Gradient])
            .word(Word::Note(
                None,
                None,
                "Come and see me before you draw the graph.",
            )),
    ]
}

fn loops_of_11c() -> Vec<Group> {
    vec![
        loops(STRING_1, 150.0, &[1, 2, 3, 4, 5]),
        loops(STRING_2, 200.0, &[1, 2, 3, 4, 5]).miscounting(4),
        loops(STRING_3, 250.0, &[2, 3, 4, 5]).wrong(Slip::DialMultiplierLeftOut),
        loops(STRING_4, 200.0, &[1, 2, 3, 4, 5]).forgetting_hanger(100.0).word(Word::Note(
            None,
            None,
            "Your string is faster than your masses allow. Did you count the hanger? Weigh the lot next time.",
        )),
        loops(STRING_1, 250.0, &[1, 2, 3, 4, 5]).plain_dial().lengths_in("cm"),
        loops(STRING_2, 100.0, &[2, 3, 4, 5, 6]).wrong(Slip::GradientUpsideDown).word(Word::Confirmed),
        loops(STRING_3, 200.0, &[1, 2, 3, 4]).two_loops_measured().figures(4),
        loops(STRING_4, 300.0, &[1, 2, 3, 4, 5])
            .miscounting(4)
            .wrong_on(Slip::RowLeftOutUnsaid, 4),
    ]
}

fn loops_of_10a() -> Vec<Group> {
    vec![
        loops(STRING_1, 200.0, &[2, 3, 4, 5]).wrong(Slip::MeansMultiplied),
        loops(STRING_2, 150.0, &[1, 2, 3, 4, 5]).wrong_on(Slip::OtherRowsFigure, 3),
        loops(STRING_3, 250.0, &[1, 2, 3, 4])
            .wrong(Slip::PeriodAsFrequency)
            .without(&[Field::Gradient]),
        loops(STRING_4, 200.0, &[1, 2, 2, 3, 3, 4]).wrong(Slip::MeanWrongCount),
        loops(STRING_1, 150.0, &[1, 2, 3, 4, 5]).plain_dial().rounding_on_the_way(),
        loops(STRING_2, 150.0, &[1, 2, 3, 4, 5]).wrong(Slip::UnitMissing).copying(4),
        loops(STRING_3, 200.0, &[1, 2, 3, 4, 5]).wrong_on(Slip::DoesNotFollow, 2).word(Word::Dismissed(
            "A key pressed by mistake: they showed me the right sum in their book, and I changed nothing here.",
        )),
        loops(STRING_4, 200.0, &[1, 2, 2, 3, 3, 4]).copying(4).sharing("group D"),
    ]
}

fn ripples_of_10b() -> Vec<Group> {
    vec![
        ripples(TANK_1, TO_40).slipping("counted-from-one"),
        ripples(TANK_2, TO_30).wrong(Slip::UnitPowerOfTen),
        ripples(TANK_3, TO_50)
            .miscounting(2)
            .wrong(Slip::ScaleMultiplied),
        ripples(TANK_1, TO_36)
            .slipping("zero-error")
            .wrong(Slip::CrestToTrough),
        ripples(TANK_2, TO_40).only(Progress::Saved),
        ripples(TANK_3, TO_30)
            .wrong(Slip::ScaleLeftOut)
            .only(Progress::Corrected),
        ripples(TANK_1, TO_30)
            .slipping_on("digits-swapped", 2)
            .wrong(Slip::SpeedDivided),
        ripples(TANK_2, TO_50).only(Progress::NotBegun),
    ]
}
