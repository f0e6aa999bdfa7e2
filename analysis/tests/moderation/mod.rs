//! Who and what a moderation round takes and how it compares, against what
//! anybody works out by hand, and as properties of any draw and any marks.

mod allot;
mod anchors;
mod comparison;
mod sample;
mod settling;
