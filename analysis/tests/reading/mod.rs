//! Tests of the inference of slips in readings.
//!
//! - `classes`: simulated class sets, with what really happened
//! - `optimal`: the classifier that knows the simulator's own figures: the
//!   limit for a sheet by itself
//! - `score`: what was told against what happened
//! - `judges`: the engine and the optimal classifier, set beside each other
//! - `bars`: how well the engine must do
//! - `yardstick`: checks of all of these
//!
//! The benchmark `quality` is made of the same.

mod bars;
#[expect(dead_code, reason = "the benchmark uses the rest")]
mod classes;
#[expect(dead_code, reason = "the benchmark uses the rest")]
mod judges;
mod optimal;
mod score;
mod yardstick;

pub(crate) use classes::cause;
