//! A class set is made.

use analysis::method::Method;
use jiff::civil::Date;

use super::{Act, Doing, Event, Staff};
use crate::clock::school_year;
use crate::db::{Error, bench, class, class_set};
use crate::ids::ClassSetId;

/// Makes a class set, open, with a bench and an empty sheet for each group. Its
/// class is found by its name and the school year, or made.
#[derive(Clone, Debug)]
pub struct MakeClassSet {
    pub class_name: String,
    pub method: Method,
    /// Date of the lesson.
    pub held_on: Date,
    /// How many groups, 1 to 26: labelled A, B, C and so on.
    pub groups: u8,
    /// Whether its live page and help for pupils may be on.
    pub is_live: bool,
}

impl Act<Staff> for MakeClassSet {
    type Done = ClassSetId;
    type Stop = Error;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<ClassSetId, Error> {
        let year = school_year(self.held_on);
        let class = class::find_or_insert(doing.db, &self.class_name, year).await?;
        let (method, day, at) = (self.method, self.held_on, doing.at);
        let id = class_set::insert(doing.db, class, method, day, self.is_live, by.id, at).await?;
        for letter in ('A'..='Z').take(usize::from(self.groups)) {
            bench::insert(doing.db, id, &letter.to_string()).await?;
        }
        let event = Event::SetMade(id, self.is_live);
        doing.record(by, &event).await?;
        Ok(id)
    }
}
