//! What may have happened to readings on a tank, and what water leads one to
//! expect.

use crate::cause::Cause;
use crate::entry::{Entries, Row};
use crate::field::Field;
use crate::method::model::observe::{Error, Observation, Observed, Seen, observation};
use crate::method::model::part::{Change, Mend, Part};
use crate::method::model::state::{Curve, Point, States};
use crate::method::model::{Model, Recorded, Setting, Usual, swap, unit};
use crate::method::prior::{self, rate};
use crate::stats::spread;
use crate::wave::water::Water;

use super::{SPEC, states};

/// A tank of water.
#[derive(Debug)]
pub(super) struct Tank;

impl Model for Tank {
    /// On clean water of the depth and temperature recorded. A used tank's
    /// water runs some per cent slower.
    fn expected_speed(&self, whole: &Entries, frequency: f64) -> Option<f64> {
        Some(recorded(whole).speed(frequency))
    }

    fn speed_moves_by(&self, whole: &Entries, frequency: f64) -> (f64, f64) {
        let moves = recorded(whole).ln_wavelength(frequency);
        (moves.by_surface_tension, moves.by_ln_depth)
    }

    fn levels(&self, whole: &Entries, points: &[(f64, f64)]) -> Vec<f64> {
        levels(whole, points)
    }

    fn setting(&self, row: &Entries) -> Setting {
        let times = row.si(Field::DialTimes).unwrap_or(1.0);
        let dial = row.si(Field::Dial).map(|dial| dial * times);
        let waves = row.counted(Field::FirstCrest, Field::LastCrest);
        let passes = row.counted(Field::PassesFirst, Field::PassesLast);
        Setting {
            chosen: [dial, waves, passes],
            count: waves,
            measured: [Field::Span, Field::Seconds],
        }
    }

    fn observe(&self, whole: &Entries, rows: &[Row]) -> Observed {
        let scale = scale(whole);
        let magnification = scale.map_or(1.0, |(image, true_length)| image / true_length);
        // With one of the two lengths alone no wavelength is known.
        let halves = [Field::ScaleImage, Field::ScaleTrue].map(|field| whole.get(field).is_some());
        let is_known = halves[0] == halves[1];
        let seen = rows.iter().enumerate().filter(|_| is_known);
        let seen = seen.filter_map(|(at, row)| {
            let waves = row.entries.counted(Field::FirstCrest, Field::LastCrest)?;
            let span = row.entries.get(Field::Span)?;
            let length = (span, waves, magnification);
            observation(at, &row.entries, length, (prior::SPAN_SD, 0.0))
        });
        let share = |(image, true_length): (f64, f64)| {
            let image = Error::of(prior::IMAGE_SD / image, 0.0);
            let true_length = Error::of(prior::TRUE_SD / true_length, 0.0);
            image.reading.hypot(true_length.reading)
        };
        Observed {
            rows: seen.collect(),
            length: SPEC.length,
            is_dispersive: SPEC.is_dispersive,
            level_share: scale.map_or(0.0, share),
            level_floor: scale.map_or(0.0, |_| prior::LEVEL_FLOOR),
            ..Observed::default()
        }
    }

    /// Its depth.
    fn recorded(&self, whole: &Entries) -> Option<Recorded> {
        let depth = whole.get(Field::Depth)?;
        Some(Recorded {
            value: depth.si(),
            digit: depth.resolution(),
        })
    }

