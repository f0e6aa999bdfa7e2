//! The lines of a comparison: of all sheets, of each marker as first and as
//! second, and of each point. The page of a comparison, its file and the
//! record of a closed round show the same ones.
//!
//! # Whom a comparison blames
//! Nobody: a difference is second − first, and neither is the truth.
//! `comparison/verdict.rs` says what the figures come to (too few, no
//! difference shown, severe, cancelling, scattered), and `words/verdict.rs`
//! puts it into sentences. Whoever is not head of department sees their own
//! lines, and only their own sheets have a name, since a name leads to who
//! marked it.

use std::collections::BTreeMap;

use analysis::interval::Interval;
use analysis::moderation::comparison::{
    Agreement, Comparison, Estimated, FEWEST, Person, Point, Share, Verdict,
};

use crate::words::moderation::{point_called, sheets_of};
use crate::words::number::{fixed, signed, to};
use crate::words::verdict::{Whose, one_colleague, words};

/// Decimals of marks and of coefficients.
const DECIMALS: usize = 2;

#[derive(Clone, Copy, Debug)]
pub enum About<'a> {
    /// All sheets.
    Whole,
    /// A marker, as the first of their sheets or as the second.
    Marker(&'a Person, Whose),
    /// A point of all sheets.
    Point(&'a Point),
}

#[derive(Debug)]
pub struct ComparisonLine<'a> {
    pub about: About<'a>,
    /// What the marker or the point is called; blank for the whole.
    pub name: String,
    /// Its figures.
    pub agreement: &'a Agreement,
    /// Of a marker: names of those who gave the other marks.
    pub colleagues: Vec<String>,
    /// What the figures come to, in sentences.
    pub verdicts: Vec<String>,
}

/// Makes the lines of a comparison, whose people and points are called so: the
/// whole, first markers, second markers, points.
#[must_use]
pub fn lines<'a>(
    found: &'a Comparison,
    people: &BTreeMap<i64, String>,
    points: &BTreeMap<i64, String>,
) -> Vec<ComparisonLine<'a>> {
    let name = |id: &i64| people.get(id).cloned().unwrap_or_default();
    let said = |verdicts: &[Verdict], agreement: &Agreement, whose| {
        let verdicts = verdicts.iter();
        verdicts.map(|one| words(one, agreement, whose)).collect()
    };
    let whole = found.whole.iter().map(|agreement| ComparisonLine {
        verdicts: said(&found.verdicts, agreement, Whose::Everyone),
        ..ComparisonLine::new(About::Whole, String::new(), agreement)
    });
    let marker = |person: &'a Person, whose| ComparisonLine {
        colleagues: person.colleagues.iter().map(name).collect(),
        verdicts: said(&person.verdicts, &person.agreement, whose),
        ..ComparisonLine::new(
            About::Marker(person, whose),
            name(&person.person),
            &person.agreement,
        )
    };
    let first = found.first_markers.iter();
    let second = found.second_markers.iter();
    let points = found.points.iter().map(|point| {
        let title = points.get(&point.point).cloned().unwrap_or_default();
        ComparisonLine::new(About::Point(point), title, &point.agreement)
    });
    whole
        .chain(first.map(|person| marker(person, Whose::First)))
        .chain(second.map(|person| marker(person, Whose::Second)))
        .chain(points)
        .collect()
}

impl<'a> ComparisonLine<'a> {
    fn new(about: About<'a>, name: String, agreement: &'a Agreement) -> Self {
        Self {
            about,
            name,
            agreement,
            colleagues: Vec::new(),
            verdicts: Vec::new(),
        }
    }

    /// Says whether it is about a marker in this role.
    #[must_use]
    pub fn is_of(&self, whose: Whose) -> bool {
        matches!(self.about, About::Marker(_, of) if of == whose)
    }

    /// Returns the point that it is about, if it is about one.
    #[must_use]
    pub fn point(&self) -> Option<&'a Point> {
        match self.about {
            About::Point(point) => Some(point),
            _ => None,
        }
    }

    /// Returns what its element on a page is called.
    #[must_use]
    pub fn id(&self) -> String {
        match self.about {
            About::Whole => "whole".to_owned(),
            About::Marker(line, Whose::Second) => format!("second-{}", line.person),
            About::Marker(line, _) => format!("first-{}", line.person),
            About::Point(point) => format!("point-{}", point.point),
        }
    }

    /// Returns what the figures are of: `sheets that Ms Fell marked first`.
    #[must_use]
    pub fn of(&self) -> String {
        match self.about {
            About::Whole => sheets_of("", Whose::Everyone),
            About::Marker(_, whose) => sheets_of(&self.name, whose),
            About::Point(_) => point_called(Some(&self.name)),
        }
    }

    /// Returns all that it says, whoever is the one colleague included.
    #[must_use]
    pub fn says(&self) -> String {
        let mut says = self.verdicts.clone();
        if let About::Marker(_, whose) = self.about {
            says.extend(one_colleague(&self.colleagues, whose));
        }
        says.join(" ")
    }

    /// Says whether limits of agreement are withheld because of few sheets.
    #[must_use]
    pub fn is_small(&self) -> bool {
        self.point().is_none() && self.agreement.n < FEWEST
    }

    /// Returns the mean difference with its sign.
    #[must_use]
    pub fn mean(&self) -> String {
        marks(self.agreement.mean.value)
    }

    /// Returns the interval of the mean difference.
    #[must_use]
    pub fn interval(&self) -> String {
        marks_range(self.agreement.mean.interval95)
    }

    /// Returns the mean size of the differences.
    #[must_use]
    pub fn size(&self) -> String {
        fixed(Some(self.agreement.mean_absolute), DECIMALS)
    }

    /// Returns how far the differences scatter; a dash where nothing tells.
    #[must_use]
    pub fn sd(&self) -> String {
        fixed(self.agreement.sd, DECIMALS)
    }

    /// Returns how many of its sheets these are: `8 of 12 (67 %)`.
    #[must_use]
    pub fn of_all(&self, share: &Share) -> String {
        let (count, n) = (share.count, self.agreement.n);
        format!("{count} of {n} ({:.0} %)", 100.0 * count as f64 / n as f64)
    }
}

/// Writes a difference in marks, with its sign.
#[must_use]
pub fn marks(value: f64) -> String {
    signed(value, DECIMALS)
}

/// Writes an interval of such differences: `−0.81 to +2.31`.
#[must_use]
pub fn marks_range(interval: Option<Interval>) -> String {
    range(interval, marks)
}

/// Writes the interval of a share.
#[must_use]
pub fn share_range(interval: Option<Interval>) -> String {
    range(interval, |share| format!("{:.0} %", 100.0 * share))
}

/// Writes a coefficient and its interval; a dash where there is none.
#[must_use]
pub fn coefficient(found: Option<Estimated>) -> [String; 2] {
    let plain = |value| fixed(Some(value), DECIMALS);
    [
        fixed(found.map(|found| found.value), DECIMALS),
        range(found.and_then(|found| found.interval95), plain),
    ]
}

/// Writes an interval as a cell of a table. It is blank too where it has no
/// width: figures that do not scatter at all tell nothing of how sure they
/// are.
fn range(interval: Option<Interval>, write: fn(f64) -> String) -> String {
    let wide = interval.filter(|interval| interval.width() > 0.0);
    wide.map_or_else(String::new, |interval| {
        to(write(interval.low), write(interval.high))
    })
}
