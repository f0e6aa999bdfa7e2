//! A box of the sheet as the template draws it.

use analysis::field::{Field, Place};
use analysis::sheet::{Problem, Question};
use analysis::unit::Quantity;

use super::form::SheetForm;
use crate::words::Say;

/// One choice of a list.
#[derive(Debug)]
pub(super) struct Choice {
    pub(super) value: String,
    pub(super) text: String,
    pub(super) is_chosen: bool,
}

/// A list of units: beside a box or in a column's heading.
#[derive(Debug)]
pub(super) struct UnitList {
    /// Its name, and its id as well.
    pub(super) name: String,
    pub(super) label: String,
    pub(super) choices: Vec<Choice>,
    pub(super) wrong: Option<String>,
}

#[derive(Debug)]
pub(super) struct BoxView {
    /// Its name, and its id as well.
    pub(super) name: String,
    /// What it is called; with its row, in a table.
    pub(super) label: String,
    pub(super) hint: &'static str,
    /// As typed.
    pub(super) value: String,
    /// Choices in place of free text; empty for a box to type in.
    pub(super) choices: Vec<Choice>,
    /// A sign before the box; blank where there is none.
    pub(super) sign: &'static str,
    /// Keys that a tablet shows: digits alone for a count.
    pub(super) keys: &'static str,
    /// A unit that cannot be chosen.
    pub(super) fixed_unit: Option<&'static str>,
    /// A unit to choose, for a box of the whole sheet.
    pub(super) unit: Option<UnitList>,
    /// What is wrong with it, as a sentence.
    pub(super) wrong: Option<String>,
    /// What is odd about it, as a question.
    pub(super) asked: Option<String>,
    /// What its column is called, with a unit that cannot be chosen; blank
    /// for a box of the whole sheet.
    pub(super) column: String,
    /// Whether to begin typing here.
    pub(super) is_next: bool,
}

/// A column's heading.
#[derive(Debug)]
pub(super) struct Column {
    pub(super) heading: &'static str,
    pub(super) fixed_unit: Option<&'static str>,
    pub(super) unit: Option<UnitList>,
}

/// Remarks on the boxes of one form. Rows are rows of the page.
#[derive(Debug, Default)]
pub(super) struct Remarks {
    pub(super) problems: Vec<Problem>,
    pub(super) questions: Vec<Question>,
}

impl Remarks {
    /// Remarks whose rows are counted among the filled ones, moved to the page's.
    pub(super) fn placed(
        problems: Vec<Problem>,
        questions: Vec<Question>,
        places: &[usize],
    ) -> Self {
        let place = |row: Option<usize>| row.and_then(|r| places.get(r).copied());
        Self {
            problems: problems
                .into_iter()
                .map(|p| Problem {
                    row: place(p.row),
                    ..p
                })
                .collect(),
            questions: questions
                .into_iter()
                .map(|q| Question {
                    row: place(q.row),
                    ..q
                })
                .collect(),
        }
    }

    fn wrong(&self, say: Say, row: Option<usize>, field: Field) -> Option<String> {
        let found = self
            .problems
            .iter()
            .find(|p| p.row == row && p.field == field && !p.in_unit);
        found.map(|p| say.fault(field, &p.fault))
    }

    fn wrong_unit(&self, say: Say, field: Field) -> Option<String> {
        self.problems
            .iter()
            .find(|p| p.field == field && p.in_unit)
            .map(|p| say.fault(field, &p.fault))
    }

    fn asked(&self, say: Say, row: Option<usize>, field: Field) -> Option<String> {
        self.questions
            .iter()
            .find(|q| q.row == row && q.field == field)
            .map(|q| say.asks(field, &q.asks))
    }
}

fn keys(field: Field) -> &'static str {
    if field.quantity() == Quantity::Count {
        "numeric"
    } else {
        "decimal"
    }
}

