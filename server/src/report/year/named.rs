//! Which kits a sheet names.

use crate::db::kit::Kit;
use crate::ids::KitId;

/// The labels of the department's kits, ready to be looked for.
#[derive(Debug)]
pub(super) struct Labels {
    kits: Vec<(KitId, String)>,
}

impl Labels {
    pub(super) fn of(kits: &[Kit]) -> Self {
        let kits = kits.iter().map(|kit| (kit.id, kit.label.to_lowercase()));
        Self {
            kits: kits.collect(),
        }
    }

    /// The kits that a sheet names, as places in the list: the one that it
    /// is tied to, and every other whose label stands in what was written
    /// (*String 2, Generator 3*).
    pub(super) fn named(&self, tied: Option<KitId>, written: &str) -> Vec<usize> {
        let written = written.to_lowercase();
        let kits = self.kits.iter().enumerate();
        kits.filter(|(_, (id, label))| Some(*id) == tied || stands_in(label, &written))
            .map(|(at, _)| at)
            .collect()
    }
}

/// Whether a label stands in a text by itself: *Tank 1* does not stand in
/// *Tank 12*.
fn stands_in(label: &str, text: &str) -> bool {
    let is_word = |letter: Option<char>| letter.is_some_and(char::is_alphanumeric);
    text.match_indices(label).any(|(at, found)| {
        let before = text[..at].chars().next_back();
        let after = text[at + found.len()..].chars().next();
        !label.is_empty() && !is_word(before) && !is_word(after)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn label_stands_in_a_text_by_itself_only() {
        assert!(stands_in("tank 1", "tank 1"));
        assert!(stands_in("generator 3", "string 2, generator 3"));
        assert!(!stands_in("tank 1", "tank 12"));
        assert!(!stands_in("tank 1", "tank 11 and tank 12"));
        assert!(stands_in("tank 1", "tank 12, tank 1"));
        assert!(!stands_in("", "tank 1"));
    }
}