    fn usual<'m>(&self, depth: Option<Recorded>, _: &'m Observed) -> Usual<'m> {
        let usual = (prior::USUAL_DEPTH.start() * prior::USUAL_DEPTH.end()).sqrt();
        let water = Water {
            surface_tension: prior::SURFACE_TENSION_MEAN,
            ..Water::clean(20.0, depth.map_or(usual, |depth| depth.value))
        };
        // An unknown depth may lie a factor of two away.
        let doubt = if depth.is_some() { 0.2 } else { 0.5 };
        Usual {
            ln_wavelength: Box::new(move |f| {
                let curve = water.ln_wavelength(f);
                (curve.value, doubt * curve.by_ln_depth)
            }),
            is_level_known: true,
        }
    }

    fn states(&self, depth: Option<Recorded>, _: bool) -> States {
        states::of(depth)
    }

    fn wholes(&self, sheet: &Seen<'_>) -> Vec<Part> {
        wholes(sheet)
    }

    fn miscounts(&self, sheet: &Seen<'_>, at: usize) -> Vec<Part> {
        let row = &sheet.seen.rows[at];
        let possible = [-1.0, 1.0].into_iter().filter(|by| row.waves + by > 0.5);
        let part = |by: f64| {
            let shift = (row.waves / (row.waves + by)).ln();
            Part::whole(
                Cause::CrestMiscount,
                Field::LastCrest,
                Change::Shift(vec![(at, shift)]),
                Mend::Count(by),
                rate::CREST_MISCOUNT_ROW / 2.0,
            )
            .of_row(row.row)
        };
        possible.map(part).collect()
    }

    fn look_alike(&self) -> &'static [(Cause, Cause)] {
        &[
            (Cause::CrestToTrough, Cause::StrobeAtHalf),
            (Cause::ZeroError, Cause::LampOff),
            (Cause::LampOff, Cause::DialOff),
        ]
    }
}

impl Curve for Water {
    fn at(&self, frequency: f64) -> Point {
        let curve = self.ln_wavelength(frequency);
        Point {
            value: curve.value,
            by_ln_frequency: curve.by_ln_frequency,
            bends: [curve.by_surface_tension, curve.by_ln_depth],
        }
    }
}

/// The lengths (m) of the known object: its picture's and its own. `None`
/// where one of them is missing.
fn scale(whole: &Entries) -> Option<(f64, f64)> {
    Some((whole.si(Field::ScaleImage)?, whole.si(Field::ScaleTrue)?))
}

/// The depth (m) taken where none was recorded: the one most tanks are filled
/// to. Common practice, no source.
const USUAL_DEPTH: f64 = 0.005;

/// The temperature (°C) taken where none was recorded.
const USUAL_TEMPERATURE: f64 = 20.0;

/// Clean water of the depth and temperature recorded.
fn recorded(whole: &Entries) -> Water {
    let depth = whole.si(Field::Depth).unwrap_or(USUAL_DEPTH);
    Water::clean(temperature(whole), depth)
}

fn temperature(whole: &Entries) -> f64 {
    let recorded = whole.si(Field::Temperature);
    recorded.unwrap_or(USUAL_TEMPERATURE)
}

/// Surface tensions (N/m) tried when rows are judged, from a dirty tank to
/// clean water. Our choice (the range of the methods' prior).
const TENSIONS: [f64; 4] = [0.045, 0.055, 0.063, 0.0728];

/// Depths (m) tried where none was recorded. Our choice: by simulation of
/// clean sheets from tanks 4 to 12 mm deep, the best-fitting of plausible
/// curves accuses about 6 % where one assumed depth accuses up to a third.
const DEPTHS: [f64; 5] = [0.004, 0.005, 0.006, 0.008, 0.012];

/// ln v less the plausible curve that leaves the least scatter: used water of
/// the recorded depth, or of a usual one where none was recorded. A tank's
/// dirt and depth bend the curve for all rows; they must not accuse one.
fn levels(whole: &Entries, points: &[(f64, f64)]) -> Vec<f64> {
    let temperature = temperature(whole);
    let about = |depth: f64, surface_tension: f64| -> Vec<f64> {
        let water = Water {
            surface_tension,
            ..Water::clean(temperature, depth)
        };
        points
            .iter()
            .map(|(f, v)| (v / water.speed(*f)).ln())
            .collect()
    };
    let recorded = whole.si(Field::Depth).map(|depth| vec![depth]);
    let scatter = |levels: &Vec<f64>| spread::sample_sd(levels).unwrap_or(0.0);
    recorded
        .unwrap_or_else(|| DEPTHS.to_vec())
        .into_iter()
        .flat_map(|depth| TENSIONS.map(|tension| about(depth, tension)))
        .min_by(|one, other| scatter(one).total_cmp(&scatter(other)))
        .unwrap_or_default()
}

