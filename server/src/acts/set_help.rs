//! What a class set allows while groups work.

use super::{Act, Doing, Event, Staff};
use crate::db::Error;
use crate::db::class_set::{self, LookAgain};
use crate::ids::ClassSetId;

/// Switches the live pages, and says what pupils are told before their sheet is
/// marked.
#[derive(Debug)]
pub struct SetHelp {
    pub class_set: ClassSetId,
    /// Whether the live pages are on.
    pub is_live: bool,
    /// What pupils are told.
    pub look_again: LookAgain,
}

impl Act<Staff> for SetHelp {
    type Done = ();
    type Stop = Error;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Error> {
        let (class_set, is_live, look_again) = (self.class_set, self.is_live, self.look_again);
        class_set::set_help(doing.db, class_set, is_live, look_again).await?;
        let event = Event::HelpSet(class_set, is_live, look_again);
        doing.record(by, &event).await
    }
}
