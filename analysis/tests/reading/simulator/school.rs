//! Every figure that simulated classes are drawn from, in one place. They are
//! the simulator's own, and are kept apart from the engine's priors: no engine
//! is measured against itself.
//!
//! All of it is our choice, after what teachers tell of these practicals;
//! none of it has a source. [`School::usual`] is what the bars are for; the
//! others have other habits, so that nothing is tuned on one set of quirks.

use analysis::reading::Cause;

/// Surface tension (N/m) of a tank's water: normal, cut at both ends.
pub(crate) const TENSION: (f64, f64) = (0.063, 0.006);
pub(crate) const TENSION_CUT: (f64, f64) = (0.045, 0.0728);
/// Of dirty water, uniform.
pub(crate) const DIRTY_TENSION: (f64, f64) = (0.025, 0.042);
/// Density of tap water at room temperature, kg/m³.
pub(crate) const DENSITY: f64 = 998.2;
/// Depth (mm) of most tanks, and of the deep ones: uniform in the logarithm.
pub(crate) const USUAL_DEPTH: (f64, f64) = (4.0, 12.0);
pub(crate) const DEEP: (f64, f64) = (12.0, 60.0);
/// The share of deep tanks.
pub(crate) const DEEP_SHARE: f64 = 0.05;
/// A depth that was written down wrong: recorded ÷ true, one range or the
/// other.
pub(crate) const DEPTH_OFF: [(f64, f64); 2] = [(0.45, 0.70), (1.4, 2.2)];
/// How far a moved lamp or a false dial is out, either way, a share.
pub(crate) const FACTOR_OFF: (f64, f64) = (0.04, 0.12);
/// How far a stretched string's speed is out, either way, a share.
pub(crate) const STRETCH: (f64, f64) = (0.08, 0.25);
/// A ruler's zero error, mm, either way.
pub(crate) const ZERO_ERROR: (f64, f64) = (5.0, 15.0);
/// Swapped digits change a reading by more than this, a share.
pub(crate) const LEAST_SWAP: f64 = 0.04;
/// The share of swaps that are in the span (or the length); the rest are in
/// the dial.
pub(crate) const SWAPS_IN_SPAN: f64 = 0.75;
/// The share of groups that call the first line nought; the others call it
/// one, and write one down.
pub(crate) const CALLS_NOUGHT: f64 = 0.8;
/// Length (m) of a string between its ends.
pub(crate) const STRING: (f64, f64) = (0.5, 1.2);
/// Masses hung on strings, g, equally likely.
pub(crate) const HUNG: [f64; 7] = [100.0, 150.0, 200.0, 250.0, 300.0, 400.0, 500.0];
/// Mass per length of a string, g/m: uniform in the logarithm.
pub(crate) const STRING_DENSITY: (f64, f64) = (0.4, 4.0);
/// How string groups measure: from end to end with the loops written down,
/// the same with that box left blank, or a single loop.
pub(crate) const END_TO_END: f64 = 0.65;
pub(crate) const LOOPS_LEFT_BLANK: f64 = 0.20;
/// The share of groups that measure from end to end once and copy it down.
pub(crate) const LENGTH_COPIED: f64 = 0.6;
/// The share of sheets of 2 or 3 rows; the others have 4 to 6.
pub(crate) const SHORT_SHEETS: f64 = 0.15;
/// No picture on a screen is longer, mm.
pub(crate) const SCREEN: f64 = 550.0;

/// One kind of slip, and how common it is, a share of sheets.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Rate {
    pub(crate) cause: Cause,
    pub(crate) share: f64,
}

const fn rate(cause: Cause, share: f64) -> Rate {
    Rate { cause, share }
}

/// How common slips are on sheets of one method.
#[derive(Clone, Debug)]
pub(crate) struct Rates {
    /// In every row.
    pub(crate) whole: Vec<Rate>,
    /// In one row.
    pub(crate) row: Vec<Rate>,
    /// Two rows, each with a slip of its own, drawn as in `row`.
    pub(crate) two_rows: f64,
}

impl Rates {
    /// Each share times a factor.
    fn scaled(mut self, factor: f64) -> Self {
        for rate in self.whole.iter_mut().chain(&mut self.row) {
            rate.share *= factor;
        }
        self.two_rows *= factor;
        self
    }

    fn set(mut self, cause: Cause, share: f64) -> Self {
        for rate in self.whole.iter_mut().chain(&mut self.row) {
            if rate.cause == cause {
                rate.share = share;
            }
        }
        self
    }
}

