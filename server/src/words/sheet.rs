//! What is said of the boxes of a sheet, of what is typed into them, and of
//! the practicals.

use analysis::field::Field;
use analysis::figure::{Figure, FigureError};
use analysis::method::Method;
use analysis::scheme::Answer;
use analysis::sheet::{Asks, BoxFault, Cell};
use analysis::sum::Sum;
use analysis::unit::Unit;

use super::Say;

/// Returns a figure as typed, with a unit unless it was typed with one.
#[must_use]
pub fn with_unit(text: &str, symbol: &str) -> String {
    let text = text.trim();
    let has_its_own =
        Figure::parse(text).is_ok_and(|figure| figure.is_some_and(|f| f.unit().is_some()));
    if symbol.is_empty() || has_its_own {
        text.to_owned()
    } else {
        format!("{text} {symbol}")
    }
}

/// Returns a box as typed, with the unit that was chosen or is fixed for it.
#[must_use]
pub fn as_typed(field: Field, cell: &Cell) -> String {
    let fixed = field.fixed_unit().map_or("", Unit::symbol);
    let unit = if cell.unit.is_empty() {
        fixed
    } else {
        &cell.unit
    };
    with_unit(&cell.text, unit)
}

impl Say {
    /// Returns what a practical is called.
    #[must_use]
    pub fn method(self, method: Method) -> &'static str {
        self.coded("method", method.code(), None)
    }

    /// Returns what stands over the first part of a method's sheet, below that,
    /// and over its table of readings.
    pub(crate) fn leads(self, method: Method) -> [&'static str; 3] {
        ["part", "part-lead", "readings-lead"]
            .map(|lead| self.coded("method", method.code(), Some(lead)))
    }

    /// Returns what to be careful about at the bench, as far as pupils need
    /// to be told.
    pub(crate) fn cautions(self, method: Method) -> Vec<&'static str> {
        let keys = method.spec().cautions.iter();
        keys.filter_map(|key| self.find("caution", key, None))
            .collect()
    }

    /// Returns the cautions of a method for whoever sets the lesson up. They
    /// repeat the usual ones and replace no risk assessment.
    pub(crate) fn cautions_of_hand_out(self, method: Method) -> Vec<&'static str> {
        let keys = method.spec().cautions.iter();
        keys.map(|key| self.coded("caution", key, Some("hand-out")))
            .collect()
    }

    /// Returns what one group needs.
    pub(crate) fn needs(self, method: Method) -> Vec<&'static str> {
        let item = |n| self.find("needs", method.code(), Some(&format!("item-{n}")));
        (1..).map_while(item).collect()
    }

    /// Returns what a figure is called in a sentence.
    #[must_use]
    pub fn field(self, field: Field) -> &'static str {
        self.coded("field", field.name(), None)
    }

    /// Returns what a box or a column is called.
    pub(crate) fn box_name(self, field: Field) -> &'static str {
        self.coded("field", field.name(), Some("box"))
    }

    /// Returns the line of help under a box. Returns no text when none is
    /// needed.
    pub(crate) fn hint(self, field: Field) -> &'static str {
        self.find("field", field.name(), Some("hint"))
            .unwrap_or_default()
    }

    /// Returns what a column is called, with the unit that is fixed for it.
    pub(crate) fn column(self, field: Field) -> String {
        let name = self.box_name(field);
        match field.fixed_unit() {
            Some(unit) => self.sheet_in_unit_column(name, unit.symbol()),
            None => name.to_owned(),
        }
    }

    /// Returns what the group is asked to say in its own words.
    pub(crate) fn answer_question(self, answer: Answer) -> &'static str {
        self.coded("answer", answer.code(), None)
    }

    /// Returns the line of help under that question.
    pub(crate) fn answer_hint(self, answer: Answer) -> &'static str {
        self.coded("answer", answer.code(), Some("hint"))
    }

    /// Returns what an answer is called where it is shown again.
    pub(crate) fn answer(self, answer: Answer) -> &'static str {
        self.coded("answer", answer.code(), Some("short"))
    }
}

impl Say {
    /// Returns what is wrong with a box.
    #[must_use]
    pub fn fault(self, field: Field, fault: &BoxFault) -> String {
        let name = self.field(field);
        match fault {
            BoxFault::NotHere => self.wrong_not_here(name),
            BoxFault::NoFigure(error) => self.no_figure(error),
            BoxFault::UnknownUnit(unit) => self.wrong_unknown_unit(unit),
            BoxFault::HasNoUnit => self.wrong_has_no_unit(name),
            BoxFault::WrongUnit(unit) => {
                self.wrong_unit(name, unit.symbol(), self.choice_of_units(field))
            }
            BoxFault::Negative => self.wrong_negative(name),
            BoxFault::TooLarge => self.wrong_too_large(name),
            BoxFault::NotWhole => self.wrong_not_whole(name),
            BoxFault::Nought => self.wrong_nought(name),
            BoxFault::NotAbove(other) => self.wrong_not_above(name, self.field(*other)),
        }
    }

