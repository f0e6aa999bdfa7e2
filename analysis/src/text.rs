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

/// Lists every text that may be a name in what somebody wrote, folded: its
/// parts, by commas alone and by all that may stand between two names, since a
/// name may have some of that in it.
#[must_use]
pub fn names_in(written: &str) -> Vec<String> {
    let written = folded(written);
    let apart = written.replace(" and ", ",");
    let coarse = written.split([',', ';']);
    let fine = apart.split([',', ';', '/', '+', '&', '(', ')']);
    coarse.chain(fine).map(folded).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn is_named(label: &str, written: &str) -> bool {
        names_in(written).contains(&folded(label))
    }

    #[test]
    fn kit_is_named_by_its_whole_label_alone_or_among_others() {
        for written in [
            "tank 1",
            " TANK  1 ",
            "Tank 12, tank 1",
            "Tank 1/Generator 3",
            "Tank 1 (window)",
        ] {
            assert!(is_named("Tank 1", written), "{written}");
        }
        for written in [
            "tank 12",
            "Tank 11 and tank 12",
            "Tank 1 spare",
            "the new Tank 1",
            "",
        ] {
            assert!(!is_named("Tank 1", written), "{written}");
        }
        assert!(is_named("generator 3", "String 2,Generator  3"));
        assert!(is_named("Generator 3", "string 2 and generator 3"));
        assert!(is_named("Lamp & tank", "lamp &  tank; Generator 3"));
        assert!(is_named("Lamp and tank", "Generator 3, lamp and tank"));
    }
}