/// What a school's groups read, how well, and how often they slip.
#[derive(Clone, Debug)]
pub(crate) struct School {
    pub(crate) name: &'static str,
    /// Degrees of freedom of Student's t for errors of reading (scaled to the
    /// same standard deviation); `None` for the normal.
    pub(crate) tails: Option<u32>,
    /// Standard deviation of the logarithm of a group's own scatter.
    pub(crate) skill_spread: f64,
    /// Standard deviations at noise 1: span, image and true length (mm).
    pub(crate) span_sd: f64,
    pub(crate) image_sd: f64,
    pub(crate) true_sd: f64,
    /// Of a depth that is written down, mm.
    pub(crate) depth_sd: f64,
    /// Of a kit's dial factor, a share.
    pub(crate) dial_factor_sd: f64,
    /// Decimals of a dial with multiplier 1, and with any other.
    pub(crate) dial_decimals: (usize, usize),
    /// Of a length along the string, mm.
    pub(crate) length_sd: f64,
    /// Of finding a resonance, a share.
    pub(crate) resonance_sd: f64,
    /// Of ln v about ln √(T/μ).
    pub(crate) string_speed_sd: f64,
    /// The share of sheets on which depth, or the masses, are written down.
    pub(crate) recorded: f64,
    /// Frequencies on water, Hz.
    pub(crate) frequencies: (f64, f64),
    /// Waves in a span.
    pub(crate) waves: (u32, u32),
    /// The true enlargement.
    pub(crate) enlargement: (f64, f64),
    /// The share of sheets whose dial is on ×10; the others' is plain.
    pub(crate) times_ten: f64,
    /// The share of groups that write lengths in mm; the others use cm on
    /// water and m along a string.
    pub(crate) millimetres: f64,
    /// The share of kits with a fault.
    pub(crate) faults: f64,
    /// The share of sheets with the working filled in.
    pub(crate) worked: f64,
    pub(crate) tank: Rates,
    pub(crate) string: Rates,
}

impl School {
    /// The school that the bars are for.
    pub(crate) fn usual() -> Self {
        Self {
            name: "usual",
            tails: None,
            skill_spread: 0.0,
            span_sd: 1.0,
            image_sd: 1.0,
            true_sd: 0.3,
            depth_sd: 0.3,
            dial_factor_sd: 0.006,
            dial_decimals: (1, 1),
            length_sd: 2.0,
            resonance_sd: 0.005,
            string_speed_sd: 0.04,
            recorded: 0.6,
            frequencies: (5.0, 50.0),
            waves: (6, 12),
            enlargement: (1.2, 2.2),
            times_ten: 0.6,
            millimetres: 0.0,
            faults: 0.08,
            worked: 0.3,
            tank: tank_rates(),
            string: string_rates(),
        }
    }

    /// Errors of reading with long tails.
    pub(crate) fn long_tails() -> Self {
        Self {
            name: "long-tails",
            tails: Some(4),
            ..Self::usual()
        }
    }

    /// Half as many slips, others in front, and more faults.
    pub(crate) fn other_rates() -> Self {
        Self {
            name: "other-rates",
            faults: 0.2,
            tank: tank_rates()
                .scaled(0.5)
                .set(Cause::ZeroError, 0.08)
                .set(Cause::CrestMiscount, 0.10),
            string: string_rates().scaled(0.5).set(Cause::DigitsSwapped, 0.10),
            ..Self::usual()
        }
    }

    /// Slow ripples or fast ones only, fewer waves, a low lamp, lengths in mm,
    /// finer dials, nothing written down of depth and masses.
    pub(crate) fn other_ranges() -> Self {
        Self {
            name: "other-ranges",
            frequencies: (8.0, 30.0),
            waves: (4, 9),
            enlargement: (1.05, 1.5),
            dial_decimals: (1, 2),
            millimetres: 0.7,
            recorded: 0.15,
            ..Self::usual()
        }
    }

    /// Groups of unequal skill.
    pub(crate) fn unequal_skill() -> Self {
        Self {
            name: "unequal-skill",
            skill_spread: 0.5,
            tails: Some(6),
            ..Self::usual()
        }
    }

    /// Dials on ×10 that are read to a hundredth.
    pub(crate) fn fine_dials() -> Self {
        Self {
            name: "fine-dials",
            dial_decimals: (1, 2),
            ..Self::usual()
        }
    }

    pub(crate) fn all() -> [Self; 6] {
        [
            Self::usual(),
            Self::fine_dials(),
            Self::long_tails(),
            Self::other_rates(),
            Self::other_ranges(),
            Self::unequal_skill(),
        ]
    }
}

fn tank_rates() -> Rates {
    Rates {
        whole: vec![
            rate(Cause::CountedFromOne, 0.10),
            rate(Cause::DialMultiplierLeftOut, 0.05),
            rate(Cause::ScaleUpsideDown, 0.03),
            rate(Cause::CrestToTrough, 0.03),
            rate(Cause::ZeroError, 0.03),
            rate(Cause::StrobeAtHalf, 0.015),
        ],
        row: vec![
            rate(Cause::CrestMiscount, 0.08),
            rate(Cause::DigitsSwapped, 0.05),
            rate(Cause::DialMultiplierLeftOut, 0.015),
        ],
        two_rows: 0.025,
    }
}

fn string_rates() -> Rates {
    Rates {
        whole: vec![
            rate(Cause::NodesCountedAsLoops, 0.13),
            rate(Cause::DialMultiplierLeftOut, 0.06),
        ],
        row: vec![
            rate(Cause::LoopMiscount, 0.13),
            rate(Cause::DigitsSwapped, 0.08),
            rate(Cause::DialMultiplierLeftOut, 0.02),
        ],
        two_rows: 0.03,
    }
}