/// Returns a sign that stands before a figure of a box. Returns no text when
/// none does.
pub(super) fn sign(field: Field) -> &'static str {
    match field {
        Field::Uncertainty => "±",
        _ => "",
    }
}

/// Returns a box of the whole sheet.
pub(super) fn whole(say: Say, form: &SheetForm, remarks: &Remarks, field: Field) -> BoxView {
    BoxView {
        name: format!("w.{}", field.name()),
        label: say.box_name(field).to_owned(),
        hint: say.hint(field),
        value: form.whole.get(&field).cloned().unwrap_or_default(),
        choices: Vec::new(),
        sign: sign(field),
        keys: keys(field),
        fixed_unit: field.fixed_unit().map(analysis::unit::Unit::symbol),
        unit: unit_list(say, form, remarks, field),
        wrong: remarks.wrong(say, None, field),
        asked: remarks.asked(say, None, field),
        column: String::new(),
        is_next: false,
    }
}

pub(super) fn in_row(
    say: Say,
    form: &SheetForm,
    remarks: &Remarks,
    index: usize,
    field: Field,
) -> BoxView {
    let row = &form.rows[index];
    let value = row.boxes.get(&field).cloned().unwrap_or_default();
    BoxView {
        name: format!("r{}.{}", index + 1, field.name()),
        label: say.sheet_row_of(&row.label, say.box_name(field)),
        hint: "",
        choices: if field == Field::DialTimes {
            times(say, &value)
        } else {
            Vec::new()
        },
        value,
        sign: sign(field),
        keys: keys(field),
        fixed_unit: None,
        unit: None,
        wrong: remarks.wrong(say, Some(index), field),
        asked: remarks.asked(say, Some(index), field),
        column: say.column(field),
        is_next: false,
    }
}

/// Returns a column's heading, with its list of units where there is a choice.
pub(super) fn column(say: Say, form: &SheetForm, remarks: &Remarks, field: Field) -> Column {
    Column {
        heading: say.box_name(field),
        fixed_unit: field.fixed_unit().map(analysis::unit::Unit::symbol),
        unit: unit_list(say, form, remarks, field),
    }
}

fn unit_list(say: Say, form: &SheetForm, remarks: &Remarks, field: Field) -> Option<UnitList> {
    if !field.asks_unit() {
        return None;
    }
    let typed = form.units.get(&field).map_or("", String::as_str);
    let symbols = field
        .quantity()
        .units()
        .into_iter()
        .map(|u| (u.symbol(), u.symbol()));
    let name = say.box_name(field);
    let label = match field.place() {
        Place::Row => say.sheet_unit_of_column(name),
        Place::Sheet => say.sheet_unit_of(name),
    };
    let none = say.sheet_unit();
    Some(UnitList {
        name: format!("unit.{}", field.name()),
        label,
        choices: choices([("", none.as_str())].into_iter().chain(symbols), typed),
        wrong: remarks.wrong_unit(say, field),
    })
}

/// Multipliers of a dial. Until the group has looked at the dial none is
/// chosen: a times one that nobody chose would be recorded as a reading.
fn times(say: Say, typed: &str) -> Vec<Choice> {
    let none = say.sheet_choose();
    choices(
        [
            ("", none.as_str()),
            ("1", "×1"),
            ("10", "×10"),
            ("100", "×100"),
            ("1000", "×1000"),
        ]
        .into_iter(),
        typed,
    )
}

/// Returns a list of choices; what was sent is among them even if no page
/// offered it.
fn choices<'a>(offered: impl Iterator<Item = (&'a str, &'a str)>, typed: &str) -> Vec<Choice> {
    let mut all: Vec<Choice> = offered
        .map(|(value, text)| Choice {
            value: value.to_owned(),
            text: text.to_owned(),
            is_chosen: value == typed,
        })
        .collect();
    if !all.iter().any(|c| c.is_chosen) {
        all.push(Choice {
            value: typed.to_owned(),
            text: typed.to_owned(),
            is_chosen: true,
        });
    }
    all
}
