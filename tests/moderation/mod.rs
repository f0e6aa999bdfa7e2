//! Moderation rounds: the standard, the sample, and that nobody who marks
//! blind sees a first mark.

mod blind;
mod closed;
mod comparison;
mod create;
pub(crate) mod department;
mod mark;
mod record;
mod sample;
mod settle;
mod sizes;
mod standard;