    fn no_figure(self, error: &FigureError) -> String {
        match error {
            FigureError::NoDigits => self.wrong_no_digits(),
            FigureError::TwoPoints => self.wrong_two_points(),
            FigureError::TooLong => self.wrong_too_long(),
            FigureError::OutOfRange => self.wrong_out_of_range(),
            FigureError::UnknownUnit(unit) => self.wrong_unknown_unit(unit),
            FigureError::NotANumber => self.wrong_not_a_number(),
        }
    }

    /// Returns what is asked about a box.
    #[must_use]
    pub fn asks(self, field: Field, asks: &Asks) -> String {
        match asks {
            Asks::Unusual(given) => {
                let why = self.coded("field", field.name(), Some("usual"));
                self.odd_unusual(given, why)
            }
            Asks::Unit => self.odd_unit(self.choice_of_units(field)),
            Asks::Comma(whole, after) => self.odd_comma(whole, after),
            Asks::Picture(times) => self.odd_picture(times),
            Asks::Frequency(frequency) => self.odd_frequency(frequency),
        }
    }

    /// `mm or cm or m`.
    fn choice_of_units(self, field: Field) -> String {
        let units = field.quantity().units();
        let symbols = units.iter().map(|unit| unit.symbol().to_owned());
        symbols
            .reduce(|most, next| self.units_or(most, next))
            .unwrap_or_default()
    }
}

impl Say {
    /// Returns a sum with its words. Returns no text when there is none.
    #[must_use]
    pub fn sum(self, sum: &Sum) -> String {
        match sum {
            Sum::None => String::new(),
            Sum::Figures(figures) => figures.clone(),
            Sum::OnWater(first, second) => self.sum_on_water(first, second),
            Sum::Dial(reading) => self.sum_dial(reading),
            Sum::Waves(count, time) => self.sum_waves(count, time),
            Sum::WholeRange(half) => self.sum_whole_range(half),
            Sum::Lines(low, high) => self.sum_lines(low, high),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn everything_that_has_a_code_is_said_in_every_language() {
        for say in Say::all() {
            for method in Method::ALL {
                assert!(!say.method(method).is_empty(), "{say:?} {method:?}");
                for (field, ..) in method.spec().usual {
                    let usual = say.find("field", field.name(), Some("usual"));
                    assert!(usual.is_some(), "{say:?} {field:?}");
                }
                let cautions = say.cautions_of_hand_out(method);
                assert!(cautions.iter().all(|text| !text.is_empty()), "{say:?}");
                assert!(!say.needs(method).is_empty(), "{say:?} {method:?}");
                for noun in ["apparatus", "one", "many", "against", "good-row"] {
                    let said = say.find("nouns", method.code(), Some(noun));
                    assert!(said.is_some(), "{say:?} {method:?}: {noun}");
                }
            }
            for field in Field::ALL {
                let said = [say.field(field), say.box_name(field)];
                assert!(
                    said.iter().all(|text| !text.is_empty()),
                    "{say:?} {field:?}"
                );
            }
            for answer in Answer::ALL {
                for part in [None, Some("hint"), Some("short"), Some("theirs")] {
                    let said = say.find("answer", answer.code(), part);
                    assert!(said.is_some(), "{say:?} {answer:?}");
                }
            }
        }
    }

    #[test]
    fn unit_is_shown_once() {
        for (field, text, unit, shown) in [
            (Field::Span, "16.6", "cm", "16.6 cm"),
            (Field::Span, "16.6 cm", "cm", "16.6 cm"),
            (Field::Span, "166mm", "cm", "166mm"),
            (Field::Span, "2O", "cm", "2O cm"),
            (Field::Dial, "10", "", "10 Hz"),
            (Field::Dial, "10 Hz", "", "10 Hz"),
            (Field::Loops, "3", "", "3"),
            (Field::Uncertainty, "0.02", "m/s", "0.02 m/s"),
        ] {
            let cell = Cell {
                text: text.to_owned(),
                unit: unit.to_owned(),
            };
            assert_eq!(as_typed(field, &cell), shown);
        }
    }
}
