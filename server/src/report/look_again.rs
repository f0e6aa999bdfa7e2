//! What a group may look at again before its sheet is marked: one thing, from
//! its own figures alone. Nothing that is only inferred comes in here.

use analysis::coach::explain;
use analysis::field::{Field, Place};
use analysis::slip::{Kind, Slip};
use analysis::working::{Flag, Verdict};

use super::Work;
use crate::words::list;

/// One thing to look at again.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LookAgain {
    /// What, to stand after *Look again at*: `your wavelength in row 2`.
    pub what: String,
    /// A question about that step.
    pub question: &'static str,
    /// The boxes concerned, first row first.
    pub boxes: Vec<BoxToSee>,
}

/// A box of the sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BoxToSee {
    /// Which figure.
    pub field: Field,
    /// Its row (from 0), and what the group calls that; `None` for a box of
    /// the whole sheet.
    pub row: Option<(usize, String)>,
    /// Whether the list of its units is meant, not the figure.
    pub is_unit: bool,
}

/// The first slip in the order of the work that nobody dismissed; where there
/// is none, an uncertainty that does not agree, then the first remark. `None`
/// where the working shows none of them.
#[must_use]
pub fn first(work: &Work) -> Option<LookAgain> {
    let flags = work.upheld().flags;
    let of_kind = |kind| flags.iter().find(|flag| flag.slip.kind() == kind);
    of_kind(Kind::Slip)
        .map(|slip| at_flag(work, &flags, slip))
        .or_else(|| uncertainty(work))
        .or_else(|| of_kind(Kind::Remark).map(|remark| at_flag(work, &flags, remark)))
}

/// The uncertainty is compared, but no slip has its name: it is no flag.
fn uncertainty(work: &Work) -> Option<LookAgain> {
    let mut comparisons = work.assessment.comparisons.iter();
    let field = Field::Uncertainty;
    comparisons.find(|c| c.field == field && c.verdict == Verdict::Wrong)?;
    let to_see = BoxToSee {
        field,
        row: None,
        is_unit: false,
    };
    Some(LookAgain {
        what: format!("your {}", field.label()),
        question: explain::UNCERTAINTY,
        boxes: vec![to_see],
    })
}

fn at_flag(work: &Work, flags: &[Flag], flag: &Flag) -> LookAgain {
    let alike: Vec<&Flag> = flags
        .iter()
        .filter(|other| other.step == flag.step && other.slip == flag.slip)
        .collect();
    let where_ = where_in_words(work, &alike);
    LookAgain {
        what: format!("{}{where_}", explain::what(flag.slip, flag.step)),
        question: question(flag),
        boxes: boxes(work, &alike),
    }
}

/// Where two turns explain a figure as well, a question about one of them may
/// lead astray: then it is asked in general.
fn question(flag: &Flag) -> &'static str {
    let slip = flag.rival.map_or(flag.slip, |_| Slip::DoesNotFollow);
    explain::question(slip)
}

/// ` in row 2`, ` in rows 2 and 4`, ` in every row`; blank for a figure of the
/// whole sheet.
fn where_in_words(work: &Work, alike: &[&Flag]) -> String {
    if alike.iter().all(|flag| flag.step.place() == Place::Sheet) {
        return String::new();
    }
    let rows = alike.iter().filter_map(|flag| flag.row);
    let labels: Vec<_> = rows.map(|row| label(work, row)).collect();
    let rows = list("row", "rows", &labels);
    rows.map_or_else(|| " in every row".to_owned(), |rows| format!(" in {rows}"))
}

fn label(work: &Work, row: usize) -> &str {
    work.sheet.rows.get(row).map_or("", |row| &row.label)
}

/// The boxes to go to: one for each row that is named, the first that was
/// filled in where it is every row.
fn boxes(work: &Work, alike: &[&Flag]) -> Vec<BoxToSee> {
    let to_see = |field: Field, row: Option<usize>| BoxToSee {
        field,
        row: row.map(|row| (row, label(work, row).to_owned())),
        is_unit: false,
    };
    let Some(first) = alike.first() else {
        return Vec::new();
    };
    let field = first.step;
    if first.slip == Slip::UnitMissing {
        let list = BoxToSee {
            is_unit: true,
            ..to_see(field, None)
        };
        return vec![list];
    }
    if field.place() == Place::Sheet {
        return vec![to_see(field, None)];
    }
    let named: Vec<_> = alike.iter().filter_map(|flag| flag.row).collect();
    if !named.is_empty() {
        let rows = named.into_iter();
        return rows.map(|row| to_see(field, Some(row))).collect();
    }
    let mut rows = work.sheet.rows.iter();
    let filled = rows.position(|row| row.entries.get(field).is_some());
    vec![to_see(field, filled)]
}
