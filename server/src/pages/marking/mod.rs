//! Marking: where a pile stands, sheet by sheet, point by point, undo.

mod award;
mod comments;
mod note;
mod overview;
mod point;
mod sheet;

use crate::ids::ClassSetId;
use crate::pages::access::Access::{NotBlind, Staff};
use crate::pages::access::Routes;
use crate::report::desk::{Desk, first};
use crate::web::error::AppError;
use crate::web::session::SignedIn;
use crate::web::state::AppState;
use crate::words::refusal;

pub(super) fn routes() -> Routes {
    Routes::default()
        .get("/comments", Staff, comments::get)
        .post("/comments", Staff, comments::post)
        .post("/comments/retire", Staff, comments::retire)
        .get("/class-sets/{id}/marking", NotBlind, overview::get)
        .post("/class-sets/{id}/marking/scheme", NotBlind, overview::post)
        .post("/class-sets/{id}/marking/undo", NotBlind, award::undo)
        .get(
            "/class-sets/{id}/marking/points/{key}",
            NotBlind,
            point::get,
        )
        .post(
            "/class-sets/{id}/marking/points/{key}/all",
            NotBlind,
            award::point,
        )
        .get(
            "/class-sets/{id}/marking/sheets/{label}",
            NotBlind,
            sheet::get,
        )
        .post(
            "/class-sets/{id}/marking/sheets/{label}/all",
            NotBlind,
            award::sheet,
        )
        .post(
            "/class-sets/{id}/marking/sheets/{label}/holds",
            NotBlind,
            award::still_holds,
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

const NO_BENCH: AppError = AppError::NotFound(refusal::NO_BENCH);

/// Returns the first markers' desk of a class set.
async fn find(state: &AppState, by: &SignedIn, id: ClassSetId) -> Result<Desk, AppError> {
    Ok(first::load(&mut state.reader(by).await?, id, None).await?)
}

/// Returns where a bench stands on a desk.
fn bench(desk: &Desk, label: &str) -> Result<usize, AppError> {
    desk.sheet(label).ok_or(NO_BENCH)
}

/// Returns where a point stands among those of the scheme.
fn place(desk: &Desk, key: i64) -> Result<usize, AppError> {
    let none = AppError::NotFound(refusal::NO_POINT_IN_SCHEME);
    desk.point(key).ok_or(none)
}
