//! Marking: where a pile stands, sheet by sheet, point by point, undo.

mod award;
mod batch;
mod comments;
mod given;
mod note;
mod overview;
mod point;
mod point_view;
mod scheme;
mod sheet;
mod undo;

use crate::access::Access::{NotBlind, Staff};
use crate::access::Routes;
use crate::error::AppError;
use crate::ids::ClassSetId;
use crate::report::inference::keep;
use crate::report::marking::{MarkingReport, load};
use crate::state::AppState;

pub(super) fn routes() -> Routes {
    Routes::default()
        .get("/comments", Staff, comments::get)
        .post("/comments", Staff, comments::post)
        .post("/comments/retire", Staff, comments::retire)
        .get("/class-sets/{id}/marking", NotBlind, overview::get)
        .post("/class-sets/{id}/marking/scheme", NotBlind, scheme::post)
        .post("/class-sets/{id}/marking/undo", NotBlind, undo::post)
        .get(
            "/class-sets/{id}/marking/points/{key}",
            NotBlind,
            point::get,
        )
        .post(
            "/class-sets/{id}/marking/points/{key}/all",
            NotBlind,
            batch::point,
        )
        .get(
            "/class-sets/{id}/marking/sheets/{label}",
            NotBlind,
            sheet::get,
        )
        .post(
            "/class-sets/{id}/marking/sheets/{label}/all",
            NotBlind,
            batch::sheet,
        )
        .post(
            "/class-sets/{id}/marking/sheets/{label}/holds",
            NotBlind,
            batch::still_holds,
        )
        .post(
            "/class-sets/{id}/marking/sheets/{label}/notes",
            NotBlind,
            note::post,
        )
        .post(
            "/class-sets/{id}/marking/sheets/{label}/withdraw",
            NotBlind,
            note::withdraw,
        )
        .post(
            "/class-sets/{id}/marking/sheets/{label}/award/{key}",
            NotBlind,
            award::post,
        )
}

/// A class set with its marks, or the refusal for one that is not there.
async fn find(state: &AppState, id: ClassSetId) -> Result<MarkingReport, AppError> {
    let mut db = state.store.reader(crate::ids::DEPARTMENT).await?;
    let mut report = load(&mut db, id).await?;
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
