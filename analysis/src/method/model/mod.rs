//! What a method says of its readings: how they are read, what may have
//! happened to them, and what the physics leads one to expect.
//!
//! `observe.rs` is what is seen of a sheet, `part.rs` what may have happened
//! to it, `state.rs` what a kit may be like. What is left to each method is
//! its [`Model`]; the engine in `reading` weighs what it says.

pub(crate) mod multiplier;
pub(crate) mod observe;
pub(crate) mod part;
pub(crate) mod state;
pub(crate) mod swap;
pub(crate) mod unit;

use std::fmt::Debug;

use crate::cause::Cause;
use crate::entry::{Entries, Row};
use crate::field::Field;

use observe::{Observed, Seen};
use part::Part;
use state::States;

/// What was recorded of a kit that parts it from others and foretells its
/// waves: a depth in m, a speed in m/s.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Recorded {
    pub(crate) value: f64,
    /// The step of its last digit.
    pub(crate) digit: f64,
}

/// What apparatus as it should be leads one to expect.
pub(crate) struct Usual<'m> {
    /// ln λ (m) at a frequency (Hz), and how far an unknown depth may move it.
    pub(crate) ln_wavelength: Box<dyn Fn(f64) -> (f64, f64) + 'm>,
    /// Whether its level is known. A string of which nothing was recorded may
    /// run at any speed.
    pub(crate) is_level_known: bool,
}

/// What a group chose for a row, and what it measured there. Rows with the
/// same setting on the same kit measure the same thing.
#[derive(Clone, Debug)]
pub(crate) struct Setting {
    pub(crate) chosen: [Option<f64>; 3],
    /// Waves or loops that this makes.
    pub(crate) count: Option<f64>,
    pub(crate) measured: [Field; 2],
}

/// What a method says of its readings and its physics. A method whose readings
/// cannot be judged leaves all but the physics as it is here.
pub(crate) trait Model: Debug + Sync {
    /// The expected speed (m/s) where a row is set to so much, in the
    /// apparatus that a sheet's boxes record; `None` where they say too little.
    fn expected_speed(&self, whole: &Entries, set: f64) -> Option<f64>;

    /// How far ln v moves per newton per metre of surface tension, and per
    /// unit of ln depth. Both 0 where there is no water.
    fn speed_moves_by(&self, _whole: &Entries, _set: f64) -> (f64, f64) {
        (0.0, 0.0)
    }

    /// ln v of each (what it is set to, speed in m/s), less the curve that the
    /// sheet's apparatus should follow: what is left is the sheet's own level
    /// and each row's scatter about it.
    fn levels(&self, _whole: &Entries, points: &[(f64, f64)]) -> Vec<f64> {
        points.iter().map(|(_, v)| v.ln()).collect()
    }

    /// What a row was set to, and what was measured there.
    fn setting(&self, row: &Entries) -> Setting;

    /// What is seen of a sheet's readings. Rows that lack one are left out.
    fn observe(&self, _whole: &Entries, _rows: &[Row]) -> Observed {
        Observed::default()
    }

    /// What a sheet recorded of its kit.
    fn recorded(&self, _whole: &Entries) -> Option<Recorded> {
        None
    }

    /// What apparatus as it should be leads one to expect of a sheet.
    fn usual<'m>(&self, _recorded: Option<Recorded>, _seen: &'m Observed) -> Usual<'m> {
        Usual {
            ln_wavelength: Box::new(|_| (0.0, 0.0)),
            is_level_known: false,
        }
    }

    /// The states that a kit may be in. `is_shared`: whether several sheets
    /// tell of it, so that what moves all its rows alike must be a state and
    /// not each sheet's own unknown.
    fn states(&self, _recorded: Option<Recorded>, _is_shared: bool) -> States {
        States::default()
    }

    /// What may have happened to every row of a sheet, lengths in another unit
    /// and the dial's multiplier apart.
    fn wholes(&self, _sheet: &Seen<'_>) -> Vec<Part> {
        Vec::new()
    }

    /// How one row may have been counted wrong.
    fn miscounts(&self, _sheet: &Seen<'_>, _at: usize) -> Vec<Part> {
        Vec::new()
    }

    /// Causes that the readings alone can hardly part: where both are in play,
    /// one of the two is all that can be said.
    fn look_alike(&self) -> &'static [(Cause, Cause)] {
        &[]
    }
}
