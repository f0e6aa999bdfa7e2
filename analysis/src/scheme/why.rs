//! Why so many marks are suggested: for the server to put into words.

use crate::field::Field;
use crate::method::Method;
use crate::slip::Slip;
use crate::sum::Sum;

/// Where a figure is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Place {
    /// Which figure.
    pub field: Field,
    /// Label of its row; `None` for every row, or for the whole sheet.
    pub row: Option<String>,
}

/// The reason of a suggestion.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Why {
    /// Slips cost marks here.
    Slips {
        /// Where the first is.
        place: Place,
        /// The first.
        slip: Slip,
        /// The right turn written out.
        sum: Sum,
        /// Theirs.
        given: String,
        /// How many there are besides.
        more: usize,
        /// Marks that they cost together.
        cost: usize,
    },
    /// A figure of each row stands in none.
    NoneWorked(Field),
    /// It stands in so many rows, all of them, and is right.
    AllWorked(Field, usize),
    /// It stands in so many rows of so many, and is right there.
    SomeWorked(Field, usize, usize),
    /// A figure of the whole sheet is missing.
    Missing(Field),
    /// Nothing is known to judge it by.
    Unjudged(Field),
    /// It follows.
    Follows(Field),
    /// The enlargement is neither written down nor used.
    EnlargementUnused,
    /// It is not written down, but used.
    EnlargementUsed,
    /// One of the known object's two lengths is missing.
    OneLength,
    /// There are no complete readings.
    NoReadings,
    /// No object of known size was measured.
    NoObject,
    /// There is no speed to have a unit.
    NoSpeed,
    /// A unit is missing there.
    NoUnit(Place),
    /// Units are there, and none is mixed up.
    UnitsKept,
    /// The mean is right without one reading that was not marked.
    UnsaidRow,
    /// The reason, and rows that do not belong with the others though nobody
    /// marked them.
    WithOddRows(Box<Self>, Vec<String>),
    /// Nothing is worked out.
    NothingWorked,
    /// A figure has too few or too many figures.
    Figures(Place, String, Slip),
    /// Worked figures carry what the readings carry.
    FiguresCarried,
    /// Theirs is another uncertainty than the sum gives.
    Uncertainty(Sum, String),
    /// Complete readings at so many frequencies, where so many are enough.
    Frequencies(usize, usize),
    /// So many frequencies were measured again.
    Repeats(usize),
    /// So many rows of so many measure many waves at once, as this method does.
    ManyWaves(usize, usize, Method),
    /// So many lengths of so many are read to the millimetre.
    Millimetre(usize, usize),
}
