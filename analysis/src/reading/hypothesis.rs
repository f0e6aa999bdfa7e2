//! What may have happened to a sheet's readings, and what each would have done
//! to ln λ.
//!
//! # How many
//! A sheet of n rows has *no slip*, *unexplained*, at most a dozen slips of
//! the whole sheet, a few single-row slips for each row, and pairs of
//! single-row slips on different rows. Slips that cannot bring a row nearer to
//! the others (see [`near`]) are not tried: of a clean sheet hardly any
//! remain. At most [`MOST_SINGLES`] single-row slips are tried, the nearest
//! ones, so pairs are fewer than 120.

use crate::field::Field;
use crate::figure::Figure;
use crate::method::Method;
use crate::sheet::{Entries, Entry, Sheet};

use super::cause::Cause;
use super::observe::{Observation, Observed, Total};
use super::prior::{self, rate};

/// Single-row slips that are tried, at most.
const MOST_SINGLES: usize = 16;

/// What a slip did to the residuals: what mending adds to them.
#[derive(Clone, Debug)]
pub(super) enum Change {
    /// ln λ (or ln of the whole string) of these residuals.
    Shift(Vec<(usize, f64)>),
    /// The frequency of every row was this many times as high.
    AllFrequencies(f64),
    /// That of one row was.
    Frequency(usize, f64),
    /// Every span is too long by about this much, m.
    Zero(f64),
}

/// What a mended reading would read.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Mend {
    /// This many waves or loops more (or fewer) in the row, or in every row.
    Count(f64),
    /// Half as many waves in every row.
    HalfCount,
    /// The figure typed so, and how many times as large that is.
    Text(String, f64),
    /// The dial's multiplier.
    Multiplier(f64),
    /// The two lengths of the known object in each other's place.
    Swap,
    /// No one figure.
    Nothing,
}

/// One slip, of a row or of the whole sheet.
#[derive(Clone, Debug)]
pub(super) struct Part {
    pub(super) cause: Cause,
    /// Index of the row in the sheet.
    pub(super) row: Option<usize>,
    pub(super) step: Field,
    pub(super) change: Change,
    pub(super) mend: Mend,
    /// Its prior odds against *no slip*.
    pub(super) prior: f64,
}

/// All that is tried on one sheet.
#[derive(Clone, Debug, Default)]
pub(super) struct Hypotheses {
    /// Slips of the whole sheet.
    pub(super) wholes: Vec<Part>,
    /// Slips of single rows.
    pub(super) singles: Vec<Part>,
    /// Pairs of those, by index, on different rows.
    pub(super) pairs: Vec<(usize, usize)>,
    /// Prior of *no slip*.
    pub(super) none: f64,
}

impl Hypotheses {
    /// Columns of a table: none, unexplained, wholes, singles, pairs.
    pub(super) fn len(&self) -> usize {
        2 + self.wholes.len() + self.singles.len() + self.pairs.len()
    }

    /// The slips of a column, none to two.
    pub(super) fn parts(&self, column: usize) -> Vec<&Part> {
        let Some(at) = column.checked_sub(2) else {
            return Vec::new();
        };
        if let Some(part) = self.wholes.get(at) {
            return vec![part];
        }
        let at = at - self.wholes.len();
        if let Some(part) = self.singles.get(at) {
            return vec![part];
        }
        let pair = self.pairs.get(at - self.singles.len());
        pair.map_or_else(Vec::new, |(one, other)| {
            vec![&self.singles[*one], &self.singles[*other]]
        })
    }
}

