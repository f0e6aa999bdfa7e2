//! What is said of the boxes of a sheet, of what is typed into them, and of
//! the practicals.

use analysis::field::Field;
use analysis::method::Method;
use analysis::scheme::Answer;
use analysis::unit::Unit;

use super::Say;

impl Say {
    /// Returns what a practical is called.
    #[must_use]
    pub fn method(self, method: Method) -> String {
        self.coded("method", method.code(), None, [])
    }

    /// Returns a caution by its key.
    pub(crate) fn caution(self, key: &str) -> String {
        self.coded("caution", key, None, [])
    }

    /// Returns what a figure is called in a sentence.
    #[must_use]
    pub fn field(self, field: Field) -> String {
        self.coded("field", field.name(), None, [])
    }

    /// Returns what a box or a column is called.
    pub(crate) fn box_name(self, field: Field) -> String {
        self.coded("field", field.name(), Some("box"), [])
    }

    /// Returns the line of help under a box, blank where none is needed.
    pub(crate) fn hint(self, field: Field) -> String {
        if self.has("field", field.name(), "hint") {
            self.coded("field", field.name(), Some("hint"), [])
        } else {
            String::new()
        }
    }

    /// Returns what a column is called, with the unit that is fixed for it.
    pub(crate) fn column(self, field: Field) -> String {
        let name = self.box_name(field);
        match field.fixed_unit() {
            Some(unit) => self.sheet_in_unit_column(name, unit.symbol()),
            None => name,
        }
    }

    /// Returns what the group is asked to say in its own words.
    pub(crate) fn answer_question(self, answer: Answer) -> String {
        self.coded("answer", answer.code(), None, [])
    }

    /// Returns the line of help under that question.
    pub(crate) fn answer_hint(self, answer: Answer) -> String {
        self.coded("answer", answer.code(), Some("hint"), [])
    }

    /// Returns what an answer is called where it is shown again.
    pub(crate) fn answer(self, answer: Answer) -> String {
        self.coded("answer", answer.code(), Some("short"), [])
    }
}
