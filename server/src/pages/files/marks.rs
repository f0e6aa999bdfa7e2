//! The marks of a class set, as its file has them.

use std::collections::HashMap;

use crate::clock::Zone;
use crate::db::revision;
use crate::db::scheme::MarkingPoint;
use crate::error::AppError;
use crate::files::marks::{self, Group, Mark, Point};
use crate::ids::{ClassSetId, RevisionId};
use crate::report::desk::{PointStanding, first};
use crate::session::SignedIn;
use crate::state::AppState;

/// The marks file.
pub(super) async fn csv(
    state: &AppState,
    by: &SignedIn,
    id: ClassSetId,
) -> Result<Vec<u8>, AppError> {
    let mut db = state.reader(by).await?;
    let desk = first::load(&mut db, id, None).await?;
    let versions = revision::list_versions(&mut db, id).await?;
    drop(db);
    let versions: HashMap<RevisionId, i64> = versions.into_iter().collect();
    let sheets = desk.sheets.iter();
    let groups: Vec<_> = sheets
        .map(|sheet| Group {
            label: sheet.label.clone(),
            points: desk
                .points
                .iter()
                .zip(&sheet.marks.points)
                .map(|(point, standing)| self::point(point, standing, &versions, &state.zone))
                .collect(),
        })
        .collect();
    let mut csv = Vec::new();
    let class = &desk.class_set.class_name;
    marks::write(&mut csv, class, &groups).map_err(AppError::internal)?;
    Ok(csv)
}

fn point(
    point: &MarkingPoint,
    standing: &PointStanding,
    versions: &HashMap<RevisionId, i64>,
    zone: &Zone,
) -> Point {
    let mark = standing.mark.as_ref().map(|mark| Mark {
        awarded: mark.awarded,
        reason: mark.reason.clone(),
        by: mark.by.clone(),
        at: zone.stamp(mark.marked_at),
        revision: mark.revision_id.and_then(|id| versions.get(&id).copied()),
        is_on_earlier_revision: standing.is_on_earlier_revision,
        has_point_changed: standing.is_of_earlier_version,
    });
    let now = standing.suggestion.as_ref().map(|s| i64::from(s.marks));
    Point {
        number: point.number,
        title: point.point.title.clone(),
        marks: i64::from(point.point.marks),
        suggested: match &standing.mark {
            Some(mark) => mark.suggested,
            None => now,
        },
        mark,
    }
}
