//! Rulings: what the markers agreed on a marking point. They stand beside it
//! for everyone who marks after.

use super::round::Round;
use super::{Connection, Error, Writing};
use crate::ids::{RoundId, SchemeId, StaffId};

#[derive(Clone, Debug, PartialEq, Eq, sqlx::FromRow)]
pub struct Ruling {
    pub id: i64,
    /// In which round it was agreed.
    pub round_id: RoundId,
    pub round_name: String,
    pub scheme_id: SchemeId,
    /// On which point, in every version of the scheme.
    pub point_key: i64,
    /// What was agreed; blank takes the one before away.
    pub body: String,
    /// Name of who wrote it down.
    pub by: String,
    /// Unix ms.
    pub at: i64,
}

/// A query for rulings, with `$rest`.
macro_rules! select {
    ($rest:literal) => {
        concat!(
            "SELECT ruling.id, round_id, moderation_round.name AS round_name, ruling.scheme_id, point_key, body,
                    staff.name AS \"by\", at
             FROM ruling JOIN moderation_round ON moderation_round.id = round_id
             JOIN staff ON staff.id = ruling.staff_id ",
            $rest
        )
    };
}

/// Returns the rulings that stand on a scheme: the newest on each point,
/// without those that were taken away. In no order of the points.
pub async fn list_standing(db: &mut Connection, scheme: SchemeId) -> Result<Vec<Ruling>, Error> {
    let sql = sql!(select!(
        "WHERE ruling.id IN (SELECT max(id) FROM ruling WHERE scheme_id = (SELECT id FROM scheme WHERE id = $2 AND department_id = $1) GROUP BY point_key) AND body <> ''
         ORDER BY ruling.id"
    ));
    query_as!(db, sql; scheme).fetch_all(db).await
}

/// Lists everything that was ruled in a round, oldest first.
pub async fn list_in_round(db: &mut Connection, round: RoundId) -> Result<Vec<Ruling>, Error> {
    let sql = sql!(select!(
        "WHERE round_id = (SELECT id FROM moderation_round WHERE id = $2 AND department_id = $1) ORDER BY ruling.id"
    ));
    query_as!(db, sql; round).fetch_all(db).await
}

/// Adds a ruling on a point of the round's scheme; a blank one takes the one
/// before away.
pub async fn insert(
    db: &mut Writing,
    round: &Round,
    key: i64,
    body: &str,
    staff: StaffId,
    now: i64,
) -> Result<(), Error> {
    let sql = sql!("INSERT INTO ruling (round_id, scheme_id, point_key, body, staff_id, at)
               VALUES ((SELECT id FROM moderation_round WHERE id = $2 AND department_id = $1),
                       (SELECT id FROM scheme WHERE id = $3 AND department_id = $1), $4, $5, $6, $7)");
    query!(db, sql; round.id, round.scheme_id, key, body, staff, now)
        .run(db)
        .await
}
