//! The buttons of the sheet.

/// Which button was pressed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Act {
    Save,
    HandIn,
    /// Save, then look again at the working.
    LookAgain,
    AddRows,
    /// Measure the frequency of this row (from 0) again.
    Repeat(usize),
}

impl Act {
    /// Returns the value of a button that stores the sheet. The others store
    /// nothing and are answered as one that saves.
    pub(super) fn value(self) -> &'static str {
        match self {
            Self::HandIn => "hand_in",
            Self::LookAgain => "look_again",
            Self::Save | Self::AddRows | Self::Repeat(_) => "save",
        }
    }

    /// Returns the button's value; anything else saves, which loses nothing.
    pub(super) fn read(value: &str) -> Self {
        match value {
            "hand_in" => Self::HandIn,
            "look_again" => Self::LookAgain,
            "rows" => Self::AddRows,
            _ => match value
                .strip_prefix("repeat.")
                .and_then(|n| n.parse::<usize>().ok())
            {
                Some(n @ 1..) => Self::Repeat(n - 1),
                _ => Self::Save,
            },
        }
    }
}
