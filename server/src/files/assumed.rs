//! What was assumed while a file was read: the report says it.

use analysis::field::Field;
use analysis::method::Method;

use super::class_readings::ClassReadings;
use super::line::LineCells;
use crate::report::judge::PART;
use crate::words::file::{self, Assumed};

/// How often something was assumed, and where first.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    /// How often.
    pub count: u64,
    /// Line and column of the first.
    pub first: Option<(u64, String)>,
}

impl Tally {
    pub(super) fn add(&mut self, line: u64, column: &str) {
        self.count += 1;
        if self.first.is_none() {
            self.first = Some((line, column.to_owned()));
        }
    }
}

/// What was assumed while a file was read.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Assumptions {
    /// The fields are separated by `;`.
    pub semicolons: bool,
    /// Figures in which a comma was read as the decimal point.
    pub decimal_commas: Tally,
    /// Rows whose first number called was blank and was read as nought.
    pub first_number_nought: Tally,
    /// Ripple-tank sheets without a depth, which were compared with clean
    /// water of the usual one.
    pub usual_depth: Tally,
    /// Classes of so many sheets that their readings were compared in parts
    /// (of at most [`PART`]).
    pub in_parts: Tally,
}

impl Assumptions {
    /// Notes what is assumed of a line's cells.
    pub(super) fn note_line(&mut self, number: u64, cells: &LineCells<'_>) {
        for (field, text) in &cells.figures {
            if text.contains(',') {
                self.decimal_commas.add(number, field.name());
            }
        }
        let given = |field| cells.figures.iter().any(|(given, _)| *given == field);
        for (first, last) in [
            (Field::FirstCrest, Field::LastCrest),
            (Field::PassesFirst, Field::PassesLast),
        ] {
            if given(last) && !given(first) {
                self.first_number_nought.add(number, first.name());
            }
        }
    }

    /// Notes what is assumed of a class as a whole.
    pub(super) fn note_class(&mut self, class: &ClassReadings) {
        for sheet in &class.sheets {
            let typed = &sheet.entry.sheet;
            if typed.method.has(Field::Depth) && !typed.whole.contains_key(&Field::Depth) {
                self.usual_depth.add(sheet.line, Field::Depth.name());
            }
        }
        for method in Method::ALL {
            let of_method = class.of_method(method);
            if let Some(first) = of_method.first().filter(|_| of_method.len() > PART) {
                self.in_parts.add(class.sheets[*first].line, "class");
            }
        }
    }

    /// Returns one sentence for each thing that was assumed; none where
    /// nothing was.
    #[must_use]
    pub fn sentences(&self) -> Vec<String> {
        let mut sentences = self.of_reading();
        sentences.extend(told(Assumed::Depth, &self.usual_depth));
        sentences.extend(told(Assumed::Parts, &self.in_parts));
        sentences
    }

    /// Returns the same without what is assumed only where readings are
    /// judged.
    #[must_use]
    pub fn of_reading(&self) -> Vec<String> {
        let semicolons = self.semicolons.then(|| file::SEMICOLONS.to_owned());
        let commas = told(Assumed::DecimalComma, &self.decimal_commas);
        let nought = told(Assumed::FirstNumber, &self.first_number_nought);
        semicolons.into_iter().chain(commas).chain(nought).collect()
    }
}

fn told(what: Assumed, Tally { count, first }: &Tally) -> Option<String> {
    (*count > 0).then(|| file::assumed(what, *count, first.as_ref()))
}
