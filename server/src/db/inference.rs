//! What the readings of a class set suggest, kept until its sheets change.
//! Only a copy of what can be made again.

use analysis::reading::Inference;
use analysis::reading::copied::Question;
use serde::{Deserialize, Serialize};

use super::{Connection, Error, Writing};
use crate::ids::ClassSetId;

/// What the sheets of a class come to when they are read together, in the
/// order of their groups.
#[derive(Clone, Debug, Default, Serialize, Deserialize)]
pub struct Together {
    /// What each one's readings suggest; `None` where that could not be
    /// inferred.
    pub inferences: Vec<Option<Inference>>,
    /// What there is to ask, most probable first.
    pub questions: Vec<Question>,
}

/// An inference to keep.
#[derive(Clone, Debug)]
pub struct NewInference {
    pub class_set_id: ClassSetId,
    /// SHA-256 of all that it was made from, hexadecimal.
    pub state: String,
    /// What was inferred.
    pub together: Together,
}

/// Returns what is kept of a class set in this state. Returns `None` when
/// nothing is, when the class set has changed since, or when another version's
/// writing cannot be read. Then it is made again.
pub async fn find(
    db: &mut Connection,
    class_set: ClassSetId,
    state: &str,
) -> Result<Option<Together>, Error> {
    let sql = sql!(
        "SELECT body FROM inference WHERE class_set_id = (SELECT id FROM own_set WHERE id = $2 AND department_id = $1) AND state = $3"
    );
    let body: Option<String> = query_scalar!(db, sql; class_set, state)
        .fetch_optional(db)
        .await?;
    Ok(body.and_then(|body| serde_json::from_str(&body).ok()))
}

/// Keeps an inference in the place of the one before.
pub async fn keep(db: &mut Writing, new: &NewInference, made_at: i64) -> Result<(), Error> {
    let sql = sql!("INSERT INTO inference (class_set_id, state, body, made_at) VALUES ((SELECT id FROM own_set WHERE id = $2 AND department_id = $1), $3, $4, $5)
               ON CONFLICT (class_set_id) DO UPDATE
               SET state = excluded.state, body = excluded.body, made_at = excluded.made_at");
    query!(db, sql; new.class_set_id, &new.state, serde_json::to_string(&new.together)?, made_at)
        .run(db)
        .await
}
