//! The crate against the world: published figures, error rates held, and
//! working judged.

mod error_rates;
mod reference;
mod working;
