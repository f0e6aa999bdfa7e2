//! Writing a settlement down, with the mark that it gives.

use crate::db::event::{self, NewEvent};
use crate::db::mark::{self, NewMark};
use crate::db::round::{self, Round, Step};
use crate::db::scheme::MarkingPoint;
use crate::db::settlement::{self, About, NewSettlement};
use crate::db::{Error, Writing};
use crate::ids::{ClassSetId, MarkId, MarkingPointId, RevisionId, SettlementId, SheetId};
use crate::report::moderation::settling::{SettlingSheet, newest};

/// The mark that a settlement makes stand on a point of a sheet.
#[derive(Clone, Debug)]
pub struct Standing {
    /// The sheet.
    pub sheet_id: SheetId,
    /// Of which class set.
    pub class_set_id: ClassSetId,
    /// The point, in the version that the sheet was marked with.
    pub marking_point_id: MarkingPointId,
    /// What the pair looked at.
    pub revision_id: Option<RevisionId>,
    /// The newest mark on the point when they decided.
    pub seen: Option<MarkId>,
    /// The mark that shall stand.
    pub marks: i64,
    /// The mark that stands.
    pub stands: Option<i64>,
}

impl Standing {
    /// That these marks shall stand on a point of a sheet, by its place.
    #[must_use]
    pub fn on(sheet: &SettlingSheet, at: usize, point: &MarkingPoint, marks: i64) -> Self {
        let standing = &sheet.points[at];
        let of_round = &sheet.pair.sheet;
        Self {
            sheet_id: of_round.sheet_id,
            class_set_id: of_round.class_set_id,
            marking_point_id: point.id,
            revision_id: of_round.revision_id,
            seen: standing.now.as_ref().map(|mark| mark.id),
            marks,
            stands: standing.awarded(),
        }
    }
}

/// What came of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// It is written down.
    Settled,
    /// The round is not at this step: not shown yet, or closed.
    NotNow,
    /// Somebody has marked or settled it since.
    Met,
}

/// Writes a settlement down, unless there is a newer word on the same thing
/// than was `seen`.
///
/// Where another mark stands than it decides, the one that it decides is
/// given, openly: as a mark among the others, with the round and the reason
/// beside it.
///
/// # Errors
/// When a query fails.
pub async fn settle(
    db: &mut Writing,
    round: &Round,
    new: &NewSettlement,
    seen: Option<SettlementId>,
    standings: &[Standing],
) -> Result<Outcome, Error> {
    if round::get(db, round.id).await?.step != Some(Step::Shown) {
        return Ok(Outcome::NotNow);
    }
    let settlements = settlement::list(db, round.id).await?;
    let stands = newest(&settlements, new.about, new.point_key);
    if stands.map(|one| one.id) != seen {
        return Ok(Outcome::Met);
    }
    for standing in standings {
        let newest = mark::find_newest(db, standing.sheet_id, standing.marking_point_id);
        if newest.await? != standing.seen {
            return Ok(Outcome::Met);
        }
    }
    let id = settlement::insert(db, new).await?;
    let act = uuid::Uuid::new_v4().hyphenated().to_string();
    for standing in standings {
        if standing.stands != Some(standing.marks) {
            let mark = mark::insert(db, &given(round, new, standing, &act)).await?;
            settlement::insert_mark(db, id, mark).await?;
        }
    }
    let class = match new.about {
        About::Class(id) => Some(id),
        About::Sheet(_) => standings.first().map(|standing| standing.class_set_id),
    };
    let done = NewEvent {
        at: new.at,
        what: "settled",
        staff_id: Some(new.staff_id),
        class_set_id: class,
        detail: &format!("round {}, settlement {id}", round.id),
    };
    event::insert(db, &done).await?;
    Ok(Outcome::Settled)
}

fn given(round: &Round, new: &NewSettlement, standing: &Standing, act: &str) -> NewMark {
    let holds = match new.agreed {
        Some(_) => "Agreed",
        None => "The first mark stands",
    };
    NewMark {
        sheet_id: standing.sheet_id,
        marking_point_id: standing.marking_point_id,
        revision_id: standing.revision_id,
        awarded: Some(standing.marks),
        suggested: None,
        reason: format!(
            "{holds} in the moderation round {}: {}",
            round.name, new.reason
        ),
        act: act.to_owned(),
        undoes: None,
        staff_id: new.staff_id,
        marked_at: new.at,
    }
}
