//! Passwords: which are accepted, how they are kept.

use std::sync::Arc;

use analysis::text::folded;
use argon2::{Algorithm, Argon2, Params, PasswordHasher, PasswordVerifier, Version};
use tokio::sync::Semaphore;

use crate::web::error::AppError;
use crate::words::refusal;

/// Passwords that are tried first wherever passwords are guessed.
const COMMONEST: &str = include_str!("commonest_passwords.txt");

/// Fewest characters of a password.
pub const SHORTEST: usize = 10;
/// Most characters of a password.
pub const LONGEST: usize = 128;

/// Says in a sentence why a new password is refused. Returns `None` when it
/// will do. Characters are counted, not bytes, and none is forbidden.
#[must_use]
pub fn refusal(password: &str, name: &str) -> Option<&'static str> {
    let length = password.chars().count();
    let lower = password.to_lowercase();
    if length < SHORTEST {
        Some(refusal::SHORT_PASSWORD)
    } else if length > LONGEST {
        Some(refusal::AT_MOST_128)
    } else if COMMONEST.lines().any(|line| line == lower) {
        Some(refusal::COMMON_PASSWORD)
    } else if folded(name) == folded(password) {
        Some(refusal::NAME_AS_PASSWORD)
    } else {
        None
    }
}

/// Hashes and checks, two at a time, since each takes 19 MiB for some 40 ms.
#[derive(Clone, Debug)]
pub struct Passwords {
    places: Arc<Semaphore>,
}

impl Default for Passwords {
    fn default() -> Self {
        Self {
            places: Arc::new(Semaphore::new(2)),
        }
    }
}

impl Passwords {
    /// Returns the PHC string under which a secret is kept.
    ///
    /// # Errors
    /// When hashing fails, which it does not for a sound build.
    pub async fn hash(&self, secret: String) -> Result<String, AppError> {
        self.work(move || Ok(argon2()?.hash_password(secret.as_bytes())?.to_string()))
            .await
    }

    /// Says whether a secret is the one that was hashed. Without a hash it
    /// takes as long and says no, so that nobody learns which accounts there
    /// are.
    ///
    /// # Errors
    /// When a stored hash cannot be read.
    pub async fn is_right(&self, secret: String, hash: Option<String>) -> Result<bool, AppError> {
        self.work(move || match hash {
            Some(hash) => match argon2()?.verify_password(secret.as_bytes(), hash.as_str()) {
                Ok(()) => Ok(true),
                Err(argon2::password_hash::Error::PasswordInvalid) => Ok(false),
                Err(other) => Err(other),
            },
            None => argon2()?.hash_password(secret.as_bytes()).map(|_| false),
        })
        .await
    }

    async fn work<T: Send + 'static>(
        &self,
        work: impl FnOnce() -> argon2::password_hash::Result<T> + Send + 'static,
    ) -> Result<T, AppError> {
        let _place = self.places.acquire().await.map_err(AppError::internal)?;
        tokio::task::spawn_blocking(work)
            .await
            .map_err(AppError::internal)?
            .map_err(AppError::internal)
    }
}

/// Argon2id with 19 MiB, two passes, one lane.
fn argon2() -> argon2::password_hash::Result<Argon2<'static>> {
    let params = Params::new(19 * 1024, 2, 1, None)
        .map_err(|_| argon2::password_hash::Error::ParamsInvalid)?;
    Ok(Argon2::new(Algorithm::Argon2id, Version::V0x13, params))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn short_long_common_and_own_name_are_refused() {
        assert!(refusal("short", "Ms Fell").is_some(), "short");
        assert!(refusal(&"x".repeat(129), "Ms Fell").is_some(), "long");
        assert!(refusal("Password123", "Ms Fell").is_some(), "common");
        assert!(
            refusal("ms  fell the third", "Ms Fell the Third").is_some(),
            "own name"
        );
        assert_eq!(refusal("pond ripple lamp", "Ms Fell"), None);
        assert_eq!(
            refusal("éèêëéèêëéè", "Ms Fell"),
            None,
            "ten characters, twenty bytes"
        );
    }

    #[tokio::test]
    async fn hashes_are_salted_and_checked() {
        let passwords = Passwords::default();
        let hash = passwords.hash("pond ripple lamp".into()).await.unwrap();
        assert!(
            hash.starts_with("$argon2id$v=19$m=19456,t=2,p=1$"),
            "{hash}"
        );
        assert_ne!(
            hash,
            passwords.hash("pond ripple lamp".into()).await.unwrap()
        );
        assert!(
            passwords
                .is_right("pond ripple lamp".into(), Some(hash.clone()))
                .await
                .unwrap()
        );
        assert!(
            !passwords
                .is_right("pond ripple lump".into(), Some(hash))
                .await
                .unwrap()
        );
        assert!(
            !passwords
                .is_right("pond ripple lamp".into(), None)
                .await
                .unwrap()
        );
    }
}
