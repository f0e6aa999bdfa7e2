//! Marking: where a pile stands, sheet by sheet, point by point, undo.

mod award;
mod batch;
pub mod comments;
mod given;
mod note;
mod overview;
mod point;
mod point_view;
mod scheme;
mod sheet;
mod undo;

pub use award::post as award;
pub use batch::{point as award_point, sheet as award_sheet, still_holds};
pub use note::{post as note, withdraw};
pub use overview::get as overview;
pub use point::get as point;
pub use scheme::post as scheme;
pub use sheet::get as sheet;
pub use undo::post as undo;

use crate::error::AppError;
use crate::ids::ClassSetId;
use crate::report::inference::keep;
use crate::report::marking::{MarkingReport, load};
use crate::state::AppState;

/// A class set with its marks, or the refusal for one that is not there.
async fn find(state: &AppState, id: i64) -> Result<MarkingReport, AppError> {
    let mut db = state.store.reader(crate::ids::DEPARTMENT).await?;
    let mut report = load(&mut db, ClassSetId(id)).await?;
    drop(db);
    if let Some(new) = report.class.to_keep.take() {
        keep(&state.store, new, state.clock.now());
    }
    Ok(report)
}

/// Where a bench stands among the groups of a report.
fn bench(report: &MarkingReport, label: &str) -> Result<usize, AppError> {
    let mut groups = report.class.groups.iter();
    groups
        .position(|group| group.bench.label == label)
        .ok_or(AppError::NotFound(
            "There is no bench with this letter in the class set.",
        ))
}

/// Where a point stands among those of the scheme.
fn place(report: &MarkingReport, key: i64) -> Result<usize, AppError> {
    let mut points = report.points.iter();
    points
        .position(|point| point.key == key)
        .ok_or(AppError::NotFound("There is no such point in this scheme."))
}
