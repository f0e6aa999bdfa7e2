//! A note on a sheet as it is typed: the same on the sheet's page and while
//! marking.

use crate::acts::{AddNote, NotNoted};
use crate::ids::ClassSetId;
use crate::web::form::{Pairs, TypedText};
use crate::words::refusal;

/// The boxes of a note.
#[derive(Clone, Debug, Default)]
pub(super) struct TypedNote {
    /// Label of the row; blank for the whole sheet.
    pub(super) row: String,
    /// Name of the figure; blank for none.
    pub(super) step: String,
    pub(super) body: TypedText,
    pub(super) for_staff: bool,
}

impl TypedNote {
    pub(super) fn read(pairs: &Pairs) -> Self {
        Self {
            row: pairs.get("row").to_owned(),
            step: pairs.get("step").to_owned(),
            body: TypedText::new(pairs.text("note")),
            for_staff: pairs.get("for") == "staff",
        }
    }

    /// Returns the act that keeps it.
    pub(super) fn act(&self, class_set: ClassSetId, label: &str, for_group: bool) -> AddNote {
        let given = |text: &String| (!text.is_empty()).then(|| text.clone());
        AddNote {
            class_set,
            label: label.to_owned(),
            row: given(&self.row),
            step: given(&self.step),
            body: self.body.text.clone(),
            for_group,
        }
    }

    /// Says why it was not kept. Returns `None` when the bench is gone.
    pub(super) fn refuse(&mut self, why: NotNoted) -> Option<()> {
        self.body.refuse(match why {
            NotNoted::NoSuchBench => return None,
            NotNoted::Blank => refusal::NOTE_FIRST,
            NotNoted::Long => refusal::AT_MOST_2000,
            NotNoted::NoSuchRow => refusal::NO_ROW,
            NotNoted::NoSuchStep => refusal::WHICH_FIGURE,
        });
        Some(())
    }
}
