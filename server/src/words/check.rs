//! The checks that suggest marks, in words for staff.

use analysis::scheme::{Answer, Check, Judged};

use super::Say;

fn words(check: Check) -> (&'static str, &'static str) {
    match check {
        Check::EnoughFrequencies => (
            "enough frequencies",
            "Complete readings at five different frequencies or more. One mark less for each that is missing.",
        ),
        Check::ManyWaves => (
            "many waves in one length",
            "Ten waves or so in a span on most rows (eight or more counts); on a string, a length over every loop that is seen. One mark less where only some rows have it.",
        ),
        Check::Repeats => (
            "repeated readings",
            "At least one frequency measured twice or more. One mark for each frequency that was repeated.",
        ),
        Check::Resolution => (
            "readings to the instrument’s resolution",
            "Lengths written to the nearest millimetre, all to the same place. One mark less where a length is to the nearest centimetre only.",
        ),
        Check::EnlargementFound => (
            "enlargement found",
            "The enlargement follows from the object’s two lengths.",
        ),
        Check::EnlargementApplied => (
            "enlargement applied",
            "The wavelength on the water is the one on the screen ÷ the enlargement, the group’s own if it is wrong.",
        ),
        Check::Wavelength => (
            "wavelength",
            "Each wavelength follows from the group’s own readings. One slip costs one mark, however many rows it is in.",
        ),
        Check::Frequency => (
            "frequency, with its multiplier",
            "Each frequency follows from the dial and its multiplier, or from the count and the time.",
        ),
        Check::Speed => (
            "speed",
            "Each speed is the group’s own frequency × its own wavelength: an earlier slip costs nothing here.",
        ),
        Check::Unit => (
            "unit and conversion",
            "Speeds have a unit, and mm, cm and m are not mixed.",
        ),
        Check::MeanWithoutAnomaly => (
            "mean without the anomaly",
            "The mean of the group’s own speeds, without the rows that it marked as anomalies.",
        ),
        Check::Gradient => (
            "gradient from the line",
            "The gradient is one that a careful line through the group’s own points could have.",
        ),
        Check::Figures => (
            "significant figures",
            "Worked figures carry as many significant figures as the readings do: at least two, and at most one more than the readings.",
        ),
        Check::Uncertainty => (
            "uncertainty as half the range",
            "The uncertainty is half the range of the group’s own speeds, without the rows that it marked as anomalies.",
        ),
    }
}

/// Returns what a choice on a page calls a check.
#[must_use]
pub fn title(check: Check) -> &'static str {
    words(check).0
}

/// Returns what earns full marks, and what costs some.
#[must_use]
pub fn rule(check: Check) -> &'static str {
    words(check).1
}

/// Returns how a point is judged, to be chosen.
#[must_use]
pub fn choice(judged: Judged) -> String {
    match judged {
        Judged::ByCheck(check) => format!("by check: {}", title(check)),
        Judged::ByEye(Some(on)) => format!("by eye: {}", answer(on)),
        Judged::ByEye(None) => "by eye: on paper".to_owned(),
    }
}

/// Returns how a point is judged, where a scheme is read.
#[must_use]
pub fn judged(judged: Judged) -> String {
    match judged {
        Judged::ByCheck(check) => format!("By check. {}", rule(check)),
        Judged::ByEye(Some(on)) => {
            format!("By eye, on {} (on the screen or on paper).", answer(on))
        }
        Judged::ByEye(None) => "By eye, on paper.".to_owned(),
    }
}

/// Returns who made a version of a scheme and when; `None` comes with the
/// program.
#[must_use]
pub fn made(by_and_when: Option<(&str, &str)>) -> String {
    by_and_when.map_or_else(
        || "came with the program".to_owned(),
        |(by, when)| format!("by {by}, {when}"),
    )
}

/// Returns what a marker calls an answer in the group's own words.
#[must_use]
pub fn answer(answer: Answer) -> &'static str {
    Say::english().coded("answer", answer.code(), Some("theirs"))
}
