//! How far the markers of a round have come with what is being marked.

use std::collections::HashMap;

use crate::db::round::Step;
use crate::db::round_sheet::{Kind, Progress};
use crate::ids::{RoundSheetId, StaffId};

/// Returns what is being marked in a round, if anything is.
#[must_use]
pub fn being_marked(step: Option<Step>) -> Option<Kind> {
    match step {
        Some(Step::Standard) => Some(Kind::Anchor),
        Some(Step::Drawn) => Some(Kind::Sample),
        _ => None,
    }
}

/// How far all have come.
#[derive(Clone, Debug)]
pub struct Workload {
    /// Each marker with their share, by name.
    pub markers: Vec<Share>,
}

/// How far one marker has come.
#[derive(Clone, Debug)]
pub struct Share {
    pub staff_id: StaffId,
    /// Their name.
    pub marker: String,
    /// How many sheets they have.
    pub sheets: usize,
    /// How many of those are complete.
    pub complete: usize,
    /// The first that is not.
    pub next: Option<RoundSheetId>,
}

impl Share {
    /// Says whether all of it is complete.
    #[must_use]
    pub fn is_complete(&self) -> bool {
        self.complete == self.sheets
    }

    /// Returns how many sheets are left.
    #[must_use]
    pub fn left(&self) -> usize {
        self.sheets - self.complete
    }
}

impl Workload {
    /// Counts the work on the sheets of one kind.
    #[must_use]
    pub fn of(progress: &[Progress], kind: Kind) -> Self {
        let mut shares: HashMap<StaffId, Share> = HashMap::new();
        for line in progress.iter().filter(|line| line.kind == kind) {
            let share = shares.entry(line.staff_id).or_insert_with(|| Share {
                staff_id: line.staff_id,
                marker: line.marker.clone(),
                sheets: 0,
                complete: 0,
                next: None,
            });
            share.sheets += 1;
            if line.is_complete() {
                share.complete += 1;
            } else {
                share.next.get_or_insert(line.round_sheet_id);
            }
        }
        let mut markers: Vec<Share> = shares.into_values().collect();
        markers.sort_by(|a, b| a.marker.cmp(&b.marker));
        Self { markers }
    }

    /// Says whether everybody has finished.
    #[must_use]
    pub fn is_complete(&self) -> bool {
        self.markers.iter().all(Share::is_complete)
    }

    /// Returns the share of one marker. Returns `None` when they have none.
    #[must_use]
    pub fn find(&self, staff: StaffId) -> Option<&Share> {
        self.markers.iter().find(|m| m.staff_id == staff)
    }

    /// Returns the names of those who have not finished.
    #[must_use]
    pub fn unfinished(&self) -> Vec<String> {
        let unfinished = self.markers.iter().filter(|m| !m.is_complete());
        unfinished.map(|m| m.marker.clone()).collect()
    }
}
