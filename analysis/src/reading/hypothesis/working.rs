//! What a row's own working says of a slip in its readings.
//!
//! A group that worked with 24.6 cm and wrote 26.4 cm down has the wavelength
//! of 24.6 cm in the next column. Where the figure of one row follows from the
//! mended reading and not from the one written down, while other rows' figures
//! follow from theirs, the slip is likelier.

use crate::field::Field;
use crate::interval::Interval;
use crate::method::model::observe::Seen;
use crate::method::model::part::Part;
use crate::method::prior;

/// How many times as likely a slip of one row is for the sake of its working.
pub(super) fn support(sheet: &Seen<'_>, at: usize, part: &Part) -> f64 {
    let of_mended = agrees(sheet, at, Some(part));
    let of_written = |row: usize| agrees(sheet, row, None);
    let others: Vec<_> = (0..sheet.seen.rows.len())
        .filter(|row| *row != at)
        .filter_map(of_written)
        .collect();
    let follow = others.iter().filter(|follows| **follows).count();
    let mostly_follow = follow > 0 && 2 * follow >= others.len();
    if of_mended == Some(true) && of_written(at) == Some(false) && mostly_follow {
        prior::WORKING_AGREES
    } else {
        1.0
    }
}

/// Whether a row's own wavelength (or frequency, where the slip is in that)
/// follows from its readings, mended or as written; `None` where it gave none.
fn agrees(sheet: &Seen<'_>, at: usize, part: Option<&Part>) -> Option<bool> {
    let row = &sheet.seen.rows[at];
    let own = |field: Field| Some(sheet.entries(at).get(field)?.interval());
    let (times, shift) = part.map_or((1.0, 0.0), |part| {
        (
            part.frequency_times(),
            part.wavelength_shift(sheet.seen, at),
        )
    });
    let frequency = own(Field::Frequency).map(|own| (own, row.frequency * times));
    let wavelength = own(Field::Wavelength).map(|own| (own, (row.ln_recorded + shift).exp()));
    let both: Vec<_> = [frequency, wavelength].into_iter().flatten().collect();
    let near = |(own, ours): &(Interval, f64)| {
        own.low * (1.0 - ROUNDING) <= *ours && *ours <= own.high * (1.0 + ROUNDING)
    };
    (!both.is_empty()).then(|| both.iter().all(near))
}

/// What rounding on the way may add either way, a share.
const ROUNDING: f64 = 0.01;
