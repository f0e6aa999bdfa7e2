//! Mark schemes: the list, one version to read, and the form that makes the
//! next.

mod copy;
mod edit;
mod form;
mod list;
mod show;

pub use copy::{copy, retire};
pub use edit::{get as edit, post as save};
pub use list::get as list;
pub use show::{get as show, version};

use crate::db::scheme::Scheme;
use crate::db::{Connection, scheme};
use crate::error::AppError;
use crate::ids::SchemeId;

/// A scheme with its newest version.
async fn find(db: &mut Connection, id: i64) -> Result<Scheme, AppError> {
    let schemes = scheme::list(db).await?;
    let mut schemes = schemes.into_iter();
    schemes
        .find(|scheme| scheme.id == SchemeId(id))
        .ok_or(AppError::NotFound("There is no such scheme."))
}
