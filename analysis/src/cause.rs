//! What may have happened at the bench: the codes of the methods' table of
//! slips in the readings, the apparatus among them.

use serde::{Deserialize, Serialize};

use crate::slip::Kind;

macro_rules! causes {
    ($($(#[doc = $doc:literal])+ $variant:ident $code:literal $kind:ident $short:literal;)+) => {
        /// A slip in the readings, or a fault of the apparatus that looks like
        /// one.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        pub enum Cause {
            $($(#[doc = $doc])+ #[serde(rename = $code)] $variant,)+
        }

        impl Cause {
            /// All of them: slips, then the apparatus.
            pub const ALL: [Self; [$($code),+].len()] = [$(Self::$variant),+];

            /// The code in the flags format.
            #[must_use]
            pub fn code(self) -> &'static str {
                match self { $(Self::$variant => $code,)+ }
            }

            /// A slip of the group's, a fault of the apparatus, or a question.
            #[must_use]
            pub fn kind(self) -> Kind {
                match self { $(Self::$variant => Kind::$kind,)+ }
            }

            /// A few words, for a list or a heading.
            #[must_use]
            pub fn short(self) -> &'static str {
                match self { $(Self::$variant => $short,)+ }
            }
        }
    };
}

causes! {
    /// The first line was called nought, but the count began at one: one wave
    /// too many in every row.
    CountedFromOne "counted-from-one" Slip "count begun at one";
    /// One row out by a crest.
    CrestMiscount "crest-miscount" Slip "count out by one wave";
    /// One row out by a loop.
    LoopMiscount "loop-miscount" Slip "count out by one loop";
    /// Nodes counted as loops: one too many in every row.
    NodesCountedAsLoops "nodes-counted-as-loops" Slip "nodes counted as loops";
    /// Multiplier 1 recorded where the dial was on 10 or 100.
    DialMultiplierLeftOut "dial-multiplier-left-out" Slip "dial multiplier not written down";
    /// Image and true length written in each other's place.
    ScaleUpsideDown "scale-upside-down" Slip "lengths on the screen and in the water swapped";
    /// Two neighbouring digits swapped.
    DigitsSwapped "digits-swapped" Slip "two digits swapped";
    /// Half wavelengths counted in every row.
    CrestToTrough "crest-to-trough" Slip "half waves counted";
    /// The ruler's end taken for its zero: a constant on every span.
    ZeroError "zero-error" Slip "ruler’s end used for its zero";
    /// A strobe at half the dipper's rate: the same picture, half the
    /// frequency.
    StrobeAtHalf "strobe-at-half" Slip "lamp flashing at half the rate";
    /// Surface tension below that of a school tank's water.
    DirtyWater "dirty-water" Apparatus "greasy or soapy water";
    /// Another depth than was recorded.
    DepthOff "depth-off" Apparatus "another depth than was written down";
    /// Lamp or screen moved: another enlargement than was measured.
    LampOff "lamp-off" Apparatus "lamp or screen moved since the enlargement was measured";
    /// A dial that reads high or low by a constant factor.
    DialOff "dial-off" Apparatus "dial out by a constant factor";
    /// A string that is not the one recorded, or stretched since.
    StringStretched "string-stretched" Apparatus "another string than was written down, or a stretched one";
}

impl Cause {
    /// The cause with this code.
    #[must_use]
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|cause| cause.code() == code)
    }
}
