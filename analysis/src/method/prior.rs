//! Every prior and noise figure of the inference, in one place, each with its
//! source or *our choice*.
//!
//! # The model
//! Written for ln λ, in which counts, scales and frequencies are shifts. A
//! row's recorded wavelength (span ÷ waves ÷ enlargement) is
//!
//! ln λᵢ = ln λ(fᵢ e^−ζ; σ, h) + η + μ + eᵢ
//!
//! with λ(f; σ, h) from ω² = (g k + σ k³/ρ) tanh(k h); ζ the dial's factor, η
//! the lamp's, both the kit's; μ the group's error in the enlargement; eᵢ the
//! row's own. On a string ln λ(f) is ln v − ln f, with ln v unknown or near
//! ln √(T/μ).
//!
//! Instruments' errors are taken κ times as large as written here: κ is the
//! class's scatter, learned from its sheets.

use std::ops::RangeInclusive;

/// Surface tension of a school tank's water, N/m: normal. Our choice, from
/// the methods' table of priors.
pub const SURFACE_TENSION_MEAN: f64 = 0.063;
/// Its standard deviation, N/m. Our choice (methods).
pub const SURFACE_TENSION_SD: f64 = 0.006;
/// Where that normal is cut, N/m: below, water is called dirty; above, it is
/// cleaner than clean (IAPWS R1-76(2014) at 20 °C). Our choice (methods).
pub const SURFACE_TENSION: RangeInclusive<f64> = 0.045..=0.0728;
/// Surface tension of dirty water, N/m: uniform. Detergent brings water to
/// about 25 to 35 mN/m (trade knowledge, no source).
pub const DIRTY_SURFACE_TENSION: RangeInclusive<f64> = 0.025..=0.045;

/// Depth where none was recorded, m: uniform in ln h, with
/// [`USUAL_DEPTH_SHARE`]. Our choice (methods).
pub const USUAL_DEPTH: RangeInclusive<f64> = 0.004..=0.012;
/// The share of tanks within [`USUAL_DEPTH`]. Our choice.
pub const USUAL_DEPTH_SHARE: f64 = 0.93;
/// The thin tail of deeper tanks, m: uniform in ln h. Our choice (methods).
pub const DEEP_TAIL: RangeInclusive<f64> = 0.012..=0.060;
/// Standard deviation of a recorded depth, m, beside its last digit. Our
/// choice.
pub const DEPTH_SD: f64 = 0.0003;
/// Depth where it is not the recorded one, m: uniform in ln h. Our choice.
pub const DEPTH_OFF: RangeInclusive<f64> = 0.002..=0.025;

/// Standard deviation of a span on the screen, m. Our choice (methods: about
/// 1 mm).
pub const SPAN_SD: f64 = 0.001;
/// Standard deviation of the known object's length on the screen, m. Our
/// choice (methods).
pub const IMAGE_SD: f64 = 0.001;
/// Standard deviation of its true length, m. Our choice (methods).
pub const TRUE_SD: f64 = 0.0003;
/// Standard deviation of a dial's scale factor, a share. Our choice
/// (methods).
pub const DIAL_FACTOR_SD: f64 = 0.006;
/// What is left of a group's error in the enlargement however carefully it is
/// measured, a share: the picture is not everywhere as large as where the
/// known object lay. It does not grow with κ. Our choice.
pub const LEVEL_FLOOR: f64 = 0.003;
/// Standard deviation of waves counted past a point, waves. Our choice.
pub const PASSES_SD: f64 = 0.3;
/// Standard deviation of the time of such a count, s. Our choice.
pub const SECONDS_SD: f64 = 0.2;
/// Standard deviation of a length along the string, m: nodes are soft. Our
/// choice.
pub const STRING_LENGTH_SD: f64 = 0.002;
/// Standard deviation of finding a resonance, a share of the frequency. Our
/// choice.
pub const RESONANCE_SD: f64 = 0.005;
/// What is left of a row's error however careful the group, a share. It does
/// not grow with κ. Our choice.
pub const ROW_FLOOR: f64 = 0.001;

/// How well √(T/μ) foretells the speed on a string, standard deviation of
/// ln v. Our choice: stretch, hanger and pulley.
pub const STRING_SPEED_SD: f64 = 0.08;
/// Median speed (m/s) on a string of which nothing was recorded. Our choice.
pub const STRING_SPEED_MEDIAN: f64 = 28.0;
/// Standard deviation of ln v on such a string. Our choice.
pub const UNKNOWN_STRING_SPEED_SD: f64 = 0.55;

/// Standard deviation of ln of a string's whole length about what its rows say:
/// wide, since nothing else is known of it. Our choice.
pub const STRING_TOTAL_SD: f64 = 2.0;

/// κ: how many times as large as written here a class's errors may be. Our
/// choice, from a careful class to a rough one.
pub const SCATTER: [f64; 7] = [0.6, 1.0, 1.7, 2.8, 4.4, 7.0, 12.0];
/// Prior of each κ for a class. Our choice.
pub const SCATTER_PRIOR: [f64; 7] = [0.11, 0.24, 0.28, 0.20, 0.10, 0.04, 0.03];
/// The share of groups that scatter as their class does; the others are
/// spread as [`SCATTER_PRIOR`]. Our choice.
pub const SCATTERS_AS_CLASS: f64 = 0.96;

/// The share of groups whose apparatus was not as the others of their kit
/// found it: refilled, moved, another mass hung. Our choice.
pub const KIT_CHANGED: f64 = 0.02;

