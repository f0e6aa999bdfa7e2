//! Slips that every row of a tank's sheet shares.

use crate::field::Field;
use crate::sheet::Sheet;

use super::super::cause::Cause;
use super::super::observe::{Observation, Observed};
use super::super::prior::{self, rate};
use super::{Change, Mend, Part, count, entries, everywhere, swap, whole};

/// Slips of a whole sheet from a tank, but for the dial's multiplier.
pub(super) fn wholes(sheet: &Sheet, seen: &Observed) -> Vec<Part> {
    let mut parts: Vec<_> = count::from_one(sheet, seen).into_iter().collect();
    parts.push(whole(
        Cause::CrestToTrough,
        Field::LastCrest,
        everywhere(seen, 2.0_f64.ln()),
        Mend::HalfCount,
        rate::CREST_TO_TROUGH,
    ));
    let has_dial = |at| entries(sheet, seen, at).get(Field::Dial).is_some();
    if (0..seen.rows.len()).all(has_dial) {
        parts.push(whole(
            Cause::StrobeAtHalf,
            Field::Dial,
            Change::AllFrequencies(2.0),
            Mend::Nothing,
            rate::STROBE_AT_HALF,
        ));
    }
    if let Some(scale) = seen.scale {
        let magnification = scale.image / scale.true_length;
        // A picture smaller than the thing is rare; so is its mirror image.
        let odds = if magnification < 1.0 {
            rate::SMALLER_PICTURE.recip()
        } else {
            rate::SMALLER_PICTURE
        };
        parts.push(whole(
            Cause::ScaleUpsideDown,
            Field::ScaleImage,
            everywhere(seen, 2.0 * magnification.ln()),
            Mend::Swap,
            rate::SCALE_UPSIDE_DOWN * odds,
        ));
        parts.extend(swap::of_scale(sheet, seen));
    }
    for zero in prior::ZERO_ERRORS {
        if seen.rows.iter().all(|row| row.length > 4.0 * zero.abs()) {
            // The model's density is one of ln λ; the error adds to λ.
            let stretch = |row: &Observation| row.length / (row.length - zero);
            let jacobian: f64 = seen.rows.iter().map(stretch).product();
            parts.push(whole(
                Cause::ZeroError,
                Field::Span,
                Change::Zero(zero),
                Mend::Nothing,
                rate::ZERO_ERROR / 2.0 * jacobian,
            ));
        }
    }
    parts
}
