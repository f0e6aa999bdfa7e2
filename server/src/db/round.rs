//! Moderation rounds: what each is about, which never changes, and how far it
//! has come, step by step.

use std::collections::HashSet;

use super::{Connection, Error, Writing};
use crate::ids::{ClassSetId, MarkId, RoundId, SchemeId, SchemeVersionId, StaffId};
use crate::words::moderation::{class_called, done, stands};

#[derive(Clone, Debug, sqlx::FromRow)]
pub struct Round {
    pub id: RoundId,
    /// What staff call it.
    pub name: String,
    /// The scheme that its class sets are marked with.
    pub scheme_id: SchemeId,
    pub scheme_name: String,
    /// Code of the scheme's method.
    pub method: String,
    /// How far two totals may be apart, in marks.
    pub tolerance_total: i64,
    /// How far two marks of one point may be apart.
    pub tolerance_point: i64,
    /// From which the sample is drawn.
    pub seed: String,
    /// Name of who made it.
    pub by: String,
    /// Unix ms.
    pub made_at: i64,
    /// How far it has come; `None`: it has only been made.
    pub step: Option<Step>,
}

codes! {
    /// How far a round has come.
    pub enum Step {
        /// Every marker marks the anchors.
        Standard = "standard",
        /// All see everyone's marks of the anchors.
        StandardShown = "standard_shown",
        /// The sample is drawn, and marked a second time.
        Drawn = "drawn",
        /// Second marks stand beside the first.
        Shown = "shown",
        /// The record is made.
        Closed = "closed",
    }
}

impl Round {
    /// Returns where it stands, in words.
    #[must_use]
    pub fn stands(&self) -> &'static str {
        stands(self.step.map(Step::code))
    }
}

impl Step {
    /// Returns what was done, in words.
    #[must_use]
    pub fn done(self) -> &'static str {
        done(self.code())
    }
}

#[derive(Clone, Debug, sqlx::FromRow)]
pub struct StepTaken {
    pub step: Step,
    /// The newest first mark at that moment; 0: none.
    pub last_mark_id: MarkId,
    /// How many sheets the department's table asked for when the sample was
    /// drawn; `None`: all of them, or another step.
    pub asked: Option<i64>,
    /// Name of who took it.
    pub by: String,
    /// Unix ms.
    pub at: i64,
}

#[derive(Clone, Debug, PartialEq, Eq, sqlx::FromRow)]
pub struct Marker {
    pub id: StaffId,
    pub name: String,
}

/// A class set that is in a round, or might be.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct ClassSetOfRound {
    pub id: ClassSetId,
    pub class_name: String,
    /// Date of the lesson, `yyyy-mm-dd`.
    pub held_on: String,
    /// The version that it is marked with; `None` until somebody marks.
    pub scheme_version_id: Option<SchemeVersionId>,
    /// The scheme of that version.
    pub scheme_id: Option<SchemeId>,
    /// Who made it, and so teaches the class.
    pub created_by: StaffId,
    /// How many of its groups have handed in.
    pub handed_in: i64,
}

impl ClassSetOfRound {
    /// Returns what staff call it.
    #[must_use]
    pub fn called(&self) -> String {
        class_called(&self.class_name, &self.held_on)
    }
}

/// A round to make.
#[derive(Clone, Debug)]
pub struct NewRound {
    /// 1 to 80 characters.
    pub name: String,
    pub scheme: SchemeId,
    /// How far two totals may be apart, in marks.
    pub tolerance_total: i64,
    /// How far two marks of one point may be apart.
    pub tolerance_point: i64,
    /// From which the sample is drawn: 1 to 40 characters.
    pub seed: String,
    /// About which class sets.
    pub class_sets: Vec<ClassSetId>,
    /// Who marks in it.
    pub markers: Vec<StaffId>,
}

/// A query for rounds, with `$rest`.
macro_rules! select_round {
    ($rest:literal) => {
        concat!(
            "SELECT moderation_round.id, moderation_round.name, scheme_id, scheme.name AS scheme_name, method,
                    tolerance_total, tolerance_point, seed, staff.name AS \"by\", moderation_round.made_at,
                    (SELECT step FROM round_step WHERE round_id = moderation_round.id
                     ORDER BY id DESC LIMIT 1) AS step
             FROM moderation_round JOIN scheme ON scheme.id = scheme_id
             JOIN staff ON staff.id = moderation_round.staff_id ",
            $rest
        )
    };
}

