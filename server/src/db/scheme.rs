//! Mark schemes: what is marked, in versions that are never changed.

use analysis::method::Method;
use analysis::scheme::{Answer, Check, Judged, Level, Point};

use super::class_set::ClassSet;
use super::{Connection, Error, Writing, found};
use crate::ids::{MarkingPointId, SchemeId, SchemeVersionId, StaffId};

/// A scheme with what its newest version holds.
#[derive(Clone, Debug, sqlx::FromRow)]
pub struct Scheme {
    pub id: SchemeId,
    /// Code of the method.
    pub method: String,
    /// What staff call it.
    pub name: String,
    /// Whether it is no more offered for new class sets.
    pub is_retired: bool,
    /// Its newest version.
    pub version_id: SchemeVersionId,
    /// Number of that version.
    pub number: i64,
    pub points: i64,
    pub marks: i64,
}

#[derive(Clone, Debug, sqlx::FromRow)]
pub struct Version {
    pub id: SchemeVersionId,
    pub scheme_id: SchemeId,
    pub name: String,
    /// Code of the method.
    pub method: String,
    /// Counts up from 1 within the scheme.
    pub number: i64,
    /// Who made it; `None` where it came with the program.
    pub by: Option<String>,
    /// Unix ms.
    pub made_at: i64,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MarkingPoint {
    /// Its id, of this version alone.
    pub id: MarkingPointId,
    /// The same for the same point in every version of the scheme.
    pub key: i64,
    /// Its place in the list, from 1.
    pub number: i64,
    /// What it asks.
    pub point: Point,
}

/// A point to write down. One without a key is new to the scheme.
#[derive(Clone, Debug)]
pub struct NewPoint {
    /// The key that it had in the version before.
    pub key: Option<i64>,
    /// What it asks.
    pub point: Point,
}

/// Returns all schemes by method and name, each with its newest version.
pub async fn list(db: &mut Connection) -> Result<Vec<Scheme>, Error> {
    let sql = sql!("SELECT scheme.id, method, name, is_retired, scheme_version.id AS version_id, scheme_version.number,
                      count(marking_point.id) AS points, coalesce(sum(marks), 0) AS marks
               FROM scheme
               JOIN scheme_version ON scheme_version.id =
                   (SELECT max(id) FROM scheme_version WHERE scheme_id = scheme.id)
               LEFT JOIN marking_point ON scheme_version_id = scheme_version.id
               WHERE department_id = $1
               GROUP BY scheme.id, scheme_version.id ORDER BY method, name");
    query_as!(db, sql).fetch_all(db).await
}

/// Finds a scheme, with its newest version.
pub async fn find(db: &mut Connection, id: SchemeId) -> Result<Option<Scheme>, Error> {
    let mut schemes = list(db).await?.into_iter();
    Ok(schemes.find(|scheme| scheme.id == id))
}

/// Returns the versions of a scheme, newest first.
pub async fn list_versions(db: &mut Connection, scheme: SchemeId) -> Result<Vec<Version>, Error> {
    let sql = sql!("SELECT scheme_version.id, scheme_id, scheme.name, method, number, staff.name AS \"by\", scheme_version.made_at
               FROM scheme_version JOIN scheme ON scheme.id = scheme_id
               LEFT JOIN staff ON staff.id = staff_id
               WHERE scheme.department_id = $1 AND scheme_id = $2 ORDER BY number DESC");
    query_as!(db, sql; scheme).fetch_all(db).await
}

/// Returns one version.
///
/// # Errors
/// `RowNotFound` when there is none.
pub async fn get_version(db: &mut Connection, id: SchemeVersionId) -> Result<Version, Error> {
    let sql = sql!("SELECT scheme_version.id, scheme_id, scheme.name, method, number, staff.name AS \"by\", scheme_version.made_at
               FROM scheme_version JOIN scheme ON scheme.id = scheme_id
               LEFT JOIN staff ON staff.id = staff_id
               WHERE scheme.department_id = $1 AND scheme_version.id = $2");
    query_as!(db, sql; id).fetch_one(db).await
}

/// Returns the version that a class set is marked with. Where nobody chose
/// one, it is the newest of the oldest scheme of its method that is still
/// offered.
///
/// # Errors
/// `RowNotFound` when every scheme of the method is retired.
pub async fn get_of_class_set(
    db: &mut Connection,
    class_set: &ClassSet,
) -> Result<SchemeVersionId, Error> {
    if let Some(chosen) = class_set.scheme_version_id {
        return Ok(chosen);
    }
    let sql = sql!("SELECT max(scheme_version.id) FROM scheme_version WHERE scheme_id =
                   (SELECT min(id) FROM scheme WHERE department_id = $1 AND method = $2 AND is_retired = 0)");
    let id: Option<SchemeVersionId> = query_scalar!(db, sql; &class_set.method)
        .fetch_one(db)
        .await?;
    id.ok_or_else(|| sqlx::Error::RowNotFound.into())
}

#[derive(sqlx::FromRow)]
struct PointRow {
    id: MarkingPointId,
    key: i64,
    number: i64,
    title: String,
    guidance: String,
    marks: i64,
    check_code: Option<String>,
    answer: Option<String>,
    levels: String,
}

/// Returns the points of a version, in order.
///
/// # Errors
/// When the query fails, or a point names a check that this program does not
/// know.
pub async fn list_points(
    db: &mut Connection,
    version: SchemeVersionId,
) -> Result<Vec<MarkingPoint>, Error> {
    let sql = sql!("SELECT id, key, number, title, guidance, marks, check_code, answer, levels
               FROM marking_point WHERE scheme_version_id = (SELECT id FROM own_version WHERE id = $2 AND department_id = $1) ORDER BY number");
    let rows: Vec<PointRow> = query_as!(db, sql; version).fetch_all(db).await?;
    rows.into_iter().map(MarkingPoint::try_from).collect()
}

impl TryFrom<PointRow> for MarkingPoint {
    type Error = Error;

    fn try_from(row: PointRow) -> Result<Self, Error> {
        let unknown = || Error::Sql(sqlx::Error::Decode("unknown check or answer".into()));
        let judged = match (&row.check_code, &row.answer) {
            (Some(code), _) => Judged::ByCheck(Check::from_code(code).ok_or_else(unknown)?),
            (None, Some(code)) => Judged::ByEye(Some(Answer::from_code(code).ok_or_else(unknown)?)),
            (None, None) => Judged::ByEye(None),
        };
        let levels: Vec<Level> = serde_json::from_str(&row.levels)?;
        Ok(Self {
            id: row.id,
            key: row.key,
            number: row.number,
            point: Point {
                title: row.title,
                guidance: row.guidance,
                marks: u32::try_from(row.marks).map_err(|_| unknown())?,
                judged,
                levels,
            },
        })
    }
}

/// Makes a scheme without any version.
///
/// # Errors
/// When the query fails, or the method has a scheme of this name already.
pub async fn insert(db: &mut Writing, method: Method, name: &str) -> Result<SchemeId, Error> {
    let sql =
        sql!("INSERT INTO scheme (department_id, method, name) VALUES ($1, $2, $3) RETURNING id");
    query_scalar!(db, sql; method.code(), name)
        .fetch_one(db)
        .await
}

/// Adds a version to a scheme. Points that are new to it get keys of their
/// own. Nobody made the one that comes with the program.
pub async fn insert_version(
    db: &mut Writing,
    scheme: SchemeId,
    points: &[NewPoint],
    staff: Option<StaffId>,
    now: i64,
) -> Result<SchemeVersionId, Error> {
    let sql = sql!("INSERT INTO scheme_version (scheme_id, number, staff_id, made_at)
               SELECT (SELECT id FROM scheme WHERE id = $2 AND department_id = $1), coalesce(max(number), 0) + 1, $3, $4 FROM scheme_version WHERE scheme_id = $2
               RETURNING id");
    let version: SchemeVersionId = query_scalar!(db, sql; scheme, staff, now)
        .fetch_one(&mut *db)
        .await?;
    let sql = sql!("SELECT coalesce(max(key), 0) FROM marking_point
               JOIN scheme_version ON scheme_version.id = scheme_version_id WHERE scheme_id = (SELECT id FROM scheme WHERE id = $2 AND department_id = $1)");
    let mut last_key: i64 = query_scalar!(db, sql; scheme).fetch_one(&mut *db).await?;
    for (number, new) in (1_i64..).zip(points) {
        let key = new.key.unwrap_or_else(|| {
            last_key += 1;
            last_key
        });
        insert_point(db, version, key, number, &new.point).await?;
    }
    Ok(version)
}

async fn insert_point(
    db: &mut Writing,
    version: SchemeVersionId,
    key: i64,
    number: i64,
    point: &Point,
) -> Result<(), Error> {
    let (check, answer) = match point.judged {
        Judged::ByCheck(check) => (Some(check.code()), None),
        Judged::ByEye(answer) => (None, answer.map(Answer::code)),
    };
    let sql = sql!("INSERT INTO marking_point (scheme_version_id, key, number, title, guidance, marks, check_code, answer, levels)
               VALUES ((SELECT id FROM own_version WHERE id = $2 AND department_id = $1), $3, $4, $5, $6, $7, $8, $9, $10)");
    query!(db, sql;
        version, key, number, &point.title, &point.guidance, i64::from(point.marks), check,
        answer, serde_json::to_string(&point.levels)?)
    .run(db)
    .await
}

/// Offers a scheme no more for new class sets, or again.
///
/// # Errors
/// [`Error::NoSuch`] when there is none.
pub async fn retire(db: &mut Writing, id: SchemeId, is_retired: bool) -> Result<(), Error> {
    let sql = sql!("UPDATE scheme SET is_retired = $3 WHERE id = $2 AND department_id = $1");
    let done = query!(db, sql; id, is_retired).execute(db).await?;
    found(done)
}

/// Gives every method that has no scheme at all the one that comes with the
/// program.
pub async fn insert_house(db: &mut Writing) -> Result<(), Error> {
    for method in Method::ALL {
        let sql = sql!("SELECT count(*) FROM scheme WHERE department_id = $1 AND method = $2");
        let schemes: i64 = query_scalar!(db, sql; method.code())
            .fetch_one(&mut *db)
            .await?;
        if schemes > 0 {
            continue;
        }
        let scheme_id = insert(db, method, "Twenty marks").await?;
        let points = crate::words::house::scheme(method).into_iter();
        let points = points.map(|point| NewPoint { key: None, point });
        insert_version(db, scheme_id, &points.collect::<Vec<_>>(), None, 0).await?;
    }
    Ok(())
}
