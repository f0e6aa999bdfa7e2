//! What a method's folder says of its sheets.

use crate::cause::Cause;
use crate::check::Check;
use crate::entry::Row;
use crate::field::Field;
use crate::kit::Kind;
use crate::unit::Unit;

use super::model::Model;
use super::step::Step;

/// A method: the boxes of its sheets, its chain, its model.
#[derive(Debug)]
pub struct Spec {
    /// The code in files and addresses.
    pub code: &'static str,
    /// The first part of the page: boxes of the whole sheet, in the order of
    /// the work.
    pub whole: &'static [Field],
    /// Columns of the table of readings.
    pub columns: &'static [Field],
    /// Columns for a frequency that is counted and not read off a dial; none
    /// where it never is.
    pub counted: &'static [Field],
    /// The last part: worked figures of the whole sheet.
    pub results: &'static [Field],
    /// The reading of a row that is measured with a ruler: what its speed
    /// comes from beside the frequency.
    pub length: Field,
    /// What a row is set to: rows that are set alike are repeats, and the
    /// expected speed may depend on it.
    pub set_by: Field,
    /// The figures along and up the graph whose gradient is the speed.
    pub graph: [Field; 2],
    /// Whether the speed depends on what a row is set to.
    pub is_dispersive: bool,
    /// Units of headings that are not those of the same box in other methods.
    pub headings: &'static [(Field, Unit)],
    /// What a school's apparatus usually gives: a box, with the least and the
    /// most in SI units. Common practice, no source; wide enough that careful
    /// groups are left alone.
    pub usual: &'static [(Field, f64, f64)],
    /// Frequencies (Hz) that are usual.
    pub frequencies: (f64, f64),
    /// The kind of kit that is its own.
    pub kit: Kind,
    /// Keys of what to be careful about at the bench.
    pub cautions: &'static [&'static str],
    /// All that may have happened to its readings or its apparatus.
    pub causes: &'static [Cause],
    /// What is its own in a scheme of marks.
    pub marks: Marks,
    pub(crate) chain: &'static [Step],
    pub(crate) model: &'static dyn Model,
}

/// What is a method's own in a scheme of marks.
#[derive(Debug)]
pub struct Marks {
    /// Points for the wavelength: the check, and its marks.
    pub worked: &'static [(Check, u32)],
    /// When a row measures many waves at once.
    pub many: Manner,
}

/// A good way of measuring a row.
#[derive(Debug)]
pub struct Manner {
    /// Whether a row has it, where the longest length of the sheet's is so
    /// long, in m.
    pub(crate) has: fn(&Row, f64) -> bool,
}
