//! What the pages of a school year read, over many tables: its lessons, its
//! sheets, what people said of them, their marks. One query each, whatever
//! the number of sheets.
//!
//! And its figures, kept until something that they rest on changes.

use analysis::year::Comparison;

use super::decision::{FlagKey, Verdict};
use super::judgement::{self, RevisionJudged};
use super::{Connection, Error, Writing};
use crate::ids::{ClassId, ClassSetId, KitId, RevisionId, SchemeVersionId, SheetId, StaffId};

/// A class set of the year.
#[derive(Clone, Debug, serde::Serialize, sqlx::FromRow)]
pub struct YearLesson {
    pub id: ClassSetId,
    pub class_id: ClassId,
    pub class_name: String,
    /// Code of the method.
    pub method: String,
    /// Date of the lesson, `yyyy-mm-dd`.
    pub held_on: String,
    /// Who made the class set.
    pub staff_id: StaffId,
    pub staff_name: String,
    /// Its groups, whether or not anybody came.
    pub benches: i64,
    /// The version of a scheme that it is marked with: marks that stand rest
    /// on it. `None` until somebody marks.
    pub scheme_version_id: Option<SchemeVersionId>,
    /// Marks that a sheet can get; `None` until somebody marks.
    pub full_marks: Option<i64>,
    /// Marking points; `None` until somebody marks.
    pub points: Option<i64>,
}

