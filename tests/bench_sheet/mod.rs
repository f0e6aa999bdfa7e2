//! The bench sheet: typing, storing, and everything that may go wrong between.

pub(crate) mod bad_input;
mod closed;
mod conflict;
mod hand_in;
pub(crate) mod look_again;
mod own_words;
mod rows;
mod shared;

use crate::support::TestApp;

/// Readings and working of one row, worked out correctly.
pub(crate) const BOXES: [(&str, &str); 12] = [
    ("w.scale_true", "8.0"),
    ("unit.scale_true", "cm"),
    ("w.scale_image", "14.0"),
    ("unit.scale_image", "cm"),
    ("w.magnification", "1.75"),
    ("r1.dial", "10"),
    ("r1.first_crest", "0"),
    ("r1.last_crest", "8"),
    ("r1.span", "22.4"),
    ("unit.span", "cm"),
    ("r1.wavelength", "1.60"),
    ("unit.wavelength", "cm"),
];

/// How many revisions there are.
pub(crate) async fn revisions(app: &TestApp) -> i64 {
    app.one("SELECT count(*) FROM revision").await
}
