//! Mark schemes: the list, one version to read, and the form that makes the
//! next.

mod copy;
mod edit;
mod form;
mod list;
mod show;

use crate::db::scheme::Scheme;
use crate::db::{Connection, Error, scheme};
use crate::ids::SchemeId;
use crate::pages::access::Access::Staff;
use crate::pages::access::Routes;
use crate::web::error::AppError;
use crate::words::refusal;

/// Longest form of a mark scheme: forty points with all that may stand in
/// each.
const LONGEST_SCHEME: usize = 1024 * 1024;

pub(super) fn routes() -> Routes {
    Routes::default()
        .get("/schemes/{id}/edit", Staff, edit::get)
        .post("/schemes/{id}/edit", Staff, edit::post)
        .with_longest_body(LONGEST_SCHEME)
        .get("/schemes", Staff, list::get)
        .get("/schemes/{id}", Staff, show::get)
        .get("/schemes/{id}/versions/{number}", Staff, show::version)
        .post("/schemes/{id}/copy", Staff, copy::post)
        .post("/schemes/{id}/retire", Staff, copy::retire)
}

const NO_SUCH: AppError = AppError::NotFound(refusal::NO_SCHEME);

/// Finds a scheme, with its newest version.
async fn find(db: &mut Connection, id: SchemeId) -> Result<Scheme, AppError> {
    scheme::find(db, id).await?.ok_or(NO_SUCH)
}

/// Says of an act on a scheme what went wrong.
fn no_such(error: Error) -> AppError {
    match error {
        Error::NoSuch => NO_SUCH,
        other => other.into(),
    }
}