/// Called nought at the ruler's zero, but begun at one: only where the first
/// number is nought or blank. Where it is one, the working shows it.
fn from_one(sheet: &Seen<'_>) -> Option<Part> {
    let seen = sheet.seen;
    let is_nought = |at: usize| {
        let first = sheet.entries(at).si(Field::FirstCrest);
        first.is_none_or(|first| first < 0.5) && seen.rows[at].waves > 1.5
    };
    let all = 0..seen.rows.len();
    let shift = |(at, waves): (usize, f64)| (at, (waves / (waves - 1.0)).ln());
    let waves = seen.rows.iter().map(|row| row.waves).enumerate();
    all.clone().all(is_nought).then(|| {
        Part::whole(
            Cause::CountedFromOne,
            Field::FirstCrest,
            Change::Shift(waves.map(shift).collect()),
            Mend::Count(-1.0),
            rate::COUNTED_FROM_ONE,
        )
    })
}

/// Waves that were measured on the screen after all, where no enlargement is
/// written down.
fn without_scale(sheet: &Seen<'_>) -> Option<Part> {
    let (ln, sd) = prior::UNKNOWN_ENLARGEMENT;
    scale(sheet.whole).is_none().then(|| {
        Part::whole(
            Cause::ScaleNotFound,
            Field::ScaleImage,
            Change::Factor { ln, sd },
            Mend::Nothing,
            rate::SCALE_NOT_FOUND,
        )
    })
}

/// Slips of a whole sheet from a tank, but for the dial's multiplier.
fn wholes(sheet: &Seen<'_>) -> Vec<Part> {
    let seen = sheet.seen;
    let mut parts: Vec<_> = from_one(sheet).into_iter().collect();
    parts.push(Part::whole(
        Cause::CrestToTrough,
        Field::LastCrest,
        Change::everywhere(seen, 2.0_f64.ln()),
        Mend::HalfCount,
        rate::CREST_TO_TROUGH,
    ));
    let has_dial = |at| sheet.entries(at).get(Field::Dial).is_some();
    if (0..seen.rows.len()).all(has_dial) {
        parts.push(Part::whole(
            Cause::StrobeAtHalf,
            Field::Dial,
            Change::AllFrequencies(2.0),
            Mend::Nothing,
            rate::STROBE_AT_HALF,
        ));
    }
    parts.extend(without_scale(sheet));
    if let Some((image, true_length)) = scale(sheet.whole) {
        let magnification = image / true_length;
        // A picture smaller than the thing is rare; so is its mirror image.
        let odds = if magnification < 1.0 {
            rate::SMALLER_PICTURE.recip()
        } else {
            rate::SMALLER_PICTURE
        };
        parts.push(Part::whole(
            Cause::ScaleUpsideDown,
            Field::ScaleImage,
            Change::everywhere(seen, 2.0 * magnification.ln()),
            Mend::Swap,
            rate::SCALE_UPSIDE_DOWN * odds,
        ));
        for (field, power) in [(Field::ScaleImage, -1.0), (Field::ScaleTrue, 1.0)] {
            parts.extend(swap::of_sheet(sheet, field, power));
            parts.extend(unit::of_sheet(sheet, &SPEC, field, power));
        }
    }
    for zero in prior::ZERO_ERRORS {
        if seen.rows.iter().all(|row| row.length > 4.0 * zero.abs()) {
            // The model's density is one of ln λ; the error adds to λ.
            let stretch = |row: &Observation| row.length / (row.length - zero);
            let jacobian: f64 = seen.rows.iter().map(stretch).product();
            parts.push(Part::whole(
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
