//! What a class set is marked with is chosen.

use super::{Act, Doing, Event, NotDone, Staff, named, refuse_if};
use crate::db::{class_set, mark, scheme};
use crate::ids::{ClassSetId, SchemeVersionId};

/// Chooses the version that a class set is marked with: any of its method
/// while nothing is marked, afterwards only a newer one of the same scheme,
/// since marks are of its points.
#[derive(Clone, Debug)]
pub struct ChooseScheme {
    pub class_set: ClassSetId,
    pub version: SchemeVersionId,
}

/// It is of another method, or marks have been given by another scheme or a
/// newer version.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotChosen;

impl Act<Staff> for ChooseScheme {
    type Done = ();
    type Stop = NotDone<NotChosen>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Self::Stop> {
        let class_set = class_set::get(doing.db, self.class_set).await?;
        let present = scheme::get_of_class_set(doing.db, &class_set).await?;
        let present = scheme::get_version(doing.db, present).await?;
        let chosen = named(scheme::get_version(doing.db, self.version).await)?;
        let marks = mark::list_standing(doing.db, &[class_set.id], present.scheme_id, None).await?;
        let is_newer = chosen.scheme_id == present.scheme_id && chosen.number > present.number;
        let is_fit = chosen.method == class_set.method && (marks.is_empty() || is_newer);
        refuse_if(!is_fit, NotChosen)?;
        class_set::choose_scheme(doing.db, class_set.id, chosen.id).await?;
        let event = Event::SchemeChosen(class_set.id, chosen.name, chosen.number);
        Ok(doing.record(by, &event).await?)
    }
}
