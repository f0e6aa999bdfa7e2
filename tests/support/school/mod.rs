//! A simulated department: a school year of lessons with the sheets that
//! groups hand in, and what is wrong with its kits.
//!
//! Drawn from the physics with arithmetic of its own; the same seed gives the
//! same year. Tests of the analysis, tests through the router and benchmarks
//! share it.

mod bench;
mod cord;
mod physics;
mod tank;

use analysis::field::Field;
use analysis::method::Method;
use analysis::reading::Cause;
use analysis::sheet::TypedSheet;
use rand::rngs::StdRng;
use rand::{Rng, SeedableRng};

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

/// What the year is like.
#[derive(Clone, Debug)]
pub struct School {
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

impl School {
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

    /// The year of this seed.
    pub fn year(&self, seed: u64) -> Vec<SimLesson> {
        let mut dice = StdRng::seed_from_u64(seed);
        let mut lessons = Vec::new();
        for number in 0..self.lessons {
            for class in 0..CLASSES.len() {
                lessons.push(self.lesson(number, class, &mut dice));
            }
        }
        lessons.sort_by_key(|lesson| lesson.day);
        lessons
    }

    fn lesson(&self, number: u32, class: usize, dice: &mut StdRng) -> SimLesson {
        // From mid-September to early July, each class on its own weekday.
        let week = number * 40 / self.lessons.max(1);
        let weekday = u32::try_from(class).unwrap_or(0) % 5;
        let method = if number.is_multiple_of(2) {
            Method::RippleTank
        } else {
            Method::StringLoops
        };
        let is_late = 2 * number >= self.lessons;
        let sheets = (0..self.groups).map(|group| {
            let at = bench::Bench {
                school: self,
                place: usize::try_from(group + number).unwrap_or(0),
                is_late,
            };
            match method {
                Method::RippleTank => tank::sheet(&at, dice),
                Method::StringLoops => cord::sheet(&at, dice),
            }
        });
        SimLesson {
            class,
            method,
            day: 7 * week + weekday,
            sheets: sheets.collect(),
        }
    }
}

/// One lesson.
#[derive(Clone, Debug)]
pub struct SimLesson {
    /// Which of [`CLASSES`].
    pub class: usize,
    /// Tanks or strings.
    pub method: Method,
    /// Days since Monday, 14 September of the year.
    pub day: u32,
    /// One a group.
    pub sheets: Vec<SimSheet>,
}

/// What one group hands in.
#[derive(Clone, Debug)]
pub struct SimSheet {
    /// The boxes.
    pub typed: TypedSheet,
    /// What it writes for its kit.
    pub kit: String,
    /// A slip in its readings that a teacher found and confirmed.
    pub confirmed: Option<(Field, Cause)>,
}

/// A number that scatters about `middle` with a standard deviation.
fn about(dice: &mut StdRng, middle: f64, sd: f64) -> f64 {
    // Twelve uniform numbers less six: near enough to normal, and never wild.
    let sum: f64 = (0..12).map(|_| dice.random::<f64>()).sum();
    middle + sd * (sum - 6.0)
}
