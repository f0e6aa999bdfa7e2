//! Random tokens, codes and numbers, and the hashes under which they are kept.

use sha2::{Digest, Sha256};

/// Letters of join codes: capitals without those that look like another letter
/// or a figure (I, L, O, Q, S, U, V, Z) and without vowels that spell words.
const CODE_LETTERS: &[u8; 16] = b"BCDFGHJKMNPRTWXY";

fn random<const N: usize>() -> [u8; N] {
    let mut bytes = [0; N];
    getrandom::fill(&mut bytes).expect("the operating system gives random bytes");
    bytes
}

fn hexadecimal(bytes: &[u8]) -> String {
    use std::fmt::Write as _;
    bytes.iter().fold(String::new(), |mut text, byte| {
        let _ = write!(text, "{byte:02x}");
        text
    })
}

/// Returns a new token of 256 bits, in 64 hexadecimal digits.
///
/// # Panics
/// When the operating system gives no random bytes: nothing safe can be done.
#[must_use]
pub fn token() -> String {
    hexadecimal(&random::<32>())
}

/// SHA-256 of a text in hexadecimal: how tokens and payloads are stored.
#[must_use]
pub fn sha256(text: &str) -> String {
    sha256_of(text.as_bytes())
}

/// SHA-256 of some bytes in hexadecimal.
#[must_use]
pub fn sha256_of(bytes: &[u8]) -> String {
    hexadecimal(&Sha256::digest(bytes))
}

/// Returns a new join code: five letters, about a million codes.
///
/// # Panics
/// As [`token`].
#[must_use]
pub fn join_code() -> String {
    random::<5>()
        .iter()
        .map(|byte| char::from(CODE_LETTERS[usize::from(byte % 16)]))
        .collect()
}

/// Returns a new come-back number: four figures.
///
/// # Panics
/// As [`token`].
#[must_use]
pub fn come_back_number() -> String {
    let number = u32::from_le_bytes(random()) % 10_000;
    format!("{number:04}")
}

/// Returns a new seed for a draw: eight figures, to be read out and written
/// down.
///
/// # Panics
/// As [`token`].
#[must_use]
pub fn seed() -> String {
    let number = u32::from_le_bytes(random()) % 100_000_000;
    format!("{:04} {:04}", number / 10_000, number % 10_000)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sha256_of_abc_is_the_published_one() {
        // FIPS 180-2, appendix B.1.
        assert_eq!(
            sha256("abc"),
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
        );
    }

    #[test]
    fn codes_are_five_letters_without_look_alikes() {
        for _ in 0..200 {
            let code = join_code();
            assert_eq!(code.len(), 5, "{code}");
            assert!(
                !code.contains(['I', 'L', 'O', 'Q', 'S', 'U', 'V', 'Z', 'A', 'E']),
                "{code}"
            );
        }
        assert_eq!(come_back_number().len(), 4);
        assert_ne!(token(), token());
    }
}
