//! The crate against the world: published figures, error rates held, and
//! working judged.

mod error_rates;
mod findings;
mod reference;
mod working;
