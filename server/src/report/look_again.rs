//! What a group may look at again before its sheet is marked: one thing, from
//! its own figures alone. Nothing that is only inferred comes in here.

use analysis::field::{Field, Place};
use analysis::slip::{Kind, Slip};
use analysis::working::{Flag, Verdict};

use super::Work;
use crate::words::Say;

/// One thing to look at again.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LookAgain {
    /// What, to stand after *Look again at*: `your wavelength in row 2`.
    pub what: String,
    /// A question about that step.
    pub question: String,
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

/// Returns the first slip in the order of the work that nobody dismissed;
/// where there is none, an uncertainty that does not agree, then the first
/// remark.
///
/// Returns `None` when the working shows none of them.
#[must_use]
pub fn first(say: Say, work: &Work) -> Option<LookAgain> {
    let flags = work.upheld().flags;
    let of_kind = |kind| flags.iter().find(|flag| flag.slip.kind() == kind);
    of_kind(Kind::Slip)
        .map(|slip| at_flag(say, work, &flags, slip))
        .or_else(|| uncertainty(say, work))
        .or_else(|| of_kind(Kind::Remark).map(|remark| at_flag(say, work, &flags, remark)))
}

/// The uncertainty is compared, but no slip has its name: it is no flag.
fn uncertainty(say: Say, work: &Work) -> Option<LookAgain> {
    let mut comparisons = work.assessment.comparisons.iter();
    let field = Field::Uncertainty;
    comparisons.find(|c| c.field == field && c.verdict == Verdict::Wrong)?;
    let to_see = BoxToSee {
        field,
        row: None,
        is_unit: false,
    };
    Some(LookAgain {
        what: say.look_yours(say.field(field)),
        question: say.look_uncertainty(),
        boxes: vec![to_see],
    })
}

fn at_flag(say: Say, work: &Work, flags: &[Flag], flag: &Flag) -> LookAgain {
    let alike: Vec<&Flag> = flags
        .iter()
        .filter(|other| other.step == flag.step && other.slip == flag.slip)
        .collect();
    LookAgain {
        what: what(say, work, &alike, flag),
        question: question(say, flag).to_owned(),
        boxes: boxes(work, &alike),
    }
}

/// Returns the question about a figure. Where two turns explain it equally
/// well it asks in general, since a question about one of them may lead
/// astray.
fn question(say: Say, flag: &Flag) -> &'static str {
    let slip = flag.rival.map_or(flag.slip, |_| Slip::DoesNotFollow);
    say.slip_look(slip)
}

/// Says what to look at: `your wavelength in row 2`, `your wavelength in rows
/// 2 and 4`, `your wavelength in every row`; without rows for a figure of the
/// whole sheet.
fn what(say: Say, work: &Work, alike: &[&Flag], flag: &Flag) -> String {
    let what = say.look_at(flag.slip, flag.step);
    if alike.iter().all(|flag| flag.step.place() == Place::Sheet) {
        return what;
    }
    let rows = alike.iter().filter_map(|flag| flag.row);
    let labels: Vec<_> = rows.map(|row| label(work, row)).collect();
    match labels.as_slice() {
        [] => say.look_in_every_row(what),
        [row] => say.look_in_row(what, row),
        rows => say.look_in_rows(what, say.list(rows)),
    }
}

fn label(work: &Work, row: usize) -> &str {
    work.sheet.rows.get(row).map_or("", |row| &row.label)
}

/// Returns the boxes to go to: one for each row that is named, the first that
/// was filled in where it is every row.
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
