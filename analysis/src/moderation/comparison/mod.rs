//! First and second marks of a sample, compared.
//!
//! Every difference is second − first: above 0 where the second marker gave
//! more, and so where the first was the more severe.
//!
//! # What a person's lines say
//! The lines of a first marker compare that person with whoever marked their
//! sheets again. Where that was one colleague alone, nothing tells which of
//! the two is severe; where it was several ([`Person::colleagues`]), the
//! colleagues' own habits even out, as far as they differ. Nobody's marks are
//! taken for the true ones. A sheet that several people marked first is in
//! nobody's lines as a first marker; it counts in all the others.
//!
//! # Small numbers
//! Below [`FEWEST`] sheets nothing is concluded, and of the statistics only
//! those that describe the sheets themselves are given: the differences, their
//! mean, size and scatter, and how many agree. With six sheets Student's t
//! leaves the mean open by 1.05 times the standard deviation of the
//! differences, with five by 1.24 and with three by 2.5 times: six is the first
//! sample that shows a marker who is off by about as much as the usual
//! difference.
//!
//! # Simplifications
//! - Marks are whole numbers and the intervals treat them as normal: rough for
//!   a point of one mark or two.
//! - Every interval is a 95 % interval by itself. Of twenty lines about markers
//!   who are all alike, one will call a difference.
//! - The sample has the highest and the lowest first total on purpose. Extremes
//!   are partly luck, so second totals of those lie a little nearer to the
//!   middle.
//! - Points are compared over all people together.

mod agreement;
mod former;
mod people;
mod points;
mod verdict;

use serde::{Deserialize, Serialize};

pub use agreement::{Agreement, Coefficients, Estimated, Largest, Limits, Share};
pub use former::Former;
pub use people::Person;
pub use points::Point;
pub use verdict::Verdict;

use super::settling::Tolerance;
use agreement::Pair;

/// Fewer sheets than this are too few to say anything of a marker.
pub const FEWEST: usize = 6;

/// A sheet with both marks. Sheets, points and people go by the caller's
/// numbers.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sheet {
    /// Its number; no other sheet has it.
    pub id: i64,
    /// Everyone with a first mark on it.
    pub first_markers: Vec<i64>,
    /// Who marked it a second time.
    pub second_marker: i64,
    /// Its marks, point by point in the order of the scheme.
    pub marks: Vec<Marks>,
}

/// Both marks of one point. `None` where it has none.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Marks {
    /// The point.
    pub point: i64,
    /// How many marks it is worth.
    pub most: i64,
    /// The first mark.
    pub first: Option<i64>,
    /// The second.
    pub second: Option<i64>,
}

/// What the sample says.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Comparison {
    /// What differences were held against.
    pub tolerance: Tolerance,
    /// The totals of all sheets. `None` where none has both.
    pub whole: Option<Agreement>,
    /// Two coefficients of those totals. Records of format 1 hold none.
    #[serde(default)]
    pub coefficients: Coefficients,
    /// What the whole comes to.
    pub verdicts: Vec<Verdict>,
    /// Each first marker, by their number.
    pub first_markers: Vec<Person>,
    /// Each second marker, by their number.
    pub second_markers: Vec<Person>,
    /// Each point, those that cause disagreement first.
    pub points: Vec<Point>,
    /// Each sheet, in the order given.
    pub sheets: Vec<Compared>,
    /// Sheets that are not in the totals: a point has no first or no second
    /// mark.
    pub incomplete: Vec<i64>,
    /// Sheets that several people marked first.
    pub shared: Vec<i64>,
}

/// The two totals of a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Compared {
    /// The sheet.
    pub sheet: i64,
    /// The first total.
    pub first: i64,
    /// The second total.
    pub second: i64,
    /// Whether they are as close as the tolerance asks.
    pub is_within: bool,
}

impl Compared {
    /// Second − first.
    #[must_use]
    pub fn difference(&self) -> i64 {
        self.second - self.first
    }

    /// Halfway between the two: where the difference plot has it, since
    /// neither marker is the truth (Bland and Altman 1986).
    #[must_use]
    pub fn mean(&self) -> f64 {
        (self.first + self.second) as f64 / 2.0
    }

    fn pair(&self) -> Pair {
        Pair {
            sheet: self.sheet,
            first: self.first as f64,
            second: self.second as f64,
        }
    }
}

/// Compares the marks of a sample. The order of the sheets is nothing to it,
/// but for that of [`Comparison::sheets`].
#[must_use]
pub fn compare(sheets: &[Sheet], tolerance: Tolerance) -> Comparison {
    let totals: Vec<(&Sheet, Compared)> = sheets
        .iter()
        .filter_map(|sheet| Some((sheet, totals(sheet, tolerance)?)))
        .collect();
    let pairs: Vec<Pair> = totals.iter().map(|(_, both)| both.pair()).collect();
    let whole = Agreement::of(&pairs, tolerance.total);
    let is_incomplete = |sheet: &&Sheet| totals.iter().all(|(_, both)| both.sheet != sheet.id);
    let is_shared = |sheet: &&Sheet| sheet.first_markers.len() > 1;
    let ids = |is_such: &dyn Fn(&&Sheet) -> bool| {
        sheets
            .iter()
            .filter(is_such)
            .map(|sheet| sheet.id)
            .collect()
    };
    Comparison {
        tolerance,
        verdicts: whole.as_ref().map_or_else(Vec::new, Verdict::of),
        whole,
        coefficients: Coefficients::of(&pairs),
        first_markers: people::first_markers(&totals, tolerance.total),
        second_markers: people::second_markers(&totals, tolerance.total),
        points: points::points(sheets, tolerance.point),
        incomplete: ids(&is_incomplete),
        shared: ids(&is_shared),
        sheets: totals.into_iter().map(|(_, both)| both).collect(),
    }
}

/// `None` where a point has no first or no second mark.
fn totals(sheet: &Sheet, tolerance: Tolerance) -> Option<Compared> {
    let total = |mark: fn(&Marks) -> Option<i64>| sheet.marks.iter().map(mark).sum::<Option<i64>>();
    let (first, second) = (total(|marks| marks.first)?, total(|marks| marks.second)?);
    Some(Compared {
        sheet: sheet.id,
        first,
        second,
        is_within: (second - first).abs() <= tolerance.total,
    })
}

/// The only one of them.
fn sole(markers: &[i64]) -> Option<i64> {
    match markers {
        [one] => Some(*one),
        _ => None,
    }
}
