//! For a group that has lost its come-back number: the teacher makes a new
//! one and reads it to the group.

use axum::extract::Path;
use axum::response::IntoResponse;

use crate::acts::{NoNumberYet, RenewNumber};
use crate::db::bench::{self, Bench};
use crate::db::class_set::{self, ClassSet};
use crate::ids::ClassSetId;
use crate::secret;
use crate::web::error::{AppError, Reply};
use crate::web::layout::{Layout, Page};
use crate::web::session::{SignedIn, StaffForm};
use crate::web::state::AppState;
use crate::words::refusal;

/// A bench that nobody chose has no number to lose.
const NO_NUMBER_YET: AppError = AppError::BadRequest(refusal::NO_NUMBER_YET);

#[derive(askama::Template)]
#[template(path = "class_set/new_number.html")]
struct NewNumberPage {
    layout: Layout,
    class_set: ClassSet,
    label: String,
    /// Four figures, shown this once; `None` while it is only asked about.
    number: Option<String>,
}

/// Asks first: the old number stops working.
pub(super) async fn get(
    state: AppState,
    by: SignedIn,
    Path((id, label)): Path<(ClassSetId, String)>,
) -> Reply {
    let (class_set, bench) = find(&state, &by, id, &label).await?;
    if bench.come_back_hash.is_none() {
        return Err(NO_NUMBER_YET);
    }
    Ok(Page(NewNumberPage {
        layout: by.layout,
        class_set,
        label: bench.label,
        number: None,
    })
    .into_response())
}

/// Makes the number, ends every visit to the bench (somebody who does not
/// belong there may hold one), and shows the number this once.
pub(super) async fn post(
    state: AppState,
    Path((id, label)): Path<(ClassSetId, String)>,
    form: StaffForm,
) -> Reply {
    let (class_set, bench) = find(&state, &form.by, id, &label).await?;
    let number = secret::come_back_number();
    let act = RenewNumber {
        class_set: id,
        label,
        number_hash: state.passwords.hash(number.clone()).await?,
    };
    let renewed = state.act(&form.by, act).await?;
    renewed.map_err(|NoNumberYet| NO_NUMBER_YET)?;
    Ok(Page(NewNumberPage {
        layout: form.by.layout,
        class_set,
        label: bench.label,
        number: Some(number),
    })
    .into_response())
}

async fn find(
    state: &AppState,
    by: &SignedIn,
    id: ClassSetId,
    label: &str,
) -> Result<(ClassSet, Bench), AppError> {
    let mut db = state.reader(by).await?;
    let class_set = class_set::get(&mut db, id).await?;
    let bench = bench::find(&mut db, id, label).await?;
    let bench = bench.ok_or(AppError::NotFound(refusal::NO_BENCH))?;
    Ok((class_set, bench))
}
