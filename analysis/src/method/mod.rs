//! The methods: which boxes a sheet has, and (one file a method) the chain
//! from readings to speed with its wrong turns.

mod ripple_tank;
mod shared;
mod string_loops;

use serde::{Deserialize, Serialize};

use crate::field::Field;
use crate::sheet::Sheet;
use crate::slip::Slip;
use crate::unit::Unit;
use crate::working::step::Step;

/// A way of measuring the speed of waves.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Method {
    /// Ripples on water, seen enlarged on a screen.
    RippleTank,
    /// Standing loops on a stretched string.
    StringLoops,
}

impl Method {
    /// Both methods, in the order of a choice on a page.
    pub const ALL: [Self; 2] = [Self::RippleTank, Self::StringLoops];

    /// The code in files and addresses.
    #[must_use]
    pub fn code(self) -> &'static str {
        match self {
            Self::RippleTank => "ripple-tank",
            Self::StringLoops => "string-loops",
        }
    }

    /// The method with this code.
    #[must_use]
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|m| m.code() == code)
    }

    /// What pupils call it.
    #[must_use]
    pub fn title(self) -> &'static str {
        match self {
            Self::RippleTank => "Ripples on water",
            Self::StringLoops => "Loops on a string",
        }
    }

    /// Whether a sheet of this method has this box.
    #[must_use]
    pub fn has(self, field: Field) -> bool {
        use Field as F;
        match field {
            F::ScaleImage | F::ScaleTrue | F::Depth | F::Temperature => self == Self::RippleTank,
            F::PassesFirst | F::PassesLast | F::Seconds => self == Self::RippleTank,
            F::FirstCrest | F::LastCrest | F::Span | F::Magnification => self == Self::RippleTank,
            F::HangingMass | F::StringMass | F::StringLength => self == Self::StringLoops,
            F::Loops | F::Length | F::LengthLoops => self == Self::StringLoops,
            F::Dial
            | F::DialTimes
            | F::Frequency
            | F::Wavelength
            | F::Reciprocal
            | F::Speed
            | F::MeanSpeed
            | F::Uncertainty
            | F::Gradient => true,
        }
    }

    /// The boxes of this method, in the order of the work.
    pub fn fields(self) -> impl Iterator<Item = Field> {
        Field::ALL.into_iter().filter(move |f| self.has(*f))
    }

    /// The chain from readings to the speed of a row, in the order of the
    /// work.
    pub(crate) fn chain(self) -> &'static [Step] {
        match self {
            Self::RippleTank => ripple_tank::CHAIN,
            Self::StringLoops => string_loops::CHAIN,
        }
    }

    /// The expected speed (m/s) of waves of `frequency` (Hz) in a sheet's
    /// apparatus; `None` where too little about it was recorded.
    #[must_use]
    pub fn expected_speed(self, sheet: &Sheet, frequency: f64) -> Option<f64> {
        match self {
            Self::RippleTank => Some(ripple_tank::expected_speed(sheet, frequency)),
            Self::StringLoops => string_loops::expected_speed(sheet),
        }
    }

    /// The expected speed (m/s) as a function of frequency (Hz), where it is
    /// the same for all of some sheets to within 5 % from 10 Hz up (a degree
    /// or half a millimetre of water does not part them; another mass on the
    /// string does). `None` where it is not, or only some recorded enough.
    pub fn common_expectation<'s>(
        self,
        sheets: &[&'s Sheet],
    ) -> Option<impl Fn(f64) -> Option<f64> + use<'s>> {
        let first = *sheets.first()?;
        let alike = |sheet: &&Sheet| {
            [10.0, 20.0, 40.0].into_iter().all(|f| {
                match (self.expected_speed(sheet, f), self.expected_speed(first, f)) {
                    (Some(one), Some(other)) => (one / other - 1.0).abs() <= 0.05,
                    (one, other) => one.is_none() && other.is_none(),
                }
            })
        };
        sheets
            .iter()
            .all(alike)
            .then_some(move |f| self.expected_speed(first, f))
    }

    /// How far ln v of waves of `frequency` (Hz) moves per newton per metre of
    /// surface tension, and per unit of ln depth, in a sheet's apparatus. Both
    /// 0 where there is no water.
    pub(crate) fn speed_moves_by(self, sheet: &Sheet, frequency: f64) -> (f64, f64) {
        match self {
            Self::RippleTank => ripple_tank::speed_moves_by(sheet, frequency),
            Self::StringLoops => (0.0, 0.0),
        }
    }

    /// Whether a sheet of this method can show this slip: one that a step of
    /// some method's chain names, in those methods alone; any other in all.
    #[must_use]
    pub fn can_show(self, slip: Slip) -> bool {
        // The shared step of the frequency takes counts where there are any.
        let is_of_counts = matches!(slip, Slip::CountNotDivided | Slip::CountedFromOne);
        let names = |method: &Self| {
            let mut turns = method.chain().iter().flat_map(|step| step.wrong);
            turns.any(|turn| turn.slip == slip) && (method.has(Field::PassesFirst) || !is_of_counts)
        };
        names(&self) || !Self::ALL.iter().any(names)
    }

    /// ln v of each (frequency in Hz, speed in m/s), less the curve that the
    /// sheet's apparatus should follow: what is left is the sheet's own level
    /// and each row's scatter about it.
    pub(crate) fn levels(self, sheet: &Sheet, points: &[(f64, f64)]) -> Vec<f64> {
        match self {
            Self::RippleTank => ripple_tank::levels(sheet, points),
            Self::StringLoops => points.iter().map(|(_, v)| v.ln()).collect(),
        }
    }

    /// The unit in the heading of a field: the one in which a figure without
    /// a unit is read first. `None` for counts and ratios.
    #[must_use]
    pub fn heading_unit(self, field: Field) -> Option<Unit> {
        match field {
            Field::ScaleImage | Field::ScaleTrue | Field::Span => Some(Unit::Centimetre),
            Field::Wavelength if self == Self::RippleTank => Some(Unit::Centimetre),
            Field::Wavelength | Field::Length => Some(Unit::Metre),
            Field::Reciprocal => Some(Unit::PerMetre),
            Field::Speed | Field::MeanSpeed | Field::Uncertainty | Field::Gradient => {
                Some(Unit::MetrePerSecond)
            }
            _ => field.fixed_unit(),
        }
    }
}
