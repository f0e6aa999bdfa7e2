//! What may have happened at the bench: the codes of the methods' table of
//! slips in the readings, the apparatus among them.

use crate::slip::flagged;

flagged! {
    /// A slip in the readings, or a fault of the apparatus that looks like one.
    /// Slips come first.
    pub enum Cause {
       /// The first line was called nought, but the count began at one: one wave
        /// too many in every row.
        CountedFromOne = "counted-from-one" is Slip,
        /// One row out by a crest.
        CrestMiscount = "crest-miscount" is Slip,
        /// One row out by a loop.
        LoopMiscount = "loop-miscount" is Slip,
        /// Nodes counted as loops: one too many in every row.
        NodesCountedAsLoops = "nodes-counted-as-loops" is Slip,
        /// Multiplier 1 recorded where the dial was on 10 or 100.
        DialMultiplierLeftOut = "dial-multiplier-left-out" is Slip,
        /// Image and true length written in each other's place.
        ScaleUpsideDown = "scale-upside-down" is Slip,
        /// Two neighbouring digits swapped.
        DigitsSwapped = "digits-swapped" is Slip,
        /// Half wavelengths counted in every row.
        CrestToTrough = "crest-to-trough" is Slip,
        /// The ruler's end taken for its zero: a constant on every span.
        ZeroError = "zero-error" is Slip,
        /// A strobe at half the dipper's rate: the same picture, half the
        /// frequency.
        StrobeAtHalf = "strobe-at-half" is Slip,
        /// Waves measured on the screen, and no enlargement found: every
        /// wavelength too long by one factor.
        ScaleNotFound = "scale-not-found" is Slip,
        /// A length written in another unit than the one beside it: in every
        /// row, in one row, or one of the two lengths of the enlargement.
        UnitPowerOfTen = "unit-power-of-ten" is Slip,
        /// Surface tension below that of a school tank's water.
        DirtyWater = "dirty-water" is Apparatus,
        /// Another depth than was recorded.
        DepthOff = "depth-off" is Apparatus,
        /// Lamp or screen moved: another enlargement than was measured.
        LampOff = "lamp-off" is Apparatus,
        /// A dial that reads high or low by a constant factor.
        DialOff = "dial-off" is Apparatus,
        /// A string that is not the one recorded, or stretched since.
        StringStretched = "string-stretched" is Apparatus,
        /// Level or rows far from the physics, and nothing on this list does
        /// that.
        Unexplained = "unexplained" is Question,
    }
}
