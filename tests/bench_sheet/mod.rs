//! The bench sheet: typing, storing, and everything that may go wrong between.

mod bad_input;
pub(crate) mod closed;
mod conflict;
mod hand_in;
pub(crate) mod look_again;
mod own_words;
mod rows;
mod shared;

use crate::support::{Browser, TestApp};

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

/// A pupil at bench A of a new class set; the address of the sheet and of the set.
pub(crate) async fn at_bench(app: &TestApp) -> (Browser<'_>, String, String) {
    let (set, code) = app.teacher().await.make_class_set("ripple-tank").await;
    let mut pupil = app.browser();
    pupil.take_bench(&code, "A").await;
    (pupil, format!("/c/{code}/A"), set)
}

/// How many revisions there are.
pub(crate) async fn revisions(app: &TestApp) -> i64 {
    app.one("SELECT count(*) FROM revision").await
}
