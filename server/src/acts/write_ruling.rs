//! A ruling on a marking point.

use super::{Act, Doing, Event, NotDone, Refused, Staff, refuse_if};
use crate::db::round::{self, Step};
use crate::db::ruling;
use crate::ids::RoundId;
use crate::report::moderation::may_see::{self, Hidden};

/// Longest ruling, in characters.
const LONGEST: usize = 2000;

/// Writes down what the markers of a round agreed on a point of its standard;
/// a blank one takes the one before away. Only in place of the ruling that
/// whoever writes has seen.
#[derive(Clone, Debug)]
pub struct WriteRuling {
    pub round: RoundId,
    /// Key of the point.
    pub key: i64,
    /// What was agreed.
    pub body: String,
    /// The ruling that was on the page; `None`: none was.
    pub seen: Option<i64>,
}

/// Why a ruling is not kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotRuled {
    /// The standard is not for them to see.
    Hidden(Hidden),
    /// The round is closed.
    Closed,
    /// The standard has no such point.
    NoSuchPoint,
    /// It is longer than 2000 characters.
    Long,
    /// Another ruling stands than the one that was on the page.
    Newer,
}

impl Act<Staff> for WriteRuling {
    type Done = ();
    type Stop = NotDone<NotRuled>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Self::Stop> {
        let round = round::get(doing.db, self.round).await?;
        let standard = may_see::standard(doing.db, &round, by.id, by.is_head).await?;
        let standard = standard.map_err(|hidden| Refused(NotRuled::Hidden(hidden)))?;
        refuse_if(round.step == Some(Step::Closed), NotRuled::Closed)?;
        let mut points = standard.points.iter();
        let point = points.find(|point| point.point.key == self.key);
        let point = point.ok_or(Refused(NotRuled::NoSuchPoint))?;
        let stands = point.ruling.as_ref();
        if stands.map_or("", |ruling| ruling.body.as_str()) == self.body {
            return Ok(());
        }
        refuse_if(self.body.chars().count() > LONGEST, NotRuled::Long)?;
        let is_as_seen = stands.map(|ruling| ruling.id) == self.seen;
        refuse_if(!is_as_seen, NotRuled::Newer)?;
        ruling::insert(doing.db, &round, self.key, &self.body, by.id, doing.at).await?;
        let event = Event::RulingWritten(round.id, self.key);
        Ok(doing.record(by, &event).await?)
    }
}
