//! The named wrong turns, remarks included, with the words for each.
//!
//! The codes are fixed by the flags format; screens show the sentences.

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
    ($($(#[doc = $doc:literal])+ $variant:ident $code:literal $kind:ident $short:literal, $sentence:literal;)+) => {
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

            /// A few words, for a list or a heading: *counted from one*.
            #[must_use]
            pub fn short(self) -> &'static str {
                match self { $(Self::$variant => $short,)+ }
            }

            /// One sentence about what the group did.
            #[must_use]
            pub fn sentence(self) -> &'static str {
                match self { $(Self::$variant => $sentence,)+ }
            }
        }
    };
}

slips! {
    /// Counted lines for gaps: the last number called, where the first was
    /// one, or one more than it, where the first was nought.
    CountedFromOne "counted-from-one" Slip "counted from one",
        "The lines were counted, not the gaps between them: one too many.";
    /// Took the whole span for one wavelength.
    SpanNotDivided "span-not-divided" Slip "whole span taken for one wavelength",
        "The whole distance was taken for one wavelength.";
    /// Did not divide by the enlargement.
    ScaleLeftOut "scale-left-out" Slip "enlargement left out",
        "The wavelength was not divided by the enlargement: it is the one on the screen, not the one on the water.";
    /// Multiplied by the enlargement.
    ScaleMultiplied "scale-multiplied" Slip "multiplied by the enlargement",
        "The wavelength was multiplied by the enlargement where it should have been divided by it.";
    /// True ÷ image for the enlargement.
    ScaleUpsideDown "scale-upside-down" Slip "enlargement upside down",
        "The enlargement was worked out upside down: true length ÷ image length.";
    /// Half a wave for one, or one for a half.
    CrestToTrough "crest-to-trough" Slip "half a wave taken for one",
        "The wavelength is out by a factor of two: half a wave (crest to trough) and a whole one were mixed up.";
    /// Length of one loop for the wavelength.
    LoopTakenAsWavelength "loop-taken-as-wavelength" Slip "one loop taken for a wave",
        "The length of one loop was taken for the wavelength: one wave is two loops.";
    /// Divided by the number of nodes.
    NodesCountedAsLoops "nodes-counted-as-loops" Slip "nodes counted as loops",
        "The length was divided by one more than the number of loops: the nodes were counted.";
    /// Used the dial alone.
    DialMultiplierLeftOut "dial-multiplier-left-out" Slip "dial multiplier left out",
        "The dial was used without its multiplier.";
    /// Gave the count for the frequency.
    CountNotDivided "count-not-divided" Slip "count given for the frequency",
        "The number of waves counted was given for the frequency, without dividing by the time.";
    /// Gave the period for the frequency.
    PeriodAsFrequency "period-as-frequency" Slip "period given for the frequency",
        "The time of one wave was given for the frequency.";
    /// f ÷ λ for the speed.
    SpeedDivided "speed-divided" Slip "frequency divided by wavelength",
        "The frequency was divided by the wavelength where the two should have been multiplied.";
    /// λ ÷ f for the speed.
    SpeedInverted "speed-inverted" Slip "wavelength divided by frequency",
        "The wavelength was divided by the frequency where the two should have been multiplied.";
    /// λ where 1/λ is asked.
    ReciprocalLeftOut "reciprocal-left-out" Slip "wavelength given for 1 ÷ wavelength",
        "The wavelength itself was written where 1 ÷ wavelength is asked for.";
    /// Sum for the mean.
    MeanNotDivided "mean-not-divided" Slip "sum given for the mean",
        "The speeds were added up but not divided by how many there are.";
    /// Divided by another count.
    MeanWrongCount "mean-wrong-count" Slip "mean divided by another count",
        "The sum of the speeds was divided by another number than how many there are.";
    /// The mean holds a row marked as anomalous.
    AnomalyAveragedIn "anomaly-averaged-in" Slip "marked anomaly averaged in",
        "The mean holds the row that was marked as an anomaly.";
    /// Δ(1/λ)/Δf for the gradient.
    GradientUpsideDown "gradient-upside-down" Slip "gradient upside down",
        "The gradient is upside down: change along ÷ change up.";
    /// A single row's f ÷ (1/λ) for the gradient.
    GradientFromOnePoint "gradient-from-one-point" Slip "gradient from one point",
        "The gradient is one point's height ÷ its distance along, not the slope of the line.";
    /// mm, cm and m mixed.
    UnitPowerOfTen "unit-power-of-ten" Slip "units mixed: out by a power of ten",
        "The figure is out by a power of ten, as when mm, cm and m are mixed or a multiplier is missed.";
    /// Nothing above explains it.
    DoesNotFollow "does-not-follow" Slip "does not follow",
        "The figure does not follow from the group’s own earlier figures, and no wrong turn that is known here gives it.";
    /// Fewer than two significant figures.
    TooFewFigures "too-few-figures" Remark "too few figures",
        "One significant figure is too few for these readings.";
    /// Two significant figures more than the readings carry, or more.
    TooManyFigures "too-many-figures" Remark "too many figures",
        "There are more significant figures here than the readings carry.";
    /// No unit.
    UnitMissing "unit-missing" Remark "unit missing",
        "There is no unit: it was read in the heading’s unit, or in the one that makes it right.";
    /// A row left out of the mean without saying so.
    RowLeftOutUnsaid "row-left-out-unsaid" Remark "a reading left out unsaid",
        "It looks as if this reading was left out of the mean: say so in the table.";
}

impl Slip {
    /// The slip with this code.
    #[must_use]
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|s| s.code() == code)
    }
}