/// The share of rows that are out for no reason that is known here. Our
/// choice.
pub const STRAY_ROW: f64 = 0.0003;
/// Standard deviation of ln λ of a stray row. Our choice.
pub const STRAY_SD: f64 = 0.25;
/// The share of sheets whose level is out for no reason that is known here: the
/// enlargement of another picture, another unit. Our choice.
pub const LEVEL_UNEXPLAINED: f64 = 0.001;
/// Standard deviation of ln λ of such a level. Our choice.
pub const LEVEL_UNEXPLAINED_SD: f64 = 1.0;
/// The share of sheets whose rows besides have nothing to do with each other
/// (each scatters by [`STRAY_SD`]). Our choice.
pub const ROWS_UNEXPLAINED: f64 = 0.001;

/// How many times as likely a slip of one row is where that row's own working
/// follows from the mended reading and not from the one written down. Our
/// choice.
pub const WORKING_AGREES: f64 = 20.0;

/// Prior of each fault of the apparatus, for a kit in a lesson. Our choice.
pub const APPARATUS: f64 = 0.02;
/// Sizes of a lamp's or a dial's fault, as shifts of ln λ or ln f.
///
/// They are equally likely, each with [`FACTOR_OFF_SD`]. Our choice (the trade: a lamp
/// 20 to 50 mm low makes 4 to 10 %; a dial is 8 to 10 % out).
pub const FACTORS_OFF: [f64; 4] = [-0.105, -0.055, 0.055, 0.105];
/// Standard deviation about each of [`FACTORS_OFF`]. Our choice.
pub const FACTOR_OFF_SD: f64 = 0.02;
/// Standard deviation of ln v where the string is stretched or another. Our
/// choice.
pub const STRING_OFF_SD: f64 = 0.25;
/// Of strings whose speed is off, the share in which it is the string and not
/// the dial; their readings are alike. Our choice.
pub const STRING_NOT_DIAL: f64 = 0.6;

/// Sizes of a ruler's zero error, m: equally likely, each with
/// [`ZERO_ERROR_SD`]. Our choice: 5 to 15 mm of wood before or after the
/// nought.
pub const ZERO_ERRORS: [f64; 2] = [-0.009, 0.009];
/// Standard deviation about each of [`ZERO_ERRORS`], m. Our choice.
pub const ZERO_ERROR_SD: f64 = 0.004;

/// ln of an enlargement that nobody measured, and its standard deviation: 1.1
/// to 3 within two of them. Our choice (methods).
pub const UNKNOWN_ENLARGEMENT: (f64, f64) = (0.6, 0.25);

/// How common each slip is: odds against *no slip*, near enough a share of
/// sheets. All are our choice, after a
/// teacher's feeling for which are common; none has a source.
pub mod rate {
    /// The count begun at one, in every row.
    pub const COUNTED_FROM_ONE: f64 = 0.14;
    /// Half waves counted.
    pub const CREST_TO_TROUGH: f64 = 0.04;
    /// A strobe at half the rate.
    pub const STROBE_AT_HALF: f64 = 0.02;
    /// Image and true length swapped.
    pub const SCALE_UPSIDE_DOWN: f64 = 0.03;
    /// The ruler's end used for its zero.
    pub const ZERO_ERROR: f64 = 0.04;
    /// A multiplier not written down, in every row; half each for 10 and 100.
    pub const MULTIPLIER: f64 = 0.05;
    /// The same in a single row, for each row.
    pub const MULTIPLIER_ROW: f64 = 0.003;
    /// Out by a wave in one row, for each row; half each for one too many and
    /// one too few.
    pub const CREST_MISCOUNT_ROW: f64 = 0.018;
    /// Out by a loop in one row, for each row.
    pub const LOOP_MISCOUNT_ROW: f64 = 0.02;
    /// Nodes counted in every row.
    pub const NODES_COUNTED: f64 = 0.08;
    /// Two neighbouring digits swapped, for each reading of a row and for each
    /// length of the scale; shared out among its pairs of digits.
    pub const DIGITS_SWAPPED: f64 = 0.005;
    /// Waves measured on the screen and no enlargement, a share of the sheets
    /// that have none. The methods' figure.
    pub const SCALE_NOT_FOUND: f64 = 0.1;
    /// A length in another unit than the one beside it, in every row, or in
    /// one of the two lengths of the scale; half each for the two other units.
    pub const UNIT_MIXED: f64 = 0.01;
    /// The same in a single row, for each row.
    pub const UNIT_MIXED_ROW: f64 = 0.001;
    /// Of lengths in another unit, those that leave a bench as no bench is, as
    /// a share of those that do not.
    pub const UNUSUAL_LENGTH: f64 = 0.05;
    /// An enlargement below 1 where nothing was swapped, a share of sheets: a
    /// lamp above the tank makes the picture larger.
    pub const SMALLER_PICTURE: f64 = 0.03;
}

/// Readings that are another group's, and repeats without spread.
///
/// These are for the questions of [`copied`](crate::reading::copied). All are our
/// choice; none has a source. They lean towards silence: a wrong question
/// costs more than one left unasked.
pub mod agreement {
    /// The share of groups that take readings from another without saying so.
    pub const COPIES: f64 = 0.004;
    /// How far the pair that is made up scatters, in instruments' errors as
    /// written above.
    pub const SCATTER: f64 = 0.6;
    /// Readings that each pair has beside its own, agreeing as the class does.
    pub const AS_CLASS: f64 = 3.0;
    /// How far repeats by one group scatter, in instruments' errors: who reads
    /// again remembers the first reading.
    pub const REPEATS: f64 = 0.25;
    /// The share of sheets whose repeats were written down without measuring,
    /// and without spread.
    pub const MADE_UP: f64 = 0.005;
}
