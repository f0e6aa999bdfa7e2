//! The buttons of the sheet.

/// Which button was pressed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Act {
    Save,
    HandIn,
    AddRows,
    /// Measure the frequency of this row (from 0) again.
    Repeat(usize),
}

impl Act {
    /// The button's value; anything else saves, which loses nothing.
    pub(super) fn read(value: &str) -> Self {
        match value {
            "hand_in" => Self::HandIn,
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
