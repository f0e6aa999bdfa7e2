//! Who and what a moderation round takes, against what anybody works out by
//! hand, and as properties of any draw.

mod allot;
mod anchors;
mod sample;
mod settling;