/// A query for class sets, with `$rest`.
macro_rules! select_class_set {
    ($rest:literal) => {
        concat!(
            "SELECT class_set.id, class.name AS class_name, held_on, scheme_version_id,
                    scheme_version.scheme_id, created_by,
                    (SELECT count(DISTINCT sheet.id) FROM bench JOIN sheet ON bench_id = bench.id
                     JOIN revision ON sheet_id = sheet.id
                     WHERE bench.class_set_id = class_set.id AND kind = 'handed_in') AS handed_in
             FROM class_set JOIN class ON class.id = class_id
             LEFT JOIN scheme_version ON scheme_version.id = scheme_version_id ",
            $rest
        )
    };
}

/// Returns all rounds, newest first.
pub async fn list(db: &mut Connection) -> Result<Vec<Round>, Error> {
    let sql = sql!(select_round!(
        "WHERE moderation_round.department_id = $1 ORDER BY moderation_round.id DESC"
    ));
    query_as!(db, sql).fetch_all(db).await
}

/// Returns one round.
///
/// # Errors
/// [`Error::NoSuch`] when there is none.
pub async fn get(db: &mut Connection, id: RoundId) -> Result<Round, Error> {
    let sql = sql!(select_round!(
        "WHERE moderation_round.department_id = $1 AND moderation_round.id = $2"
    ));
    let found = query_as!(db, sql; id).fetch_optional(db);
    found.await?.ok_or(Error::NoSuch)
}

/// Returns the class sets that a round of this scheme may have: those marked
/// with a version of it, and those of its method that nobody has marked yet.
/// Newest lesson first.
pub async fn list_possible_class_sets(
    db: &mut Connection,
    scheme: SchemeId,
) -> Result<Vec<ClassSetOfRound>, Error> {
    let sql = sql!(select_class_set!(
        "WHERE class.department_id = $1 AND (scheme_version.scheme_id = $2
               OR (scheme_version_id IS NULL AND method = (SELECT method FROM scheme WHERE scheme.id = $2)))
         ORDER BY held_on DESC, class.name, class_set.id"
    ));
    query_as!(db, sql; scheme).fetch_all(db).await
}

/// Counts the class sets that are marked with each scheme; none of a scheme
/// that no class set is marked with.
pub async fn count_marked(db: &mut Connection) -> Result<Vec<(SchemeId, i64)>, Error> {
    let sql = sql!(
        "SELECT scheme_id, count(*) FROM class JOIN class_set ON class_set.class_id = class.id
               JOIN scheme_version ON scheme_version.id = scheme_version_id
               WHERE class.department_id = $1 GROUP BY scheme_id"
    );
    query_as!(db, sql).fetch_all(db).await
}

/// Returns the class sets of a round, newest lesson first.
pub async fn list_class_sets(
    db: &mut Connection,
    round: RoundId,
) -> Result<Vec<ClassSetOfRound>, Error> {
    let sql = sql!(select_class_set!(
        "JOIN round_class_set ON round_class_set.class_set_id = class_set.id
         WHERE round_id = (SELECT id FROM moderation_round WHERE id = $2 AND department_id = $1) ORDER BY held_on DESC, class.name, class_set.id"
    ));
    query_as!(db, sql; round).fetch_all(db).await
}

