//! Which kits a sheet names.

use analysis::text::folded;

use crate::db::kit::Kit;
use crate::ids::KitId;

/// The labels of the department's kits, ready to be looked for.
#[derive(Debug)]
pub(super) struct Labels {
    kits: Vec<(KitId, String)>,
}

impl Labels {
    pub(super) fn of(kits: &[Kit]) -> Self {
        let kits = kits.iter().map(|kit| (kit.id, folded(&kit.label)));
        Self {
            kits: kits.collect(),
        }
    }

    /// The kits that a sheet names, as places in the list: the one that it
    /// is tied to, and every other that is named in what was written
    /// (*String 2, Generator 3*).
    pub(super) fn named(&self, tied: Option<KitId>, written: &str) -> Vec<usize> {
        let names = names(written);
        let kits = self.kits.iter().enumerate();
        kits.filter(|(_, (id, label))| Some(*id) == tied || names.contains(label))
            .map(|(at, _)| at)
            .collect()
    }
}

/// Lists every text that may be the name of a kit in what a group wrote: its
/// parts, by commas alone and by all that may stand between two names, since
/// a label may have some of that in it.
fn names(written: &str) -> Vec<String> {
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
        names(written).contains(&folded(label))
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
