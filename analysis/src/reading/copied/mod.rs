//! Readings that agree with another group's beyond chance, and repeats
//! without any spread: questions for the teacher alone, never a mark and
//! never shown to pupils.
//!
//! # The model
//! Two groups that measure the same length at the same setting (dial and
//! count) differ by a normal error of standard deviation √2 s and round to a
//! step r. Where in a step the length lies is anybody's guess, so a difference
//! d falls within one step with the chance (1 − |d|/r)⁺, and the readings
//! agree with the chance
//!
//! p(r, s) = E (1 − |d|/r)⁺, about r/(2 s √π) where s is larger than r.
//!
//! s is the instrument's error times a scatter κ. κ is not known; it has a
//! prior on a few values, which the other sheets of the class sharpen: where
//! many agree in many rows, agreeing says little. On different kits the
//! readings differ by a common factor more, which is integrated out; where the
//! kit is not written down both are possible.
//!
//! The odds that a set of m sheets of n is one set of readings are
//!
//! prior × Σ w(κ) P(pattern | taken over, κ) ÷ Σ w(κ) P(pattern | own, κ),
//!
//! where the prior of any one set falls with the number of sets that there
//! are, C(n, m): the more pairs, the more must agree. Taken over means that
//! each row agrees for sure with the chance of a share q, else by accident.
//!
//! # What counts
//! Spans, times of counts, lengths along a string and frequencies at which it
//! resonates. Dials of a ripple tank, counts and true lengths are chosen, not
//! measured; so is a length that stays the same from setting to setting, and a
//! frequency that is a multiple of another row's. The step is that of the
//! sheet, not of the digits: where all spans are multiples of 5 mm, r is 5 mm,
//! and where many are, so many are taken to be rounded so.
//! Rows are matched by their setting, whatever their order.
//!
//! # Simplifications
//! m readings agree with the chance p^(m−1), a little less than the truth.
//! Last digits that are all 0 or 5, and readings that fit too well, are not
//! asked about: honest groups read so too, and no model tells them apart.

mod agreement;
mod chance;
mod repeats;
mod scatter;
mod taken;
mod together;
mod words;

use serde::{Deserialize, Serialize};

use super::LEAST_PROBABLE;
use crate::sheet::Sheet;

use taken::Taken;
use together::Class;

/// A sheet with what its group says of where its readings come from. One for
/// each group: sheets of one group agree by right.
#[derive(Clone, Copy, Debug)]
pub struct Declared<'s> {
    /// What was read.
    pub sheet: &'s Sheet,
    /// What is written on its apparatus; blank where that is not known.
    pub kit: &'s str,
    /// The shared set of readings that the group says it used; blank where the
    /// readings are its own.
    pub shared: &'s str,
}

impl Declared<'_> {
    /// Whether both say that they used the same shared set.
    fn declares_with(&self, other: &Self) -> bool {
        let (one, other) = (self.shared.trim(), other.shared.trim());
        !one.is_empty() && one.to_lowercase() == other.to_lowercase()
    }
}

/// Something that the teacher may want to ask.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Question {
    /// The sheets concerned, as indices into those given, ascending. One for
    /// repeats without spread.
    pub sheets: Vec<usize>,
    /// For each of these sheets the indices of the rows concerned.
    pub rows: Vec<(usize, Vec<usize>)>,
    /// The posterior probability that the readings are one set (or that the
    /// repeats were not measured), from [`LEAST_PROBABLE`] to 1.
    pub probability: f64,
    /// The question, without the groups' names.
    pub sentence: String,
    /// Why it is asked: how rarely chance does the same.
    pub why: String,
}

/// What the readings of one class give reason to ask, most probable first;
/// nothing below [`LEAST_PROBABLE`].
///
/// Groups that declare the same shared set are never asked about. One that
/// declares a set and one that declares none, or another, are: somebody may
/// have left it out. Sheets that agree with one another are one question.
///
/// The cost grows with the square of the number of sheets.
#[must_use]
pub fn questions(sheets: &[Declared<'_>]) -> Vec<Question> {
    let taken: Vec<_> = sheets.iter().map(Taken::of).collect();
    let mut questions = Class::new(sheets, &taken).questions();
    let repeated = taken.iter().enumerate();
    questions.extend(repeated.filter_map(|(sheet, taken)| repeats::question(sheet, taken)));
    questions.retain(|question| question.probability >= LEAST_PROBABLE);
    questions.sort_by(|one, other| other.probability.total_cmp(&one.probability));
    questions
}