/// The slips worth trying on a sheet.
pub(super) fn hypotheses(sheet: &Sheet, seen: &Observed, reference: &Reference<'_>) -> Hypotheses {
    let mut wholes = match seen.method {
        Method::RippleTank => whole_of_water(sheet, seen),
        Method::StringLoops => nodes_counted(seen).into_iter().collect(),
    };
    wholes.extend(multiplier(sheet, seen));
    let mut singles: Vec<_> = (0..seen.rows.len())
        .flat_map(|at| {
            let mut parts = miscounts(sheet, seen, at);
            parts.extend(swaps_of_row(sheet, seen, at));
            parts.extend(multiplier_of_row(sheet, seen, at));
            parts
        })
        .collect();
    let near = Near::new(seen, reference);
    wholes.retain(|part| near.whole(part));
    if near.is_all_far() {
        singles.clear();
    }
    let mut ranked: Vec<_> = singles
        .drain(..)
        .filter_map(|part| Some((near.single(&part)?, part)))
        .collect();
    ranked.sort_by(|(one, _), (other, _)| one.total_cmp(other));
    ranked.truncate(MOST_SINGLES);
    // Two slips are worth trying only where each mends something by itself.
    let nearer: Vec<_> = ranked.iter().map(|(further, _)| *further < 0.0).collect();
    singles.extend(ranked.into_iter().map(|(_, part)| part));
    let slips: f64 = wholes.iter().chain(&singles).map(|part| part.prior).sum();
    let pairs = (0..singles.len())
        .flat_map(|one| (one + 1..singles.len()).map(move |other| (one, other)))
        .filter(|(one, other)| singles[*one].row != singles[*other].row)
        .filter(|(one, other)| nearer[*one] && nearer[*other])
        .collect();
    Hypotheses {
        none: (1.0 - slips - prior::LEVEL_UNEXPLAINED - prior::ROWS_UNEXPLAINED).max(0.5),
        wholes,
        pairs,
        singles,
    }
}

/// What apparatus as it should be leads one to expect.
pub(super) struct Reference<'r> {
    /// ln λ at a frequency (Hz), and how far an unknown depth may move it.
    pub(super) ln_wavelength: &'r dyn Fn(f64) -> (f64, f64),
    /// Whether its level is known. A string of which nothing was recorded may
    /// run at any speed.
    pub(super) is_level_known: bool,
}

/// How near a slip would bring the rows to where they should be.
struct Near<'o> {
    seen: &'o Observed,
    reference: &'o Reference<'o>,
    /// Of rows about the reference, of totals about their median.
    residuals: Vec<f64>,
    /// Where most rows lie.
    typical: f64,
}

/// A whole sheet further off than this is not mended (a lamp's fault and a
/// bent curve leave less).
const WHOLE_REACH: f64 = 0.45;

/// A row's slip is tried if it leaves the row nearer to the others, or further
/// by no more than this.
const ROW_REACH: f64 = 0.06;

impl<'o> Near<'o> {
    fn new(seen: &'o Observed, reference: &'o Reference<'o>) -> Self {
        let of_row =
            |row: &Observation| row.ln_wavelength - (reference.ln_wavelength)(row.frequency).0;
        let mut residuals: Vec<_> = seen.rows.iter().map(of_row).collect();
        let typical = typical(&residuals);
        let of_total = |total: &Total| total.ln_length - seen.ln_total;
        residuals.extend(seen.measured().map(of_total));
        Self {
            seen,
            reference,
            residuals,
            typical,
        }
    }

    fn whole(&self, part: &Part) -> bool {
        let rows = self.seen.rows.len();
        let mut mended = self.residuals[..rows].to_vec();
        match &part.change {
            Change::Shift(shifts) => {
                for (at, by) in shifts.iter().filter(|(at, _)| *at < rows) {
                    mended[*at] += by;
                }
            }
            Change::AllFrequencies(times) => {
                for (residual, row) in mended.iter_mut().zip(&self.seen.rows) {
                    *residual =
                        row.ln_wavelength - (self.reference.ln_wavelength)(row.frequency * times).0;
                }
            }
            Change::Frequency(..) | Change::Zero(_) => {}
        }
        !self.reference.is_level_known || median(&mended).abs() < WHOLE_REACH
    }

    /// Whether no row is anywhere near: then it is not single rows that are
    /// out.
    fn is_all_far(&self) -> bool {
        let rows = &self.residuals[..self.seen.rows.len()];
        self.reference.is_level_known && rows.iter().all(|row| row.abs() > WHOLE_REACH)
    }

    /// How much further off the slip leaves what it touches; `None` where it
    /// is not worth trying.
    fn single(&self, part: &Part) -> Option<f64> {
        match &part.change {
            Change::Frequency(at, times) => {
                let row = &self.seen.rows[*at];
                let mended =
                    row.ln_wavelength - (self.reference.ln_wavelength)(row.frequency * times).0;
                self.further(&[(*at, mended)])
            }
            Change::Shift(shifts) => {
                let mended = shifts
                    .iter()
                    .map(|(at, by)| (*at, self.residuals[*at] + by));
                self.further(&mended.collect::<Vec<_>>())
            }
            Change::AllFrequencies(_) | Change::Zero(_) => None,
        }
    }

