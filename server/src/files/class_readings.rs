//! The sheets of one class, put together from its lines.

use std::collections::HashMap;

use analysis::method::Method;

use super::fault::Fault;
use super::line::Line;
use super::sheet_lines::SheetReadings;
use crate::words::file;

/// The sheets of one class, in the order in which they start in the file.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ClassReadings {
    /// The class set's label; blank where none was given.
    pub class: String,
    /// Its sheets: one a group and method.
    pub sheets: Vec<SheetReadings>,
    /// Where in `sheets` each is.
    places: HashMap<(Method, String), usize>,
}

impl ClassReadings {
    pub(super) fn new(class: &str) -> Self {
        Self {
            class: class.to_owned(),
            ..Self::default()
        }
    }

    /// Lists which of its sheets are of a method, in their order.
    #[must_use]
    pub fn of_method(&self, method: Method) -> Vec<usize> {
        let is_of_method = |at: &usize| self.sheets[*at].method() == method;
        (0..self.sheets.len()).filter(is_of_method).collect()
    }

    /// Adds a line to the sheet that it belongs to.
    pub(super) fn add(&mut self, number: u64, line: &Line<'_>, faults: &mut Vec<Fault>) {
        let before = faults.len();
        for (column, text) in [("group", line.group), ("row", line.cells.row)] {
            if text.is_empty() {
                faults.push(Fault::in_column(number, column, file::BLANK_CELL));
            }
        }
        match line.method(number) {
            Ok(method) if faults.len() == before => {
                self.sheet(method, line.group, number)
                    .add(number, &line.cells, faults);
            }
            Ok(_) => {}
            Err(fault) => faults.push(fault),
        }
    }

    fn sheet(&mut self, method: Method, group: &str, number: u64) -> &mut SheetReadings {
        let sheets = &mut self.sheets;
        let place = self.places.entry((method, group.to_owned()));
        let place = *place.or_insert_with(|| {
            sheets.push(SheetReadings::new(group, method, number));
            sheets.len() - 1
        });
        &mut sheets[place]
    }

    /// Ends its sheets: no line of the class comes after.
    pub(super) fn end(&mut self) {
        self.sheets.iter_mut().for_each(SheetReadings::end);
    }
}
