//! What people said that bears on the readings of a sheet.
//!
//! A fault of the apparatus is the kit's, so a word on it that was said on the
//! sheet of one group holds for every group of that kit in the class set.
//!
//! # How a word is found again
//! As one on a shown slip: by the box, the code and the row's label. A finding
//! is about a reading's box and a shown slip about a worked figure's, so the
//! two never meet in the table of decisions. Where a finding is one of two that
//! cannot be told apart, a word on either counts, since which of them is the
//! likelier may change with the next hand-in. A word on a fault of the
//! apparatus, said on one sheet, holds for every sheet of that kit in the class
//! set until a newer one, and those sheets say where it was said; one that may
//! be a slip as well stays with its own sheet.

use analysis::field::{Field, Role};
use analysis::reading::Cause;
use analysis::slip::Kind;
use analysis::text::folded;

use super::class_set::GroupReport;
use super::{Work, kit};
use crate::db::decision::{Decision, FlagKey};
use crate::ids::SheetId;

/// A decision, as the sheet of one group hears it.
#[derive(Clone, Debug)]
pub struct Heard {
    /// What was decided.
    pub decision: Decision,
    /// The group of the same kit on whose sheet it was said; `None` for the
    /// sheet's own.
    pub on_sheet_of: Option<String>,
}

/// A cause and the row that it concerns; blank for the whole sheet. What tells
/// one explanation of a sheet from another when the box is not known.
pub(super) type Named<'a> = (Cause, &'a str);

impl Heard {
    /// Returns a decision that was made on the sheet itself.
    pub(super) fn own(decision: Decision) -> Self {
        Self {
            decision,
            on_sheet_of: None,
        }
    }

    /// Says whether it is about the finding with this key, which fits `first`,
    /// and as well `twin` where nobody can tell the two apart.
    pub(super) fn is_about(
        &self,
        key: &FlagKey,
        first: Named<'_>,
        twin: Option<Named<'_>>,
    ) -> bool {
        let flag = &self.decision.flag;
        if self.on_sheet_of.is_some() {
            // Ruling the kit's fault out leaves the slip that looks like it.
            let is_kits =
                is_apparatus(first.0) && twin.is_none_or(|(cause, _)| is_apparatus(cause));
            return is_kits && (is_of(flag, first) || twin.is_some_and(|twin| is_of(flag, twin)));
        }
        flag == key || twin.is_some_and(|twin| is_of(flag, twin))
    }
}

/// Says whether a decision, or a form, names this explanation. The box is a
/// reading's: a slip that the working shows may have the same code.
pub(super) fn is_of(flag: &FlagKey, (cause, row_label): Named<'_>) -> bool {
    let is_reading = Field::named(&flag.step).is_some_and(|field| field.role() == Role::Reading);
    is_reading && flag.slip == cause.code() && flag.row_label == row_label
}

/// Lets the groups of each kit hear what was said of it; `said` is everything
/// that was decided in the class set, oldest first.
pub(super) fn pass_on(groups: &mut [GroupReport], said: &[(SheetId, Decision)]) {
    let kits: Vec<(SheetId, String, String)> = groups
        .iter()
        .map(|group| {
            let kit = folded(kit(&group.bench, group.work.as_ref()));
            (group.bench.sheet_id, kit, group.bench.label.clone())
        })
        .collect();
    for (group, (own, own_kit, _)) in groups.iter_mut().zip(&kits) {
        let Some(work) = &mut group.work else {
            continue;
        };
        let hears = said.iter().filter_map(|(sheet, decision)| {
            if sheet == own {
                return Some(Heard::own(decision.clone()));
            }
            let (_, _, label) = kits
                .iter()
                .find(|(other, kit, _)| other == sheet && kit == own_kit && !kit.is_empty())?;
            is_about_apparatus(decision).then(|| Heard {
                decision: decision.clone(),
                on_sheet_of: Some(label.clone()),
            })
        });
        work.heard = hears.collect();
    }
}

fn is_apparatus(cause: Cause) -> bool {
    cause.kind() == Kind::Apparatus
}

fn is_about_apparatus(decision: &Decision) -> bool {
    Cause::from_code(&decision.flag.slip).is_some_and(is_apparatus)
}

impl Work {
    /// Returns the newest that was said of a finding.
    pub(super) fn heard_of(
        &self,
        key: &FlagKey,
        first: Named<'_>,
        twin: Option<Named<'_>>,
    ) -> Option<&Heard> {
        let mut newest_first = self.heard.iter().rev();
        newest_first.find(|heard| heard.is_about(key, first, twin))
    }
}
