//! What is said of a moderation round: how far it has come, what its sheets
//! are called, and what was settled. Steps and decisions come by their codes.

use super::time::long_date;

/// Writes a class set as staff call it: `10B/Ph2, 24 November 2026`.
#[must_use]
pub fn class_called(class_name: &str, held_on: &str) -> String {
    format!("{class_name}, {}", long_date(held_on))
}

/// Writes a sheet as staff call it: `10B/Ph2, 24 November 2026, group A`.
#[must_use]
pub fn sheet_called(class_name: &str, held_on: &str, label: &str) -> String {
    format!("{}, group {label}", class_called(class_name, held_on))
}

/// Returns where a round stands, by its newest step.
#[must_use]
pub fn stands(step: Option<&str>) -> &'static str {
    match step {
        Some("standard") => "Everyone marks the anchors",
        Some("standard_shown") => "The standard is shown; no sample drawn yet",
        Some("drawn") => "The sample is marked a second time",
        Some("shown") => "First and second marks are side by side",
        Some("closed") => "Closed",
        _ => "Made, not begun",
    }
}

/// Returns what was done. Other text is of a record that was closed when words
/// were kept, and comes back.
#[must_use]
pub fn done(step: &str) -> &str {
    match step {
        "made" => "Made",
        "standard" => "Anchors picked",
        "standard_shown" => "Everyone’s marks of the anchors shown",
        "drawn" => "Sample drawn",
        "shown" => "Second marks shown beside the first",
        "closed" => "Closed",
        words => words,
    }
}

/// Returns what was decided, to stand by what it was decided about: a point,
/// or all that is left of a sheet or a class.
#[must_use]
pub fn settled(kind: &str, agreed: Option<i64>, is_of_a_point: bool) -> String {
    let words = match (kind, agreed) {
        ("agreed", Some(marks)) => return format!("Agreed: {marks}"),
        ("again", _) => "Marked again",
        ("not_again", _) => "Not marked again after all",
        _ if is_of_a_point => "The first mark stands",
        _ => "All other first marks of the sheet stand",
    };
    words.to_owned()
}

/// Returns what was decided and of which point, for a record.
#[must_use]
pub fn decided(kind: &str, agreed: Option<i64>, point: Option<&str>) -> String {
    let what = match (kind, agreed) {
        ("agreed", Some(marks)) => format!("Agreed {marks}"),
        ("again", _) => "To be marked again".to_owned(),
        ("not_again", _) => "Not to be marked again after all".to_owned(),
        _ if point.is_none() => return "First marks stand: all other points".to_owned(),
        _ => "The first mark stands".to_owned(),
    };
    format!("{what}: {}", point_called(point))
}

/// Returns which points something is about: one by its title, or every one.
#[must_use]
pub fn point_called(title: Option<&str>) -> String {
    title.map_or_else(
        || "every point".to_owned(),
        |title| format!("point {title}"),
    )
}

/// Returns why a mark was given that settles a difference: in which round, and
/// what the two wrote down.
#[must_use]
pub fn given(kind: &str, round: &str, reason: &str) -> String {
    let holds = match kind {
        "agreed" => "Agreed",
        _ => "The first mark stands",
    };
    format!("{holds} in the moderation round {round}: {reason}")
}
