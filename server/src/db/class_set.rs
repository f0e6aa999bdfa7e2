//! Class sets.

use analysis::method::Method;

use super::{Connection, Error, Writing, found};
use crate::ids::{ClassId, ClassSetId, SchemeVersionId, StaffId};
use crate::words::time::long_date;
use crate::words::title;

/// A query for class sets: the columns of [`ClassSet`], then `$more`, from
/// the tables that they are in.
macro_rules! select {
    ($more:literal, $rest:literal) => {
        concat!(
            "SELECT class_set.id, class.name AS class_name, method, held_on, join_code, state,
                    bench_threshold, summary_threshold, is_live, look_again, stops_at, scheme_version_id",
            $more,
            " FROM class_set JOIN class ON class.id = class_set.class_id ",
            $rest
        )
    };
}

codes! {
    /// Whether groups may still write.
    pub enum State {
        /// Groups write.
        Open = "open",
        /// Groups read.
        Closed = "closed",
    }
}

codes! {
    /// What pupils are told about their working before it is marked.
    pub enum LookAgain {
        Nothing = "nothing",
        /// Which step to look at again.
        Step = "step",
        /// The same, and what that step is about.
        Explain = "explain",
    }
}

/// A class set with the name of its class.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct ClassSet {
    pub id: ClassSetId,
    /// Name of the class: `10B/Ph2`.
    pub class_name: String,
    /// Code of the method.
    pub method: String,
    /// Date of the lesson, `yyyy-mm-dd`.
    pub held_on: String,
    /// Five letters.
    pub join_code: String,
    /// Open or closed.
    pub state: State,
    /// From how many per cent on something that the readings suggest is
    /// worth a visit to the bench: 50 to 99.
    pub bench_threshold: i64,
    /// From how many per cent on it is told in the summary: 5 to 99, never
    /// above the bench's.
    pub summary_threshold: i64,
    /// Whether its live page and help for pupils may be on: never for a
    /// practical that is sat as an exam.
    pub is_live: bool,
    /// What pupils are told before their sheet is marked.
    pub look_again: LookAgain,
    /// When measuring stops, Unix ms; `None` where nobody said.
    pub stops_at: Option<i64>,
    /// The version of a scheme that it is marked with; `None` until somebody
    /// marks.
    pub scheme_version_id: Option<SchemeVersionId>,
}

impl ClassSet {
    /// Returns the method.
    ///
    /// # Errors
    /// When the stored code is none that this program knows.
    pub fn method(&self) -> Result<Method, Error> {
        Method::from_code(&self.method)
            .ok_or_else(|| Error::Sql(sqlx::Error::Decode("unknown method".into())))
    }

    /// Returns what the practical is called; the code of one that this program
    /// does not know.
    #[must_use]
    pub fn practical(&self) -> &str {
        Method::from_code(&self.method).map_or(&self.method, |method| title(method))
    }

    /// Returns the date of the lesson: `24 November 2026`.
    #[must_use]
    pub fn date(&self) -> String {
        long_date(&self.held_on)
    }

    /// Says whether groups may still write.
    #[must_use]
    pub fn is_open(&self) -> bool {
        self.state == State::Open
    }

    /// Says whether groups may be told what to look at again, as far as the
    /// class set itself says: released marks end it too.
    #[must_use]
    pub fn helps_pupils(&self) -> bool {
        self.is_open() && self.is_live && self.look_again != LookAgain::Nothing
    }

    /// Says whether something this probable is worth a visit to the bench.
    #[must_use]
    pub fn is_for_bench(&self, probability: f64) -> bool {
        reaches(probability, self.bench_threshold)
    }

    /// Says whether something this probable is told in the summary.
    #[must_use]
    pub fn is_for_summary(&self, probability: f64) -> bool {
        reaches(probability, self.summary_threshold)
    }
}

/// In whole per cent, as pages print it: what reads 80 % is not below 80 %.
fn reaches(probability: f64, threshold: i64) -> bool {
    (100.0 * probability).round() >= threshold as f64
}

/// A line of the list of class sets.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct Listed {
    #[sqlx(flatten)]
    pub class_set: ClassSet,
    pub benches: i64,
    /// How many of them have handed in.
    pub handed_in: i64,
}

/// Returns all class sets, newest lesson first.
pub async fn list(db: &mut Connection) -> Result<Vec<Listed>, Error> {
    let sql = sql!(select!(
        ", count(bench.id) AS benches,
           count(CASE WHEN EXISTS (SELECT 1 FROM revision WHERE revision.sheet_id = sheet.id
                                              AND revision.kind = 'handed_in') THEN 1 END) AS handed_in",
        "LEFT JOIN bench ON bench.class_set_id = class_set.id
               LEFT JOIN sheet ON sheet.bench_id = bench.id
               WHERE class.department_id = $1
               GROUP BY class_set.id, class.name
               ORDER BY held_on DESC, class_set.id DESC"
    ));
    query_as!(db, sql).fetch_all(db).await
}

