//! Kinds of apparatus that a department numbers.

coded! {
    /// What a kit is.
    pub enum Kind {
        /// A ripple tank with its lamp and screen.
        Tank = "tank",
        /// A signal generator.
        Generator = "generator",
        /// A string with its vibrator, pulley and masses.
        String = "string",
    }
}

/// A text that is no kind's code.
#[derive(Debug, thiserror::Error)]
#[error("no kind of kit is called so")]
pub struct UnknownKind;

impl TryFrom<String> for Kind {
    type Error = UnknownKind;

    fn try_from(code: String) -> Result<Self, UnknownKind> {
        Self::from_code(&code).ok_or(UnknownKind)
    }
}