    /// Rows are set against where most of them lie, and where they should lie
    /// if that is known: on a sheet with two slips the two may differ.
    fn further(&self, mended: &[(usize, f64)]) -> Option<f64> {
        let expected = self.reference.is_level_known.then_some(0.0);
        let centres = [Some(self.typical), expected].into_iter().flatten();
        let about = |centre: f64| {
            let (mut further, mut slack) = (0.0, ROW_REACH);
            for (at, mended) in mended {
                let row = self.seen.rows.get(*at);
                let centre = row.map_or(0.0, |_| centre);
                slack += row.map_or(0.0, |row| (self.reference.ln_wavelength)(row.frequency).1);
                further += (mended - centre).abs() - (self.residuals[*at] - centre).abs();
            }
            (further < slack).then_some(further)
        };
        centres.filter_map(about).reduce(f64::min)
    }
}

/// Rows that lie within this of each other lie together, ln λ.
const TOGETHER: f64 = 0.1;

/// The mean of the rows round which most lie together; of several such, the
/// one nearest to the median.
fn typical(residuals: &[f64]) -> f64 {
    let median = median(residuals);
    let round = |centre: f64| -> Vec<f64> {
        let near = residuals
            .iter()
            .copied()
            .filter(|r| (r - centre).abs() < TOGETHER);
        near.collect()
    };
    let groups = residuals
        .iter()
        .map(|centre| (round(*centre), (centre - median).abs()));
    let most =
        groups.min_by(|(one, a), (other, b)| other.len().cmp(&one.len()).then(a.total_cmp(b)));
    most.and_then(|(group, _)| crate::stats::spread::mean(&group))
        .unwrap_or(median)
}

fn median(values: &[f64]) -> f64 {
    crate::stats::spread::median(values).unwrap_or(0.0)
}

fn entries<'s>(sheet: &'s Sheet, seen: &Observed, at: usize) -> &'s Entries {
    &sheet.rows[seen.rows[at].row].entries
}

fn whole(cause: Cause, step: Field, change: Change, mend: Mend, prior: f64) -> Part {
    Part {
        cause,
        row: None,
        step,
        change,
        mend,
        prior,
    }
}

/// The same shift in every row.
fn everywhere(seen: &Observed, by: f64) -> Change {
    Change::Shift((0..seen.rows.len()).map(|at| (at, by)).collect())
}

