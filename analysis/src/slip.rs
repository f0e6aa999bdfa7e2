//! The named wrong turns, remarks included. The codes are fixed by the flags
//! format.

use serde::{Deserialize, Serialize};

/// What a flag is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// A wrong turn.
    Slip,
    /// Something worth saying that is no slip.
    Remark,
    /// A fault of the apparatus, not of the group.
    Apparatus,
    /// Something for the teacher alone to ask about.
    Question,
}

impl Kind {
    /// The code in the flags format.
    #[must_use]
    pub fn code(self) -> &'static str {
        match self {
            Self::Slip => "slip",
            Self::Remark => "remark",
            Self::Apparatus => "apparatus",
            Self::Question => "question",
        }
    }
}

macro_rules! slips {
    ($($(#[doc = $doc:literal])+ $variant:ident $code:literal $kind:ident;)+) => {
        /// A named wrong turn or remark.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        pub enum Slip {
            $($(#[doc = $doc])+ #[serde(rename = $code)] $variant,)+
        }

        impl Slip {
            /// All of them, slips first.
            pub const ALL: [Self; [$($code),+].len()] = [$(Self::$variant),+];

            /// The code in the flags format.
            #[must_use]
            pub fn code(self) -> &'static str {
                match self { $(Self::$variant => $code,)+ }
            }

            /// Slip or remark.
            #[must_use]
            pub fn kind(self) -> Kind {
                match self { $(Self::$variant => Kind::$kind,)+ }
            }
        }
    };
}

slips! {
    /// Counted lines for gaps: the last number called, where the first was
    /// one, or one more than it, where the first was nought.
    CountedFromOne "counted-from-one" Slip;
    /// Took the whole span for one wavelength.
    SpanNotDivided "span-not-divided" Slip;
    /// Did not divide by the enlargement.
    ScaleLeftOut "scale-left-out" Slip;
    /// Multiplied by the enlargement.
    ScaleMultiplied "scale-multiplied" Slip;
    /// True ÷ image for the enlargement.
    ScaleUpsideDown "scale-upside-down" Slip;
    /// Half a wave for one, or one for a half.
    CrestToTrough "crest-to-trough" Slip;
    /// Length of one loop for the wavelength.
    LoopTakenAsWavelength "loop-taken-as-wavelength" Slip;
    /// Divided by the number of nodes.
    NodesCountedAsLoops "nodes-counted-as-loops" Slip;
    /// Used the dial alone.
    DialMultiplierLeftOut "dial-multiplier-left-out" Slip;
    /// Gave the count for the frequency.
    CountNotDivided "count-not-divided" Slip;
    /// Gave the period for the frequency.
    PeriodAsFrequency "period-as-frequency" Slip;
    /// f ÷ λ for the speed.
    SpeedDivided "speed-divided" Slip;
    /// λ ÷ f for the speed.
    SpeedInverted "speed-inverted" Slip;
    /// λ where 1/λ is asked.
    ReciprocalLeftOut "reciprocal-left-out" Slip;
    /// Sum for the mean.
    MeanNotDivided "mean-not-divided" Slip;
    /// Divided by another count.
    MeanWrongCount "mean-wrong-count" Slip;
    /// The mean holds a row marked as anomalous.
    AnomalyAveragedIn "anomaly-averaged-in" Slip;
    /// Δ(1/λ)/Δf for the gradient.
    GradientUpsideDown "gradient-upside-down" Slip;
    /// A single row's f ÷ (1/λ) for the gradient.
    GradientFromOnePoint "gradient-from-one-point" Slip;
    /// mm, cm and m mixed.
    UnitPowerOfTen "unit-power-of-ten" Slip;
    /// Nothing above explains it.
    DoesNotFollow "does-not-follow" Slip;
    /// Fewer than two significant figures.
    TooFewFigures "too-few-figures" Remark;
    /// Two significant figures more than the readings carry, or more.
    TooManyFigures "too-many-figures" Remark;
    /// No unit.
    UnitMissing "unit-missing" Remark;
    /// A row left out of the mean without saying so.
    RowLeftOutUnsaid "row-left-out-unsaid" Remark;
}

impl Slip {
    /// The slip with this code.
    #[must_use]
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|s| s.code() == code)
    }
}