/// Returns the class sets of a school year, by date.
pub async fn list_lessons(db: &mut Connection, school_year: i64) -> Result<Vec<YearLesson>, Error> {
    let sql = sql!("SELECT class_set.id, class_id, class.name AS class_name, method, held_on,
                      created_by AS staff_id, staff.name AS staff_name,
                      (SELECT count(*) FROM bench WHERE bench.class_set_id = class_set.id) AS benches,
                      scheme_version_id,
                      (SELECT sum(marks) FROM marking_point
                       WHERE marking_point.scheme_version_id = class_set.scheme_version_id) AS full_marks,
                      nullif((SELECT count(*) FROM marking_point
                       WHERE marking_point.scheme_version_id = class_set.scheme_version_id), 0) AS points
               FROM class JOIN class_set ON class_set.class_id = class.id
               JOIN staff ON staff.id = created_by
               WHERE class.department_id = $1 AND school_year = $2
               ORDER BY held_on, class_set.id");
    query_as!(db, sql; school_year).fetch_all(db).await
}

/// Lists when the first sheet of each class's first lesson was first stored,
/// Unix ms: about when that class has its lesson.
pub async fn list_first_times(
    db: &mut Connection,
    school_year: i64,
) -> Result<Vec<(ClassId, i64)>, Error> {
    let sql = sql!("SELECT class_set.class_id, min(written_at) FROM class
               JOIN class_set ON class_set.class_id = class.id
               JOIN bench ON bench.class_set_id = class_set.id
               JOIN sheet ON sheet.bench_id = bench.id
               JOIN revision ON revision.sheet_id = sheet.id
               WHERE class.department_id = $1 AND school_year = $2
                     AND NOT EXISTS (SELECT 1 FROM class_set AS other WHERE other.class_id = class.id
                                     AND (other.held_on < class_set.held_on
                                          OR other.held_on = class_set.held_on AND other.id < class_set.id))
               GROUP BY class_set.class_id");
    query_as!(db, sql; school_year).fetch_all(db).await
}

/// The newest rows that bear on a year's sheets; 0 where there is none.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, sqlx::FromRow)]
pub struct Newest {
    pub bench: i64,
    pub revision: i64,
    /// Of the decisions on its sheets.
    pub decision: i64,
    /// Of the marks of its sheets.
    pub mark: i64,
}

/// Returns the newest rows that bear on a year's sheets.
pub async fn get_newest(db: &mut Connection, school_year: i64) -> Result<Newest, Error> {
    let sql = sql!("SELECT coalesce(max(bench.id), 0) AS bench,
                      coalesce(max((SELECT max(id) FROM revision WHERE sheet_id = sheet.id)), 0) AS revision,
                      coalesce(max((SELECT max(id) FROM decision WHERE sheet_id = sheet.id)), 0) AS decision,
                      coalesce(max((SELECT max(id) FROM mark WHERE sheet_id = sheet.id)), 0) AS mark
               FROM class JOIN class_set ON class_set.class_id = class.id
               JOIN bench ON bench.class_set_id = class_set.id
               JOIN sheet ON sheet.bench_id = bench.id
               WHERE class.department_id = $1 AND school_year = $2");
    query_as!(db, sql; school_year).fetch_one(db).await
}

/// Returns the newest rows of the file, whichever department's they are:
/// numbers that say nothing of another department but that it is there.
pub async fn get_newest_of_file(db: &mut Connection) -> Result<Newest, Error> {
    let sql = sql!(
        "SELECT coalesce((SELECT max(id) FROM bench), 0) AS bench,
                      coalesce((SELECT max(id) FROM revision), 0) AS revision,
                      coalesce((SELECT max(id) FROM decision), 0) AS decision,
                      coalesce((SELECT max(id) FROM mark), 0) AS mark
               FROM department WHERE id = $1"
    );
    query_as!(db, sql).fetch_one(db).await
}

/// A sheet on which something is stored.
#[derive(Clone, Debug)]
pub struct YearSheet {
    pub id: SheetId,
    pub class_set_id: ClassSetId,
    /// Label of its group.
    pub label: String,
    /// The kit that it is tied to, if any.
    pub kit_id: Option<KitId>,
    /// Its newest revision.
    pub revision_id: RevisionId,
    /// Whether it was ever handed in.
    pub is_handed_in: bool,
    /// What its newest revision says; `None` where that is not kept.
    pub judged: Option<RevisionJudged>,
}

#[derive(sqlx::FromRow)]
struct YearRow {
    id: SheetId,
    class_set_id: ClassSetId,
    label: String,
    kit_id: Option<KitId>,
    revision_id: RevisionId,
    is_handed_in: bool,
    kit: Option<String>,
    speed: Option<f64>,
    expected: Option<f64>,
    uncertainty: Option<f64>,
    judgement: Option<String>,
}

/// Returns the sheets of a school year on which something is stored, by lesson
/// and label, with the judgements that this version of the analysis made.
pub async fn list_sheets(
    db: &mut Connection,
    school_year: i64,
    version: &str,
) -> Result<Vec<YearSheet>, Error> {
    let sql = sql!("SELECT sheet.id, bench.class_set_id, label, sheet.kit_id, revision.id AS revision_id,
                      revision.kind = 'handed_in' OR EXISTS (SELECT 1 FROM revision AS earlier
                        WHERE earlier.sheet_id = sheet.id AND earlier.kind = 'handed_in') AS is_handed_in,
                      judgement.kit, speed, expected, uncertainty, judgement.body AS judgement
               FROM class JOIN class_set ON class_set.class_id = class.id
               JOIN bench ON bench.class_set_id = class_set.id
               JOIN sheet ON sheet.bench_id = bench.id
               JOIN revision ON revision.sheet_id = sheet.id AND revision.version = sheet.version
               LEFT JOIN judgement ON judgement.revision_id = revision.id AND judgement.version = $3
               WHERE class.department_id = $1 AND school_year = $2
               ORDER BY held_on, class_set.id, label");
    let rows: Vec<YearRow> = query_as!(db, sql; school_year, version)
        .fetch_all(db)
        .await?;
    Ok(rows.into_iter().map(YearSheet::from).collect())
}

impl From<YearRow> for YearSheet {
    fn from(row: YearRow) -> Self {
        let judged = row.kit.zip(row.judgement).and_then(|(kit, body)| {
            judgement::read(kit, [row.speed, row.expected, row.uncertainty], &body)
        });
        Self {
            id: row.id,
            class_set_id: row.class_set_id,
            label: row.label,
            kit_id: row.kit_id,
            revision_id: row.revision_id,
            is_handed_in: row.is_handed_in,
            judged,
        }
    }
}

/// A decision that holds on one of the year's sheets.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct YearDecision {
    pub sheet_id: SheetId,
    #[sqlx(flatten)]
    pub flag: FlagKey,
    /// What was decided.
    pub verdict: Verdict,
    /// The revision that was on the screen.
    pub revision_id: RevisionId,
}

/// Returns the decisions that hold on the year's sheets: for each slip the
/// newest, oldest first.
pub async fn list_decisions(
    db: &mut Connection,
    school_year: i64,
) -> Result<Vec<YearDecision>, Error> {
    let sql = sql!(
        "SELECT sheet_id, step, slip, row_label, verdict, revision_id FROM decision
               WHERE id IN (SELECT max(decision.id)
                            FROM class JOIN class_set ON class_set.class_id = class.id
                            JOIN bench ON bench.class_set_id = class_set.id
                            JOIN sheet ON sheet.bench_id = bench.id
                            JOIN decision ON decision.sheet_id = sheet.id
                            WHERE class.department_id = $1 AND school_year = $2
                            GROUP BY decision.sheet_id, step, slip, row_label)
               ORDER BY id"
    );
    query_as!(db, sql; school_year).fetch_all(db).await
}

/// The marks of one sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, sqlx::FromRow)]
pub struct YearMark {
    pub sheet_id: SheetId,
    /// Marks awarded so far, on the points of its class set's scheme.
    pub awarded: i64,
    pub points: i64,
}

/// Returns the marks that stand on the year's sheets, by the scheme and
/// version that each class set is marked with.
pub async fn list_marks(db: &mut Connection, school_year: i64) -> Result<Vec<YearMark>, Error> {
    let sql = sql!(
        "WITH newest AS (
                   SELECT max(mark.id) AS id
                   FROM class JOIN class_set ON class_set.class_id = class.id
                   JOIN scheme_version AS present ON present.id = class_set.scheme_version_id
                   JOIN bench ON bench.class_set_id = class_set.id
                   JOIN sheet ON sheet.bench_id = bench.id
                   JOIN mark ON mark.sheet_id = sheet.id
                   JOIN marking_point ON marking_point.id = mark.marking_point_id
                   JOIN scheme_version ON scheme_version.id = marking_point.scheme_version_id
                   JOIN marking_point AS asked ON asked.scheme_version_id = present.id
                                               AND asked.key = marking_point.key
                   WHERE class.department_id = $1 AND school_year = $2
                         AND scheme_version.scheme_id = present.scheme_id
                   GROUP BY mark.sheet_id, marking_point.key)
               SELECT sheet_id, coalesce(sum(awarded), 0) AS awarded, count(awarded) AS points
               FROM newest JOIN mark ON mark.id = newest.id GROUP BY sheet_id"
    );
    query_as!(db, sql; school_year).fetch_all(db).await
}

/// A comparison to keep.
#[derive(Clone, Debug)]
pub struct NewSummary {
    /// The calendar year in which the school year starts.
    pub school_year: i64,
    /// Digest of what it was made from.
    pub state: String,
    /// The figures.
    pub comparison: Comparison,
}

/// Returns the comparison that is kept of a year, if it was made from this
/// state and can be read.
pub async fn find_summary(
    db: &mut Connection,
    school_year: i64,
    state: &str,
) -> Result<Option<Comparison>, Error> {
    let sql = sql!(
        "SELECT body FROM year_summary WHERE department_id = $1 AND school_year = $2 AND state = $3"
    );
    let body: Option<String> = query_scalar!(db, sql; school_year, state)
        .fetch_optional(db)
        .await?;
    Ok(body.and_then(|body| serde_json::from_str(&body).ok()))
}

/// Keeps a comparison in the place of the one before.
pub async fn keep_summary(db: &mut Writing, new: &NewSummary, made_at: i64) -> Result<(), Error> {
    let sql = sql!("INSERT INTO year_summary (department_id, school_year, state, body, made_at) VALUES ($1, $2, $3, $4, $5)
               ON CONFLICT (department_id, school_year) DO UPDATE
               SET state = excluded.state, body = excluded.body, made_at = excluded.made_at");
    query!(db, sql; new.school_year, &new.state, serde_json::to_string(&new.comparison)?, made_at)
        .run(db)
        .await
}
