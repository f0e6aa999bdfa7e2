//! The crate against the world: published figures, and error rates held.

mod error_rates;
mod reference;
