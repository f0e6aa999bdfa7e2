//! A marker with an eye and a temper: what the tool suggests where it checks,
//! judgement elsewhere, and no two quite alike.

use analysis::scheme::{Answer, Judged, Point, Suggestion};
use server::db::revision::Answers;
use server::ids::RevisionId;
use simulator::dice::Dice;

/// How somebody marks beside what most would give.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Temper {
    /// How often a point that is judged by eye loses a mark more.
    by_eye: f64,
    /// How often a mark that the tool suggests is withheld.
    suggested: f64,
}

/// As most would.
pub(crate) const EVEN: Temper = Temper {
    by_eye: 0.0,
    suggested: 0.0,
};

/// About two marks of twenty less: a point and a half by eye, and half a mark
/// that the tool suggests.
pub(crate) const SEVERE: Temper = Temper {
    by_eye: 0.45,
    suggested: 0.06,
};

/// How often an eye is a mark up, and how often one down.
const UNEVEN: f64 = 0.12;

/// Marks, with a reason where the tool suggests others.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Award {
    pub(crate) marks: u32,
    pub(crate) reason: &'static str,
}

/// One marker's eye on one sheet.
#[derive(Debug)]
pub(crate) struct Eye {
    /// What the sheet deserves: the same for everyone.
    fair: Dice,
    /// The marker's own.
    own: Dice,
    temper: Temper,
}

impl Eye {
    /// Returns the eye of a marker, told by a number of their own, on a sheet
    /// as it was stored. Its points come in the order of the scheme.
    pub(crate) fn new(revision: Option<RevisionId>, marker: u64, temper: Temper) -> Self {
        let sheet = revision.map_or(0, |id| u64::try_from(id.0).unwrap_or(0));
        Self {
            fair: Dice::new(9_000_000 + sheet),
            own: Dice::new(10_000_000 + 10 * sheet + marker),
            temper,
        }
    }

    /// Returns what it gives for the next point.
    pub(crate) fn award(
        &mut self,
        point: &Point,
        suggestion: Option<&Suggestion>,
        answers: Option<&Answers>,
    ) -> Award {
        let (luck, mood) = (self.own.share(), self.own.share());
        if let Some(suggestion) = suggestion {
            let is_withheld = suggestion.marks > 0 && mood < self.temper.suggested;
            return Award {
                marks: suggestion.marks - u32::from(is_withheld),
                reason: if is_withheld {
                    "It is on the screen, but I do not find it in their book."
                } else {
                    ""
                },
            };
        }
        let fair = self.by_eye(point, answers);
        let seen = if luck < UNEVEN {
            fair.saturating_sub(1)
        } else if luck > 1.0 - UNEVEN {
            (fair + 1).min(point.marks)
        } else {
            fair
        };
        Award {
            marks: seen.saturating_sub(u32::from(mood < self.temper.by_eye)),
            reason: "",
        }
    }

    /// Returns what most would give: for a text by how much it says, for paper
    /// by luck.
    fn by_eye(&mut self, point: &Point, answers: Option<&Answers>) -> u32 {
        let paper = 0.4 + 0.7 * self.fair.share();
        let said = match (point.judged, answers) {
            (Judged::ByEye(Some(answer)), Some(answers)) => how_full(answer, answers),
            _ => paper,
        };
        let most = f64::from(point.marks);
        let earned = (0..=point.marks).rev();
        let mut earned = earned.filter(|marks| f64::from(*marks) <= most * said + 0.25);
        earned.next().unwrap_or(0)
    }
}

/// Returns how much of what an answer should say it says, by its length: a
/// full account has some four hundred letters, a line has sixty.
fn how_full(answer: Answer, answers: &Answers) -> f64 {
    let (text, enough) = match answer {
        Answer::Method => (&answers.method, 400),
        Answer::Conclusion => (&answers.conclusion, 60),
        Answer::Evaluation => (&answers.evaluation, 60),
    };
    text.chars().count() as f64 / f64::from(enough)
}
