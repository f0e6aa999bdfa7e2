//! Class sets by chance, and every figure that they are drawn from. The
//! figures are the simulator's own, and are kept apart from the program's
//! priors: no engine is measured against itself.
//!
//! All of it is our choice, after what teachers tell of these practicals;
//! none of it has a source. [`School::usual`] is what the bars are for; the
//! others have other habits, so that nothing is tuned on one set of quirks.

mod class;

use crate::group::Hand;
use crate::slip::Rates;

pub use class::HandedIn;

/// Surface tension (N/m) of a tank's water: normal, cut at both ends.
pub const TENSION: (f64, f64) = (0.063, 0.006);
/// Where it is cut.
pub const TENSION_CUT: (f64, f64) = (0.045, 0.0728);
/// Of dirty water, uniform.
pub const DIRTY_TENSION: (f64, f64) = (0.025, 0.042);
/// Depth (mm) of most tanks: uniform in the logarithm.
pub const USUAL_DEPTH: (f64, f64) = (4.0, 12.0);
/// Of the deep ones.
pub const DEEP: (f64, f64) = (12.0, 60.0);
/// The share of deep tanks.
pub const DEEP_SHARE: f64 = 0.05;
/// A depth that was written down wrong: recorded ÷ true, one range or the
/// other.
pub const DEPTH_OFF: [(f64, f64); 2] = [(0.45, 0.70), (1.4, 2.2)];
/// How far a moved lamp or a false dial is out, either way, a share.
pub const FACTOR_OFF: (f64, f64) = (0.04, 0.12);
/// How far a stretched string's speed is out, either way, a share.
pub const STRETCH: (f64, f64) = (0.08, 0.25);
/// A ruler's zero error, mm, either way.
pub const ZERO_ERROR: (f64, f64) = (5.0, 15.0);
/// The share of groups that call the first line nought; the others call it
/// one, and write one down.
pub const CALLS_NOUGHT: f64 = 0.8;
/// Length (m) of a string between its ends.
pub const STRING: (f64, f64) = (0.5, 1.2);
/// Masses hung on strings, g, equally likely.
pub const HUNG: [f64; 7] = [100.0, 150.0, 200.0, 250.0, 300.0, 400.0, 500.0];
/// Mass per length of a string, g/m: uniform in the logarithm.
pub const STRING_DENSITY: (f64, f64) = (0.4, 4.0);
/// The share of string groups that measure from end to end with the loops
/// written down.
pub const END_TO_END: f64 = 0.65;
/// Of those that leave that box blank; the others measure a single loop.
pub const LOOPS_LEFT_BLANK: f64 = 0.20;
/// The share of groups that measure from end to end once and copy it down.
pub const LENGTH_COPIED: f64 = 0.6;
/// The share of sheets of 2 or 3 rows; the others have 4 to 6.
pub const SHORT_SHEETS: f64 = 0.15;

/// What a school's groups read, how well, and how often they slip.
#[derive(Clone, Debug)]
pub struct School {
    /// What it is called.
    pub name: &'static str,
    /// How exactly a group reads at noise 1.
    pub hand: Hand,
    /// Standard deviation of the logarithm of a group's own scatter.
    pub skill_spread: f64,
    /// Of a kit's dial factor, a share.
    pub dial_factor_sd: f64,
    /// Decimals of a dial with multiplier 1, and with any other.
    pub dial_decimals: (usize, usize),
    /// Of ln v about ln √(T/μ).
    pub string_speed_sd: f64,
    /// The share of sheets on which depth, or the masses, are written down.
    pub recorded: f64,
    /// Frequencies on water, Hz.
    pub frequencies: (f64, f64),
    /// Waves in a span.
    pub waves: (u32, u32),
    /// The true enlargement.
    pub enlargement: (f64, f64),
    /// The share of sheets whose dial is on ×10; the others' is plain.
    pub times_ten: f64,
    /// The share of groups that write lengths in mm; the others use cm on
    /// water and m along a string.
    pub millimetres: f64,
    /// The share of tanks' sheets on which waves were measured on the screen and
    /// no enlargement was.
    pub without_scale: f64,
    /// The share of worked sheets whose frequencies are typed as the dial
    /// shows them: `10`, not `10.00`.
    pub bare: f64,
    /// The share of kits with a fault.
    pub faults: f64,
    /// The share of sheets with the working filled in.
    pub worked: f64,
    /// Slips at tanks.
    pub tank: Rates,
    /// Slips at strings.
    pub string: Rates,
}

