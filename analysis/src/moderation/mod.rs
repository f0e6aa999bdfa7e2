//! Moderation: which sheets are marked a second time, who marks them, and how
//! the two markings compare.
//!
//! A draw must be one that anybody can make again with the written seed, so
//! nothing here is random: sheets go by their tickets ([`ticket`]).

pub mod allot;
pub mod anchors;
pub mod comparison;
pub mod sample;
pub mod settling;
pub mod ticket;
