//! Which groups say that they used one set of readings.
//!
//! A group writes *group D*, or *the set on the board*. That D's own sheet is
//! thereby in the set, though D wrote nothing, is a matter of labels and not of
//! figures; the analysis is only told which sheets say that they are one set.

use std::collections::HashMap;

use analysis::text::folded;

/// Names the set of readings that each group says it used, from its label and
/// what it wrote. Returns no text when its readings are its own.
///
/// A group that another names (`group B`, or `b`) is in one set with it
/// without saying so itself.
#[must_use]
pub fn sets(groups: &[(&str, &str)]) -> Vec<String> {
    let by_label: HashMap<String, usize> = groups
        .iter()
        .enumerate()
        .map(|(at, (label, _))| (folded(label), at))
        .collect();
    let mut by_words: HashMap<String, usize> = HashMap::new();
    let mut set: Vec<_> = (0..groups.len()).collect();
    let mut is_declared = vec![false; groups.len()];
    for (at, (_, shared)) in groups.iter().enumerate() {
        let words = folded(shared);
        if words.is_empty() || OWN.contains(&words.as_str()) {
            continue;
        }
        let label = ["group ", "bench "]
            .iter()
            .find_map(|word| words.strip_prefix(word))
            .unwrap_or(&words);
        let other = match by_label.get(label) {
            Some(other) => *other,
            None => *by_words.entry(words).or_insert(at),
        };
        (is_declared[at], is_declared[other]) = (true, true);
        let (from, to) = (set[at], set[other]);
        for set in set.iter_mut().filter(|set| **set == from) {
            *set = to;
        }
    }
    let names = set.iter().zip(is_declared);
    names
        .map(|(set, declared)| {
            if declared {
                set.to_string()
            } else {
                String::new()
            }
        })
        .collect()
}

/// What a group writes that fills the box in though its readings are its own.
/// Two of them are not one set.
const OWN: [&str; 10] = [
    "-", "–", "me", "mine", "n/a", "no", "none", "our own", "ours", "us",
];

#[cfg(test)]
mod tests {
    use super::*;

    /// Returns the groups with what they wrote, as the sets that they form; a
    /// dot for one with its own readings.
    fn formed(groups: &[(&str, &str)]) -> String {
        let names = sets(groups);
        let mut seen: Vec<&String> = Vec::new();
        names
            .iter()
            .map(|name| {
                if name.is_empty() {
                    return '.';
                }
                if !seen.contains(&name) {
                    seen.push(name);
                }
                let at = seen.iter().position(|other| *other == name).unwrap();
                char::from(b'a' + u8::try_from(at).unwrap())
            })
            .collect()
    }

    #[test]
    fn same_words_are_one_set() {
        let groups = [("A", "Set 1"), ("B", ""), ("C", " set  1 "), ("D", "set 2")];
        assert_eq!(formed(&groups), "a.ab");
    }

    #[test]
    fn group_that_is_named_is_in_the_set() {
        assert_eq!(formed(&[("A", ""), ("B", ""), ("C", "group A")]), "a.a");
        assert_eq!(formed(&[("A", ""), ("B", ""), ("C", "a")]), "a.a");
        assert_eq!(formed(&[("A", "bench B"), ("B", "group A")]), "aa");
        assert_eq!(formed(&[("A", "set 1"), ("B", "A"), ("C", "set 1")]), "aaa");
    }

    #[test]
    fn groups_that_say_that_they_are_their_own_are_no_set() {
        let groups = [
            ("A", "ours"),
            ("B", " Ours "),
            ("C", "no"),
            ("D", "Our  own"),
        ];
        assert_eq!(formed(&groups), "....");
    }

    #[test]
    fn group_that_names_itself_or_nobody_is_alone() {
        assert_eq!(formed(&[("A", "A"), ("B", "the board"), ("C", "")]), "ab.");
        assert_eq!(formed(&[]), "");
    }
}
