//! A class set is closed, or opened again.

use super::{Act, Doing, Event, Staff};
use crate::db::Error;
use crate::db::class_set::{self, State};
use crate::ids::ClassSetId;

/// Lets groups write, or no more.
#[derive(Debug)]
pub struct SetState {
    pub class_set: ClassSetId,
    /// Open or closed.
    pub state: State,
}

impl Act<Staff> for SetState {
    type Done = ();
    type Stop = Error;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Error> {
        let id = self.class_set;
        class_set::set_state(doing.db, id, self.state).await?;
        let event = match self.state {
            State::Open => Event::SetOpened(id),
            State::Closed => Event::SetClosed(id),
        };
        doing.record(by, &event).await
    }
}
