//! Invented schools: what groups at ripple tanks and stretched strings read
//! off, write down and work out, with what really happened.
//!
//! - `dice`, `physics`, `sheet`: chance, waves, and boxes of text
//! - `kit`: tanks and strings as they really are
//! - `group`: a group reads its kit and writes the readings down
//! - `slip`: what goes wrong while it does
//! - `working`: what a group makes of its readings, wrong turns among it
//! - `school`: class sets by chance, for what is measured over many
//! - `year`: the lessons of a department's school year
//!
//! Tests of the analysis, tests of the server, benchmarks and the demo share
//! it. It knows nothing of the program: its physics and arithmetic are its
//! own, and boxes, slips and units have the names of the readings format. A
//! [`sheet::Sheet`] serialises to what a revision stores, which is how the
//! program takes it. The same seed gives the same sheets.

pub mod dice;
pub mod group;
pub mod kit;
pub mod physics;
pub mod school;
pub mod sheet;
pub mod slip;
pub mod working;
pub mod year;