impl School {
    /// The school that the bars are for.
    #[must_use]
    pub fn usual() -> Self {
        Self {
            name: "usual",
            hand: Hand {
                span: 1.0,
                image: 1.0,
                object: 0.3,
                depth: 0.3,
                setting: 1.0,
                length: 2.0,
                resonance: 0.005,
                ..Hand::STEADY
            },
            skill_spread: 0.0,
            dial_factor_sd: 0.006,
            dial_decimals: (1, 1),
            string_speed_sd: 0.04,
            recorded: 0.6,
            frequencies: (5.0, 50.0),
            waves: (6, 12),
            enlargement: (1.2, 2.2),
            times_ten: 0.6,
            millimetres: 0.0,
            without_scale: 0.0,
            bare: 0.0,
            faults: 0.08,
            worked: 0.3,
            tank: tank_rates(),
            string: string_rates(),
        }
    }

    fn with_tails(mut self, freedom: u32) -> Self {
        self.hand.tails = Some(freedom);
        self
    }

    /// Errors of reading with long tails.
    #[must_use]
    pub fn long_tails() -> Self {
        Self {
            name: "long-tails",
            ..Self::usual().with_tails(4)
        }
    }

    /// Half as many slips, others in front, and more faults.
    #[must_use]
    pub fn other_rates() -> Self {
        let tank = tank_rates().scaled(0.5).set("zero-error", 0.08);
        Self {
            name: "other-rates",
            faults: 0.2,
            tank: tank.set("crest-miscount", 0.10),
            string: string_rates().scaled(0.5).set("digits-swapped", 0.10),
            ..Self::usual()
        }
    }

    /// Slow ripples or fast ones only, fewer waves, a low lamp, lengths in mm,
    /// finer dials, nothing written down of depth and masses.
    #[must_use]
    pub fn other_ranges() -> Self {
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
    #[must_use]
    pub fn unequal_skill() -> Self {
        Self {
            name: "unequal-skill",
            skill_spread: 0.5,
            ..Self::usual().with_tails(6)
        }
    }

    /// Dials on ×10 that are read to a hundredth.
    #[must_use]
    pub fn fine_dials() -> Self {
        Self {
            name: "fine-dials",
            dial_decimals: (1, 2),
            ..Self::usual()
        }
    }

    /// Frequencies typed bare on every worked sheet, some enlargements never
    /// measured, lengths in mm.
    #[must_use]
    pub fn plain_figures() -> Self {
        Self {
            name: "plain-figures",
            bare: 1.0,
            worked: 0.8,
            without_scale: 0.2,
            millimetres: 0.5,
            ..Self::usual()
        }
    }

    /// Every school.
    #[must_use]
    pub fn all() -> [Self; 7] {
        [
            Self::usual(),
            Self::fine_dials(),
            Self::long_tails(),
            Self::other_rates(),
            Self::other_ranges(),
            Self::unequal_skill(),
            Self::plain_figures(),
        ]
    }
}

fn tank_rates() -> Rates {
    let whole = [
        ("counted-from-one", 0.10),
        ("dial-multiplier-left-out", 0.05),
        ("scale-upside-down", 0.03),
        ("crest-to-trough", 0.03),
        ("zero-error", 0.03),
        ("strobe-at-half", 0.015),
    ];
    let row = [
        ("crest-miscount", 0.08),
        ("digits-swapped", 0.05),
        ("dial-multiplier-left-out", 0.015),
    ];
    Rates::new(&whole, &row, 0.025)
}

fn string_rates() -> Rates {
    let whole = [
        ("nodes-counted-as-loops", 0.13),
        ("dial-multiplier-left-out", 0.06),
    ];
    let row = [
        ("loop-miscount", 0.13),
        ("digits-swapped", 0.08),
        ("dial-multiplier-left-out", 0.02),
    ];
    Rates::new(&whole, &row, 0.03)
}