fn whole_of_water(sheet: &Sheet, seen: &Observed) -> Vec<Part> {
    let mut parts: Vec<_> = counted_from_one(sheet, seen).into_iter().collect();
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
        parts.extend(swaps_of_scale(sheet, seen));
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

/// Called nought at the ruler's zero, but begun at one: only where the first
/// number is nought or blank. Where it is one, the working shows it.
fn counted_from_one(sheet: &Sheet, seen: &Observed) -> Option<Part> {
    let is_nought = |at: usize| {
        let first = entries(sheet, seen, at).si(Field::FirstCrest);
        first.is_none_or(|first| first < 0.5) && seen.rows[at].waves > 1.5
    };
    let all = 0..seen.rows.len();
    let shift = |(at, waves): (usize, f64)| (at, (waves / (waves - 1.0)).ln());
    let waves = seen.rows.iter().map(|row| row.waves).enumerate();
    all.clone().all(is_nought).then(|| {
        whole(
            Cause::CountedFromOne,
            Field::FirstCrest,
            Change::Shift(waves.map(shift).collect()),
            Mend::Count(-1.0),
            rate::COUNTED_FROM_ONE,
        )
    })
}

/// One loop too many in every row: in the measured length too where that covers
/// all loops.
fn nodes_counted(seen: &Observed) -> Option<Part> {
    let mut shifts = Vec::new();
    for at in 0..seen.rows.len() {
        shifts.extend(loops_seen(seen, at, -1.0)?);
    }
    Some(whole(
        Cause::NodesCountedAsLoops,
        Field::Loops,
        Change::Shift(shifts),
        Mend::Count(-1.0),
        rate::NODES_COUNTED,
    ))
}

/// What so many loops more or fewer seen in a row would change: its wavelength,
/// and, where the measured length does not cover all loops, the whole length.
/// `None` where no loop would remain.
fn loops_seen(seen: &Observed, at: usize, by: f64) -> Option<Vec<(usize, f64)>> {
    let row = &seen.rows[at];
    let total = seen.total_of(at);
    let loops = total.map_or(row.waves, |total| total.loops);
    if loops + by < 0.5 {
        return None;
    }
    let shift = ((loops + by) / loops).ln();
    let mut shifts = vec![(at, -shift)];
    let residual = total.and_then(|total| total.residual);
    if let Some(residual) = residual.filter(|_| !covers_all(seen, at)) {
        shifts.push((residual, shift));
    }
    Some(shifts)
}

/// Whether the measured length covers all the loops that were seen, so that the
/// two counts are one.
pub(super) fn covers_all(seen: &Observed, at: usize) -> bool {
    let total = seen.total_of(at);
    total.is_none_or(|total| (total.loops - seen.rows[at].waves).abs() < 0.5)
}

/// The frequency of every row, or of one, was so many times as high. On a
/// string that is a shift.
fn frequency_change(seen: &Observed, at: Option<usize>, times: f64) -> Change {
    match (seen.method, at) {
        (Method::RippleTank, None) => Change::AllFrequencies(times),
        (Method::RippleTank, Some(at)) => Change::Frequency(at, times),
        (Method::StringLoops, None) => everywhere(seen, times.ln()),
        (Method::StringLoops, Some(at)) => Change::Shift(vec![(at, times.ln())]),
    }
}

/// Whether a row's dial stands without a multiplier.
fn lacks_multiplier(entries: &Entries) -> bool {
    let times = entries.si(Field::DialTimes);
    let is_one = times.is_none_or(|times| (times - 1.0).abs() < 0.5);
    entries.get(Field::Dial).is_some() && is_one
}

fn multiplier(sheet: &Sheet, seen: &Observed) -> Vec<Part> {
    let lacks = |at| lacks_multiplier(entries(sheet, seen, at));
    if !(0..seen.rows.len()).all(lacks) {
        return Vec::new();
    }
    let times = |times| {
        whole(
            Cause::DialMultiplierLeftOut,
            Field::DialTimes,
            frequency_change(seen, None, times),
            Mend::Multiplier(times),
            rate::MULTIPLIER / 2.0,
        )
    };
    [10.0, 100.0].map(times).into()
}

fn multiplier_of_row(sheet: &Sheet, seen: &Observed, at: usize) -> Vec<Part> {
    // The one row that there is is the whole sheet.
    if seen.rows.len() < 2 || !lacks_multiplier(entries(sheet, seen, at)) {
        return Vec::new();
    }
    let times = |times| Part {
        row: Some(seen.rows[at].row),
        prior: rate::MULTIPLIER_ROW / 2.0,
        ..whole(
            Cause::DialMultiplierLeftOut,
            Field::DialTimes,
            frequency_change(seen, Some(at), times),
            Mend::Multiplier(times),
            0.0,
        )
    };
    [10.0, 100.0].map(times).into()
}

/// One wave or loop too many or too few in a row.
fn miscounts(sheet: &Sheet, seen: &Observed, at: usize) -> Vec<Part> {
    let row = &seen.rows[at];
    let part = |cause, step, by: f64, shifts, rate: f64| Part {
        row: Some(row.row),
        ..whole(
            cause,
            step,
            Change::Shift(shifts),
            Mend::Count(by),
            rate / 2.0,
        )
    };
    let blank = entries(sheet, seen, at).get(Field::Loops).is_none();
    let mut parts = Vec::new();
    for by in [-1.0, 1.0] {
        let counted = (row.waves + by > 0.5).then(|| (row.waves / (row.waves + by)).ln());
        if seen.method == Method::RippleTank {
            let (cause, rate) = (Cause::CrestMiscount, rate::CREST_MISCOUNT_ROW);
            let shifts = counted.map(|shift| vec![(at, shift)]);
            parts.extend(shifts.map(|shifts| part(cause, Field::LastCrest, by, shifts, rate)));
            continue;
        }
        let (cause, rate) = (Cause::LoopMiscount, rate::LOOP_MISCOUNT_ROW);
        let step = if blank {
            Field::LengthLoops
        } else {
            Field::Loops
        };
        let shifts = loops_seen(seen, at, by);
        parts.extend(shifts.map(|shifts| part(cause, step, by, shifts, rate)));
        // Loops in the measured length, counted apart from those seen.
        let total = seen.total_of(at).and_then(|total| total.residual);
        if let (Some(total), Some(shift), false) = (total, counted, covers_all(seen, at)) {
            parts.push(part(
                cause,
                Field::LengthLoops,
                by,
                vec![(total, shift)],
                rate,
            ));
        }
    }
    parts
}

fn swaps_of_row(sheet: &Sheet, seen: &Observed, at: usize) -> Vec<Part> {
    let row = &seen.rows[at];
    let entries = entries(sheet, seen, at);
    let length = match seen.method {
        Method::RippleTank => Field::Span,
        Method::StringLoops => Field::Length,
    };
    // A length along the string is judged by the string's whole length; one
    // that several rows have to the last digit is not swapped in one of them.
    let measured = seen.total_of(at).map_or(Some(at), |total| total.residual);
    let mut parts = Vec::new();
    for field in [length, Field::Dial, Field::Seconds] {
        let Some(entry) = entries.get(field) else {
            continue;
        };
        for (text, ratio, share) in swaps(entry) {
            let (change, jacobian) = match field {
                Field::Dial => (frequency_change(seen, Some(at), ratio), 1.0),
                Field::Seconds => (frequency_change(seen, Some(at), ratio.recip()), 1.0),
                // The model's density is one of ln λ; digits are swapped in λ.
                _ => match measured {
                    Some(measured) => (Change::Shift(vec![(measured, ratio.ln())]), ratio.recip()),
                    None => continue,
                },
            };
            parts.push(Part {
                row: Some(row.row),
                ..whole(
                    Cause::DigitsSwapped,
                    field,
                    change,
                    Mend::Text(text, ratio),
                    rate::DIGITS_SWAPPED * share * jacobian,
                )
            });
        }
    }
    parts
}

fn swaps_of_scale(sheet: &Sheet, seen: &Observed) -> Vec<Part> {
    let mut parts = Vec::new();
    for (field, power) in [(Field::ScaleImage, -1.0), (Field::ScaleTrue, 1.0)] {
        let Some(entry) = sheet.whole.get(field) else {
            continue;
        };
        for (text, ratio, share) in swaps(entry) {
            parts.push(whole(
                Cause::DigitsSwapped,
                field,
                everywhere(seen, power * ratio.ln()),
                Mend::Text(text, ratio),
                rate::DIGITS_SWAPPED * share / ratio,
            ));
        }
    }
    parts
}

/// Every swap of two neighbouring, different digits: the text, how many times
/// as large it is, and its share among them.
fn swaps(entry: &Entry) -> Vec<(String, f64, f64)> {
    let text = entry.figure.text().trim();
    let digits: Vec<_> = text
        .char_indices()
        .take_while(|(_, c)| c.is_ascii_digit() || matches!(c, '.' | ','))
        .filter(|(_, c)| c.is_ascii_digit())
        .collect();
    let swapped = digits.windows(2).filter_map(|pair| {
        let [(i, a), (j, b)] = pair else { return None };
        // A nought before the point is no digit that was read.
        let is_nought = *i == 0 && *a == '0';
        if a == b || is_nought {
            return None;
        }
        let mut chars: Vec<_> = text.char_indices().collect();
        for (at, c) in &mut chars {
            if at == i {
                *c = *b;
            } else if at == j {
                *c = *a;
            }
        }
        let text: String = chars.into_iter().map(|(_, c)| c).collect();
        let figure = Figure::parse(&text).ok()??;
        let ratio = figure.value() / entry.figure.value();
        (ratio > 0.0).then_some((text, ratio))
    });
    let swapped: Vec<_> = swapped.collect();
    let shares = u32::try_from(swapped.len()).unwrap_or(u32::MAX);
    swapped
        .into_iter()
        .map(|(text, ratio)| (text, ratio, f64::from(shares).recip()))
        .collect()
}