/// Returns the markers of a round, by name.
pub async fn list_markers(db: &mut Connection, round: RoundId) -> Result<Vec<Marker>, Error> {
    let sql = sql!("SELECT staff.id, name FROM round_marker JOIN staff ON staff.id = staff_id
               WHERE round_id = (SELECT id FROM moderation_round WHERE id = $2 AND department_id = $1) ORDER BY name_key");
    query_as!(db, sql; round).fetch_all(db).await
}

/// Returns the steps that a round has taken, oldest first.
pub async fn list_steps(db: &mut Connection, round: RoundId) -> Result<Vec<StepTaken>, Error> {
    let sql = sql!("SELECT step, last_mark_id, asked, staff.name AS \"by\", at
               FROM round_step JOIN staff ON staff.id = staff_id
               WHERE round_id = (SELECT id FROM moderation_round WHERE id = $2 AND department_id = $1) ORDER BY round_step.id");
    query_as!(db, sql; round).fetch_all(db).await
}

/// Returns the newest round that says what a new one would say, by the same
/// person, and has not begun.
pub async fn find_same(
    db: &mut Connection,
    new: &NewRound,
    staff: StaffId,
) -> Result<Option<RoundId>, Error> {
    let sql = sql!(
        "SELECT id FROM moderation_round
               WHERE department_id = $1 AND name = $2 AND scheme_id = $3 AND tolerance_total = $4
               AND tolerance_point = $5 AND seed = $6 AND staff_id = $7
               AND NOT EXISTS (SELECT 1 FROM round_step WHERE round_id = moderation_round.id)
               ORDER BY id DESC"
    );
    let rounds: Vec<RoundId> = query_scalar!(db, sql;
        &new.name, new.scheme, new.tolerance_total, new.tolerance_point, &new.seed, staff)
    .fetch_all(&mut *db)
    .await?;
    for id in rounds {
        let class_sets = list_class_sets(db, id).await?.into_iter();
        let markers = list_markers(db, id).await?.into_iter();
        let class_sets: HashSet<ClassSetId> = class_sets.map(|set| set.id).collect();
        let markers: HashSet<StaffId> = markers.map(|marker| marker.id).collect();
        let is_same_about = class_sets == new.class_sets.iter().copied().collect();
        if is_same_about && markers == new.markers.iter().copied().collect() {
            return Ok(Some(id));
        }
    }
    Ok(None)
}

/// Makes a round.
pub async fn insert(
    db: &mut Writing,
    new: &NewRound,
    staff: StaffId,
    now: i64,
) -> Result<RoundId, Error> {
    let sql = sql!("INSERT INTO moderation_round (department_id, name, scheme_id, tolerance_total, tolerance_point,
                                             seed, staff_id, made_at)
               VALUES ($1, $2, $3, $4, $5, $6, $7, $8) RETURNING id");
    let id: RoundId = query_scalar!(db, sql;
        &new.name, new.scheme, new.tolerance_total, new.tolerance_point, &new.seed, staff, now)
    .fetch_one(&mut *db)
    .await?;
    for class_set in &new.class_sets {
        let sql = sql!(
            "INSERT INTO round_class_set (round_id, class_set_id)
                   VALUES ((SELECT id FROM moderation_round WHERE id = $2 AND department_id = $1),
                           (SELECT id FROM own_set WHERE id = $3 AND department_id = $1))"
        );
        query!(db, sql; id, class_set).execute(&mut *db).await?;
    }
    for marker in &new.markers {
        let sql = sql!(
            "INSERT INTO round_marker (round_id, staff_id)
                   VALUES ((SELECT id FROM moderation_round WHERE id = $2 AND department_id = $1),
                           (SELECT id FROM staff WHERE id = $3 AND department_id = $1))"
        );
        query!(db, sql; id, marker).execute(&mut *db).await?;
    }
    Ok(id)
}

/// Takes a step: first marks are those up to the newest one of now.
///
/// `asked` is how many sheets the department's table asks for when the sample
/// is drawn, since the table may be another later; `None`: all, or another
/// step.
pub async fn insert_step(
    db: &mut Writing,
    round: RoundId,
    step: Step,
    asked: Option<usize>,
    staff: StaffId,
    now: i64,
) -> Result<(), Error> {
    let sql = sql!("INSERT INTO round_step (round_id, step, last_mark_id, asked, staff_id, at)
               VALUES ((SELECT id FROM moderation_round WHERE id = $2 AND department_id = $1), $3, (SELECT coalesce(max(id), 0) FROM mark), $4, $5, $6)");
    query!(db, sql; round, step, asked.and_then(|asked| i64::try_from(asked).ok()), staff, now)
        .run(db)
        .await
}
