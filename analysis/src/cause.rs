//! What may have happened at the bench: the codes of the methods' table of
//! slips in the readings, the apparatus among them.

use serde::{Deserialize, Serialize};

use crate::slip::Kind;

macro_rules! causes {
    ($($(#[doc = $doc:literal])+ $variant:ident $code:literal $kind:ident;)+) => {
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
        }
    };
}

causes! {
    /// The first line was called nought, but the count began at one: one wave
    /// too many in every row.
    CountedFromOne "counted-from-one" Slip;
    /// One row out by a crest.
    CrestMiscount "crest-miscount" Slip;
    /// One row out by a loop.
    LoopMiscount "loop-miscount" Slip;
    /// Nodes counted as loops: one too many in every row.
    NodesCountedAsLoops "nodes-counted-as-loops" Slip;
    /// Multiplier 1 recorded where the dial was on 10 or 100.
    DialMultiplierLeftOut "dial-multiplier-left-out" Slip;
    /// Image and true length written in each other's place.
    ScaleUpsideDown "scale-upside-down" Slip;
    /// Two neighbouring digits swapped.
    DigitsSwapped "digits-swapped" Slip;
    /// Half wavelengths counted in every row.
    CrestToTrough "crest-to-trough" Slip;
    /// The ruler's end taken for its zero: a constant on every span.
    ZeroError "zero-error" Slip;
    /// A strobe at half the dipper's rate: the same picture, half the
    /// frequency.
    StrobeAtHalf "strobe-at-half" Slip;
    /// Surface tension below that of a school tank's water.
    DirtyWater "dirty-water" Apparatus;
    /// Another depth than was recorded.
    DepthOff "depth-off" Apparatus;
    /// Lamp or screen moved: another enlargement than was measured.
    LampOff "lamp-off" Apparatus;
    /// A dial that reads high or low by a constant factor.
    DialOff "dial-off" Apparatus;
    /// A string that is not the one recorded, or stretched since.
    StringStretched "string-stretched" Apparatus;
}

impl Cause {
    /// The cause with this code.
    #[must_use]
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|cause| cause.code() == code)
    }
}
