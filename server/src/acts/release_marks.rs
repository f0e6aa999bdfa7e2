//! Marks and feedback are released to the groups, or taken back.

use super::{Act, Doing, Event, Staff};
use crate::db::{Error, class_set, release, scheme};
use crate::ids::ClassSetId;

/// Releases what there is now, or takes back what is out. What comes later
/// waits for the next release.
#[derive(Debug)]
pub struct ReleaseMarks {
    pub class_set: ClassSetId,
    /// Whether they are out; false: taken back.
    pub is_out: bool,
}

impl Act<Staff> for ReleaseMarks {
    type Done = ();
    type Stop = Error;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Error> {
        let Self { class_set, is_out } = self;
        let found = class_set::get(doing.db, class_set).await?;
        let version = scheme::get_of_class_set(doing.db, &found).await?;
        release::insert(doing.db, class_set, version, is_out, by.id, doing.at).await?;
        let event = Event::MarksReleased(class_set, is_out);
        doing.record(by, &event).await
    }
}
