//! Kinds of apparatus that a department numbers.

use serde::{Deserialize, Serialize};

/// What a kit is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Kind {
    /// A ripple tank with its lamp and screen.
    Tank,
    /// A signal generator.
    Generator,
    /// A string with its vibrator, pulley and masses.
    String,
}

/// A text that is no kind's code.
#[derive(Debug, thiserror::Error)]
#[error("no kind of kit is called so")]
pub struct UnknownKind;

impl Kind {
    /// All kinds, in the order of a choice.
    pub const ALL: [Self; 3] = [Self::Tank, Self::Generator, Self::String];

    /// The code in forms and in the data file.
    #[must_use]
    pub fn code(self) -> &'static str {
        match self {
            Self::Tank => "tank",
            Self::Generator => "generator",
            Self::String => "string",
        }
    }

    /// The kind with this code.
    #[must_use]
    pub fn from_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.code() == code)
    }
}

impl TryFrom<String> for Kind {
    type Error = UnknownKind;

    fn try_from(code: String) -> Result<Self, UnknownKind> {
        Self::from_code(&code).ok_or(UnknownKind)
    }
}
