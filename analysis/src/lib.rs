//! What a bench sheet says.
//!
//! A bench sheet is a group's readings and working for one practical on the
//! speed of waves. This crate reads figures as pupils type them
//! ([`figure`], [`mod@unit`]), checks a whole sheet at the door ([`sheet`]),
//! recomputes every figure from the readings and names each wrong turn that
//! the group's own figures show ([`working`], all of it in [`assess`]),
//! compares groups with their class ([`class_set`]), infers what may have
//! happened at the bench, with probabilities ([`reading`]), says which bench
//! to walk to next ([`room`]) and what a group best does next ([`mod@next`]),
//! draws the
//! sheets that are marked a second time ([`moderation`]), and compares the
//! kits, slips and classes of a school year ([`year`]).
//!
//! # Scope
//! Two methods: ripples on water and loops on a stretched string
//! ([`method::Method`]). Everything here is a pure function of its arguments:
//! no files, clock, randomness, database or network. The same sheets give the
//! same judgement on every machine, and the same seed the same draw.
//!
//! # Simplifications
//! Readings are exact when working is judged; only worked figures carry
//! rounding. Gradients are compared with the lines that a careful pupil could
//! draw, not with one fitted number.
//!
//! # Out of scope
//! Storing, showing and marking. Those are the server's.

// What others build on says what each figure means, in which unit, and where its formula comes from.
#![warn(missing_docs)]

#[macro_use]
mod code;

// In one order, which a test holds: a module knows those of the groups above
// its own, and no other.

pub mod check;
pub mod interval;
pub mod kit;
pub mod room;
pub mod slip;
pub mod sum;
pub mod text;
pub mod unit;
pub mod wave;

pub mod cause;
pub mod field;
pub mod figure;
pub mod stats;

pub mod entry;
pub mod moderation;

pub mod method;

pub mod sheet;

pub mod reading;
pub mod working;

pub mod assess;

pub mod class_set;
pub mod scheme;
pub mod year;

pub mod next;

/// The version of what this crate judges, for whoever keeps a judgement.
/// Raised by hand when a judgement may differ: what was kept under another
/// version is made again.
pub const VERSION: &str = "4";
