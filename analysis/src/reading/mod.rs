//! Slips in the readings themselves, inferred: what may have happened at the
//! bench, and how sure that is.
//!
//! A group's arithmetic can be faultless and its readings wrong. Only the
//! physics, the group's other rows and the rest of the class can tell, and
//! never for certain: every explanation, *no slip* among them, gets a
//! posterior probability. Findings are invitations to look again.
//!
//! # How it is worked out
//! Everything is in ln λ, in which a count, an enlargement, a multiplier or two
//! swapped digits is a shift of known size. A method's model makes a sheet into
//! residuals (`method/model/observe.rs`), and says what may have happened to
//! them (`part.rs`):  *no slip*, a slip of every row, one of a single row, two
//! of two rows, *unexplained*. (A string's rows are judged by the string's
//! whole length where that is the same in all of them.)
//!
//! What nobody knows is the kit's: surface tension, depth, lamp, dial, the
//! string's speed. The model cuts that into cells (`state.rs`), faults of the
//! apparatus among them, in which the physics is straight and all that is not
//! known is normal. In a cell, at a scatter κ, a hypothesis has a closed form
//! (`likelihood.rs`: rows' own errors and four common directions, inverted by
//! Woodbury), and mending a row costs a few multiplications. `table.rs` fills
//! the table of cell × scatter × hypothesis: some hundred states by some ten to
//! forty columns. Evidence is kept as logarithms until the largest is known:
//! densities of long tables, or of readings far from everything, are no numbers
//! otherwise, and one such sheet would take its whole kit with it. `integrals/`
//! holds it against a plain sum over a fine grid.
//!
//! `posterior.rs` adds up: the probability of each (cause, row), its next best
//! explanation, and ties of causes that readings can hardly part. `no_slip` is
//! the probability that the group made none, whatever the apparatus.
//!
//! Probabilities are those of the priors in `method/prior.rs`, and nothing else
//! is tuned. `cargo bench -p crestcount-analysis --bench quality` prints
//! precision, recall, calibration and clean groups accused on simulated classes
//! whose noise and rates are the simulator's own, beside the optimal classifier
//! that knows those; `--school` has other habits. Change a prior for a reason
//! in the trade, then look; never the other way round.

mod case;
pub mod copied;
mod curve;
mod given;
mod hypothesis;
mod kit;
mod likelihood;
mod mend;
mod posterior;
mod table;
mod tree;

use serde::{Deserialize, Serialize};

use crate::field::Field;
use crate::sheet::Sheet;

pub use crate::cause::Cause;
pub use crate::method::prior;

/// Findings less probable than this are not told.
pub const LEAST_PROBABLE: f64 = 0.05;

/// A sheet among those of its class.
#[derive(Clone, Copy, Debug)]
pub struct Placed<'s> {
    /// What was read.
    pub sheet: &'s Sheet,
    /// What is written on its apparatus; blank where that is not known. Sheets
    /// of one class that name the same kit share its water, depth, lamp and
    /// dial, or its string.
    pub kit: &'s str,
}

/// Another explanation of the same readings.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Rival {
    /// Which.
    pub cause: Cause,
    /// Index of its row; `None` where it holds for the whole sheet.
    pub row: Option<usize>,
    /// Its posterior probability.
    pub probability: f64,
}

/// What the sheet would say were the reading mended.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Mended {
    /// Its gradient through the origin, in m/s.
    pub speed: f64,
    /// Whether its rows would then agree with the physics and the class.
    pub in_line: bool,
}

/// A count as it was written, and as it would fit.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Counts {
    /// As written.
    pub written: f64,
    /// As it would fit.
    pub fits: f64,
}

/// How far wavelengths lie off, as shares of themselves: of the row beside the
/// others, or typically of the sheet beside the physics.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Misfit {
    /// As written.
    pub before: f64,
    /// Once the reading is mended; `None` where no reading can be, as for a
    /// fault of the apparatus.
    pub mended: Option<f64>,
}

/// Something that may have happened, with its probability.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Finding {
    /// What.
    pub cause: Cause,
    /// Index of the row; `None` where it holds for the whole sheet.
    pub row: Option<usize>,
    /// The reading concerned.
    pub step: Field,
    /// Its posterior probability; of the two together where it is a tie.
    pub probability: f64,
    /// The next best explanation, where there is another than *no slip*.
    pub rival: Option<Rival>,
    /// Whether the rival looks so alike that it can only be said that it is
    /// one of the two.
    pub is_tie: bool,
    /// The reading as typed, with its unit; for a whole sheet, that of the
    /// first row concerned. Of what nothing explains, the median ratio of λ to
    /// what is expected. Blank where no one reading is meant.
    pub given: String,
    /// The reading that would fit, in the same unit; blank where none can be
    /// told.
    pub expected: String,
    /// The counts as written and as they would fit, of one row that is out by a
    /// wave or a loop.
    pub counts: Option<Counts>,
    /// Why it is thought so.
    pub misfit: Misfit,
    /// What mending would do; `None` where no reading can be mended.
    pub mended: Option<Mended>,
}

/// All that the readings of a sheet suggest.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Inference {
    /// The probability that its readings hold no slip (whatever the
    /// apparatus), known or not; 1 where there is nothing to judge by.
    pub no_slip: f64,
    /// What may have happened, most probable first; nothing below
    /// [`LEAST_PROBABLE`].
    pub findings: Vec<Finding>,
}

impl Default for Inference {
    /// That of a sheet with nothing to judge by.
    fn default() -> Self {
        Self {
            no_slip: 1.0,
            findings: Vec::new(),
        }
    }
}

/// Judges the readings of sheets of one class together. One result for each
/// sheet, in their order.
///
/// ```
/// use analysis::reading::infer;
/// assert!(infer(&[]).is_empty());
/// ```
#[must_use]
pub fn infer(sheets: &[Placed<'_>]) -> Vec<Inference> {
    kit::infer(sheets)
}
