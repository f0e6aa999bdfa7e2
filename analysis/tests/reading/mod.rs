//! Tests of the inference of slips in readings.
//!
//! - `simulator`: class sets from the bench, with what really happened
//! - `optimal`: the classifier that knows the simulator's own figures: the
//!   limit for a sheet by itself
//! - `score`: what was told against what happened
//! - `yardstick`: the three of them against each other

mod bars;
mod judges;
mod optimal;
mod score;
mod simulator;
mod yardstick;
