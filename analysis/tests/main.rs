//! The crate against the world: published figures, error rates held, and
//! working judged.

mod copied;
mod error_rates;
mod findings;
mod integrals;
mod moderation;
#[path = "../../tests/order.rs"]
mod order;
mod reading;
mod reference;
mod scheme;
mod stats;
mod working;
mod year;

// The simulator of readings finds the pupil here and in the benchmark alike.
use working::pupil;