/// Returns a class set by its id.
///
/// # Errors
/// [`Error::NoSuch`] when there is none.
pub async fn get(db: &mut Connection, id: ClassSetId) -> Result<ClassSet, Error> {
    let sql = sql!(select!(
        "",
        "WHERE class_set.id = $2 AND department_id = $1"
    ));
    let found = query_as!(db, sql; id).fetch_optional(db);
    found.await?.ok_or(Error::NoSuch)
}

/// Returns a class set by its join code, in capitals.
pub async fn find_by_code(db: &mut Connection, code: &str) -> Result<Option<ClassSet>, Error> {
    let sql = sql!(select!("", "WHERE join_code = $2 AND department_id = $1"));
    query_as!(db, sql; code).fetch_optional(db).await
}

/// Adds a class set without benches, under a join code that is free.
pub async fn insert(
    db: &mut Writing,
    class: ClassId,
    method: Method,
    held_on: jiff::civil::Date,
    is_live: bool,
    staff: StaffId,
    now: i64,
) -> Result<ClassSetId, Error> {
    let sql = sql!("INSERT INTO class_set (class_id, method, held_on, join_code, state, is_live, created_by, made_at)
               VALUES ((SELECT id FROM class WHERE id = $2 AND department_id = $1), $3, $4, $5, 'open', $6, $7, $8)
               ON CONFLICT (join_code) DO NOTHING RETURNING id");
    loop {
        // One code in a million is taken for each class set that there is.
        let made: Option<ClassSetId> = query_scalar!(db, sql;
            class, method.code(), held_on.to_string(), crate::secret::join_code(), is_live, staff,
            now)
        .fetch_optional(&mut *db)
        .await?;
        if let Some(id) = made {
            return Ok(id);
        }
    }
}

/// Closes or reopens a class set.
///
/// # Errors
/// [`Error::NoSuch`] when there is none.
pub async fn set_state(db: &mut Writing, id: ClassSetId, state: State) -> Result<(), Error> {
    let sql = sql!(
        "UPDATE class_set SET state = $3 WHERE id = (SELECT id FROM own_set WHERE id = $2 AND department_id = $1)"
    );
    let done = query!(db, sql; id, state).execute(db).await?;
    found(done)
}

/// Sets from how many per cent on findings are told: at the bench and in the
/// summary.
///
/// # Errors
/// [`Error::NoSuch`] when there is no such class set; a failed check where the
/// two are out of range.
pub async fn set_thresholds(
    db: &mut Writing,
    id: ClassSetId,
    bench: i64,
    summary: i64,
) -> Result<(), Error> {
    let sql = sql!(
        "UPDATE class_set SET bench_threshold = $3, summary_threshold = $4 WHERE id = (SELECT id FROM own_set WHERE id = $2 AND department_id = $1)"
    );
    let done = query!(db, sql; id, bench, summary).execute(db).await?;
    found(done)
}

/// Says when measuring stops, in Unix ms; `None` takes it back.
///
/// # Errors
/// [`Error::NoSuch`] when there is none.
pub async fn set_stop(
    db: &mut Writing,
    id: ClassSetId,
    stops_at: Option<i64>,
) -> Result<(), Error> {
    let sql = sql!(
        "UPDATE class_set SET stops_at = $3 WHERE id = (SELECT id FROM own_set WHERE id = $2 AND department_id = $1)"
    );
    let done = query!(db, sql; id, stops_at).execute(db).await?;
    found(done)
}

/// Says whether the live pages may be on, and what pupils are told before
/// their sheet is marked.
///
/// # Errors
/// [`Error::NoSuch`] when there is none.
pub async fn set_help(
    db: &mut Writing,
    id: ClassSetId,
    is_live: bool,
    look_again: LookAgain,
) -> Result<(), Error> {
    let sql = sql!(
        "UPDATE class_set SET is_live = $3, look_again = $4 WHERE id = (SELECT id FROM own_set WHERE id = $2 AND department_id = $1)"
    );
    let done = query!(db, sql; id, is_live, look_again).execute(db).await?;
    found(done)
}

/// Chooses the version of a scheme that a class set is marked with.
///
/// # Errors
/// [`Error::NoSuch`] when there is none.
pub async fn choose_scheme(
    db: &mut Writing,
    id: ClassSetId,
    version: SchemeVersionId,
) -> Result<(), Error> {
    let sql = sql!(
        "UPDATE class_set SET scheme_version_id = (SELECT id FROM own_version WHERE id = $3 AND department_id = $1) WHERE id = (SELECT id FROM own_set WHERE id = $2 AND department_id = $1)"
    );
    let done = query!(db, sql; id, version).execute(db).await?;
    found(done)
}
