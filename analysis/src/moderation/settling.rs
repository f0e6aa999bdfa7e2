//! Settling: which differences between two markers still need a word.
//!
//! Within the tolerance the first mark stands without one. Outside it people
//! decide; nothing here changes a mark. Common practice, no source.

use serde::{Deserialize, Serialize};

/// How far two marks may be apart before somebody has to say which holds, in
/// marks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Tolerance {
    /// Of a whole sheet.
    pub total: i64,
    /// Of one point.
    pub point: i64,
}

/// What was decided about one point of one sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Word {
    /// The first mark stands, for a reason that was written down.
    FirstStands,
    /// The pair agreed this mark.
    Agreed(i64),
    /// The point is marked again for the whole class, or the class is.
    MarkedAgain,
}

/// One point of one sheet, marked twice.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MarkedTwice {
    /// The first mark; `None` where there is none.
    pub first: Option<i64>,
    /// The second.
    pub second: Option<i64>,
    /// What was decided; `None` where nothing was.
    pub word: Option<Word>,
}

impl MarkedTwice {
    /// By how much the second mark is above the first; `None` where one is
    /// missing.
    #[must_use]
    pub fn difference(&self) -> Option<i64> {
        Some(self.second? - self.first?)
    }

    /// The mark that holds by what was decided: the first one where nobody
    /// said otherwise. A point that is marked again keeps its first mark until
    /// then.
    #[must_use]
    pub fn settled(&self) -> Option<i64> {
        match self.word {
            Some(Word::Agreed(marks)) => Some(marks),
            _ => self.first,
        }
    }
}

/// What is still open on a sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Open {
    /// Places of the points that are further apart than the tolerance, and on
    /// which nothing was decided.
    pub points: Vec<usize>,
    /// What lies between the two markers on points that nobody has decided
    /// on, second less first, where it is more than the tolerance of a sheet.
    pub between: Option<i64>,
}

impl Open {
    /// Whether nothing is open.
    #[must_use]
    pub fn is_settled(&self) -> bool {
        self.points.is_empty() && self.between.is_none()
    }
}

/// What is open on a sheet with these points; nothing where `whole_stands`:
/// it was said of the whole sheet that its first marks stand.
///
/// Points that one of the two has not marked cannot be compared, and are
/// never open.
///
/// A word on a point settles its share of the total: what is left between the
/// two are the points that nobody has spoken on. So two large differences that
/// cancel in the total are each open as a point, and one that was decided
/// cannot hide another.
#[must_use]
pub fn open(points: &[MarkedTwice], whole_stands: bool, tolerance: Tolerance) -> Open {
    let undecided = || {
        let points = points.iter().enumerate();
        points
            .filter(|(_, point)| !whole_stands && point.word.is_none())
            .filter_map(|(at, point)| Some((at, point.difference()?)))
    };
    let beyond = undecided().filter(|(_, difference)| difference.abs() > tolerance.point);
    let between: i64 = undecided().map(|(_, difference)| difference).sum();
    Open {
        points: beyond.map(|(at, _)| at).collect(),
        between: Some(between).filter(|between| between.abs() > tolerance.total),
    }
}
