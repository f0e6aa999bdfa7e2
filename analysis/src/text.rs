//! What people type in more ways than one.

/// Folds a text: two texts that fold alike are the same name, however they were
/// spaced and spelled. Small letters, single blanks, none at the ends.
///
/// ```
/// use analysis::text::folded;
/// assert_eq!(folded("  Tank \u{a0} 3 "), folded("tank 3"));
/// assert_ne!(folded("Tank 3"), folded("Tank 31"));
/// ```
#[must_use]
pub fn folded(text: &str) -> String {
    let words: Vec<&str> = text.split_whitespace().collect();
    words.join(" ").to_lowercase()
}
