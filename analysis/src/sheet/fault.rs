//! What can be wrong with a box.

use crate::field::Field;
use crate::figure::FigureError;
use crate::unit::Unit;

/// Why a box cannot be taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum BoxFault {
    /// The sheet of this method has no such box.
    NotHere,
    /// Its text is no figure.
    NoFigure(FigureError),
    /// The unit beside it is none of the table. Its beginning.
    UnknownUnit(String),
    /// It has a unit, and what it stands for has none.
    HasNoUnit,
    /// Its unit is of another quantity.
    WrongUnit(Unit),
    /// It is below nought.
    Negative,
    /// It is larger than anything on a bench.
    TooLarge,
    /// It is a count, and no whole number.
    NotWhole,
    /// It is nought, and cannot be.
    Nought,
    /// It must be larger than the figure in this box.
    NotAbove(Field),
}

impl From<FigureError> for BoxFault {
    fn from(error: FigureError) -> Self {
        Self::NoFigure(error)
    }
}

/// One thing that is wrong with a sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// Index into [`super::TypedSheet::rows`]; `None` for a box of the whole
    /// sheet.
    pub row: Option<usize>,
    /// Which box.
    pub field: Field,
    /// Whether the unit beside the box is at fault, not the figure.
    pub in_unit: bool,
    /// What is wrong.
    pub fault: BoxFault,
}
