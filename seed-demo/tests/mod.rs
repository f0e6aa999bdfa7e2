//! What the plans promise.

mod marker;
mod planned;
