//! The school year of a department: its lessons, the sheets that groups hand
//! in, and what is wrong with its kits.

use crate::dice::Dice;
use crate::group::{Group, Hand};
use crate::kit::{Cord, Tank};
use crate::sheet::{Code, Method, Sheet};
use crate::working::Habits;

/// Classes in the order of their first lessons in the week.
pub const CLASSES: [&str; 6] = [
    "10A/Ph1", "10B/Ph2", "10C/Ph3", "11A/Ph1", "11B/Ph2", "11C/Ph3",
];

/// Which of four teachers each class has.
pub const TEACHER_OF: [usize; 6] = [0, 1, 2, 3, 0, 1];

/// What the department owns, by label.
pub const KITS: [&str; 9] = [
    "Tank 1",
    "Tank 2",
    "Tank 3",
    "Generator 1",
    "Generator 2",
    "Generator 3",
    "String 1",
    "String 2",
    "String 3",
];

/// Frequencies at the tanks, Hz; each group takes some.
const FREQUENCIES: [f64; 7] = [5.0, 8.0, 12.0, 16.0, 20.0, 25.0, 30.0];

/// How groups read.
const HAND: Hand = Hand {
    span: 4.0,
    image: 4.5,
    resonance: 0.005,
    ..Hand::STEADY
};

/// What the year is like.
#[derive(Clone, Debug)]
pub struct Department {
    /// Lessons of each class: tanks and strings in turn.
    pub lessons: u32,
    /// Groups in a class.
    pub groups: u32,
    /// Tank 2's enlargement over the one that is written down, less 1: 0.06
    /// where its lamp hangs too low.
    pub lamp: f64,
    /// Surface tension of Tank 3's water less that of the others, N/m.
    pub film: f64,
    /// Depth of Tank 1's water over the one that is written down.
    pub depth: f64,
    /// What Generator 3's dial shows over the truth, less 1.
    pub dial: f64,
    /// The share of groups that count from one, half of which a teacher
    /// confirms.
    pub counts_from_one: f64,
    /// The share of groups that leave the enlargement out in the first half
    /// of the year, and in the second.
    pub leaves_scale_out: [f64; 2],
}

/// One lesson.
#[derive(Clone, Debug)]
pub struct Lesson {
    /// Which of [`CLASSES`].
    pub class: usize,
    /// Tanks or strings.
    pub method: Method,
    /// Days since Monday, 14 September of the year.
    pub day: u32,
    /// One a group.
    pub sheets: Vec<HandedIn>,
}

/// What one group hands in.
#[derive(Clone, Debug)]
pub struct HandedIn {
    /// The boxes.
    pub sheet: Sheet,
    /// What it writes for its kit.
    pub kit: String,
    /// A slip in its readings that a teacher found and confirmed: its box and
    /// its code.
    pub confirmed: Option<(Code, Code)>,
}

impl Department {
    /// Nothing wrong with any kit, and usual slips.
    pub const SOUND: Self = Self {
        lessons: 6,
        groups: 9,
        lamp: 0.0,
        film: 0.0,
        depth: 1.0,
        dial: 0.0,
        counts_from_one: 0.06,
        leaves_scale_out: [0.2, 0.2],
    };

    /// One lamp too low, one dial 8 % out, and one slip that reteaching
    /// mended.
    pub const WORN: Self = Self {
        lamp: 0.06,
        dial: 0.08,
        leaves_scale_out: [0.4, 0.1],
        ..Self::SOUND
    };

    /// Draws the year of this seed, in the order of its days.
    #[must_use]
    pub fn year(&self, seed: u64) -> Vec<Lesson> {
        let mut dice = Dice::new(seed);
        let mut lessons = Vec::new();
        for number in 0..self.lessons {
            for (class, weekday) in (0..CLASSES.len()).zip((0..5).cycle()) {
                lessons.push(self.lesson(number, class, weekday, &mut dice));
            }
        }
        lessons.sort_by_key(|lesson| lesson.day);
        lessons
    }

    fn lesson(&self, number: u32, class: usize, weekday: u32, dice: &mut Dice) -> Lesson {
        // From mid-September to early July, each class on its own weekday.
        let week = number * 40 / self.lessons.max(1);
        let is_late = 2 * number >= self.lessons;
        let at_tanks = number.is_multiple_of(2);
        // Groups take the kits in turn.
        let places = (number..number + self.groups).filter_map(|place| usize::try_from(place).ok());
        let sheets = places.map(|place| {
            if at_tanks {
                self.at_tank(place, is_late, dice)
            } else {
                self.at_string(place, dice)
            }
        });
        Lesson {
            class,
            method: if at_tanks {
                Method::RippleTank
            } else {
                Method::StringLoops
            },
            day: 7 * week + weekday,
            sheets: sheets.collect(),
        }
    }

    fn at_tank(&self, place: usize, is_late: bool, dice: &mut Dice) -> HandedIn {
        let at = place % 3;
        let tank = Tank {
            label: KITS[at],
            lamp: if at == 1 { 1.0 + self.lamp } else { 1.0 },
            tension: Tank::SOUND.tension + if at == 2 { self.film } else { 0.0 },
            depth: Tank::SOUND.depth * if at == 0 { self.depth } else { 1.0 },
            card: if at == 0 { self.depth.recip() } else { 1.0 },
            enlargement: Tank::SOUND.enlargement + 0.03 * dice.normal(),
            ..Tank::SOUND
        };
        let counts_from_one = dice.share() < self.counts_from_one;
        let leaves_scale_out = dice.share() < self.leaves_scale_out[usize::from(is_late)];
        let group = Group {
            object: (80.0, 80.0),
            slip: counts_from_one.then_some("counted-from-one"),
            ..Group::new(HAND, "cm")
        };
        let first: usize = dice.within(0..2);
        let lines = group.ripples(&tank, &FREQUENCIES[first..first + 5], dice);
        let mut sheet = group.tank_sheet(&tank, &lines, dice);
        group.record_depth(&tank, &mut sheet, dice);
        let mut habits = Habits::careful(4);
        if leaves_scale_out {
            habits = habits.with("scale-left-out", None);
        }
        habits.work_out(&mut sheet);
        let is_found = counts_from_one && dice.chance(0.5);
        HandedIn {
            sheet,
            kit: tank.label.to_owned(),
            confirmed: is_found.then_some(("last_crest", "counted-from-one")),
        }
    }

    fn at_string(&self, place: usize, dice: &mut Dice) -> HandedIn {
        let generator = 3 + place % 3;
        let string = KITS[6 + (place / 2) % 3];
        let cord = Cord {
            label: string,
            hung: dice.pick(&[100.0, 200.0, 300.0]),
            faster: dice.factor(0.03),
            dial: 1.0 + if generator == 5 { self.dial } else { 0.0 },
            ..Cord::SOUND
        };
        let group = Group::new(HAND, "m");
        let lines = group.loops(&cord, &[1, 2, 3, 4, 5], dice);
        let mut sheet = group.string_sheet(&lines);
        Group::record_masses(&cord, &mut sheet);
        let mut habits = Habits::careful(4);
        if dice.chance(0.15) {
            habits = habits.with("loop-taken-as-wavelength", None);
        }
        habits.work_out(&mut sheet);
        HandedIn {
            sheet,
            kit: format!("{string}, {}", KITS[generator]),
            confirmed: None,
        }
    }
}
