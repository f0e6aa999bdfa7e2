//! Tickets: a random order that anybody can make again.

use std::fmt::Write as _;

use sha2::{Digest, Sha256};

/// The ticket that a seed gives a sheet: SHA-256 of the seed, a line feed and
/// the sheet's name, all in UTF-8, as 64 hexadecimal digits in small letters.
///
/// Sheets in the order of their tickets are in an order that nobody can
/// foresee, that leans on no other sheet, and that any computer gives again:
///
/// ```text
/// printf '4821 7733\n12/A' | sha256sum
/// ```
///
/// # Example
/// ```
/// use analysis::moderation::ticket::ticket;
///
/// assert!(ticket("4821 7733", "12/A").starts_with("f70b8a225ef1"));
/// ```
#[must_use]
pub fn ticket(seed: &str, name: &str) -> String {
    let digest = Sha256::digest(format!("{seed}\n{name}").as_bytes());
    digest.iter().fold(String::new(), |mut text, byte| {
        let _ = write!(text, "{byte:02x}");
        text
    })
}
