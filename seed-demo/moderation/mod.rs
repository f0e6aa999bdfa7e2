//! Two moderation rounds: last summer's over the tanks, which is closed, and
//! this term's, which is being marked.

mod blind;
mod round;
mod settle;

pub(crate) use round::Held;

use analysis::kit::Kind;

use crate::term::{Lesson, Marked, Teacher, When};

/// A round.
#[derive(Debug)]
pub(crate) struct Plan {
    pub(crate) name: &'static str,
    /// Written down before anything is drawn.
    pub(crate) seed: &'static str,
    /// The day on which it is made.
    pub(crate) when: When,
    pub(crate) markers: &'static [Teacher],
    pub(crate) is_about: fn(&Lesson) -> bool,
    /// How the title of a point begins, and what is agreed on it.
    pub(crate) rulings: &'static [(&'static str, &'static str)],
    pub(crate) reach: Reach,
}

/// How far a round has come.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Reach {
    /// Settled and closed.
    Closed,
    /// One has marked all of theirs a second time, one half of them.
    Marking { all: Teacher, half: Teacher },
}

impl Reach {
    /// Returns how many of these sheets somebody has marked a second time.
    fn of(self, teacher: Teacher, sheets: usize) -> usize {
        match self {
            Self::Closed => sheets,
            Self::Marking { all, .. } if all == teacher => sheets,
            Self::Marking { half, .. } if half == teacher => sheets.div_ceil(2),
            Self::Marking { .. } => 0,
        }
    }
}

/// The rounds, in the order in which they are held.
pub(crate) const ROUNDS: [Plan; 2] = [
    Plan {
        name: "Ripple tank, summer",
        seed: "4821 7733",
        when: When::LastYear {
            month: 6,
            day: 22,
            later: 0,
        },
        markers: &[Teacher::Beck, Teacher::Tarn, Teacher::Holm, Teacher::Rook],
        is_about: |lesson| {
            lesson.method.kit() == Kind::Tank
                && matches!(lesson.when, When::LastYear { month: 6, .. })
        },
        rulings: &[
            (
                "Method",
                "Three marks need both measurements of the object and what was done about a hazard. A step that is out of order costs nothing if the figures show that it was done.",
            ),
            (
                "Graph",
                "A line through the origin keeps its mark where points lie on both sides of it. Scales in threes or sevens do not.",
            ),
            (
                "Evaluation",
                "“The edges were fuzzy” names the reading and is enough. What would mend it may be one word: a photograph.",
            ),
        ],
        reach: Reach::Closed,
    },
    Plan {
        name: "Ripple tank, this term",
        seed: "0917 3358",
        when: When::Ago(12),
        markers: &[Teacher::Tarn, Teacher::Holm, Teacher::Rook],
        is_about: |lesson| {
            lesson.method.kit() == Kind::Tank
                && matches!(lesson.when, When::Ago(_))
                && lesson.marked == Marked::GivenOut
        },
        rulings: &[(
            "Conclusion",
            "The speed with its unit, in words or in a table that the sentence points to. “It agreed” without a figure earns nothing.",
        )],
        reach: Reach::Marking {
            all: Teacher::Tarn,
            half: Teacher::Holm,
        },
    },
];
