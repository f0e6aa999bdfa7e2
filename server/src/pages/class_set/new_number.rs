//! For a group that has lost its come-back number: the teacher makes a new
//! one and reads it to the group.

use axum::extract::{Path, State};
use axum::response::{IntoResponse, Response};

use crate::db::bench::{self, Bench};
use crate::db::class_set::{self, ClassSet};
use crate::db::event::{self, NewEvent};
use crate::db::{Store, visit};
use crate::error::AppError;
use crate::ids::{BenchId, ClassSetId, StaffId};
use crate::layout::{Layout, Page};
use crate::secret;
use crate::session::{SignedIn, StaffForm};
use crate::state::AppState;

/// A bench that nobody chose has no number to lose.
const NO_NUMBER_YET: AppError = AppError::BadRequest(
    "This bench has no number yet: it gets one when a group chooses it. Nothing was changed.",
);

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
    State(store): State<Store>,
    by: SignedIn,
    Path((id, label)): Path<(ClassSetId, String)>,
) -> Result<Response, AppError> {
    let (class_set, bench) = find(&store, id, &label).await?;
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
    State(state): State<AppState>,
    Path((id, label)): Path<(ClassSetId, String)>,
    form: StaffForm,
) -> Result<Response, AppError> {
    let (class_set, bench) = find(&state.store, id, &label).await?;
    let number = secret::come_back_number();
    let hash = state.passwords.hash(number.clone()).await?;
    let done = Renewal {
        bench: bench.id,
        label: bench.label.clone(),
        class_set: class_set.id,
        hash,
        by: form.by.staff_id,
        at: state.clock.now(),
    };
    if !renew(&state, done).await? {
        return Err(NO_NUMBER_YET);
    }
    Ok(Page(NewNumberPage {
        layout: form.by.layout,
        class_set,
        label: bench.label,
        number: Some(number),
    })
    .into_response())
}

async fn find(store: &Store, id: ClassSetId, label: &str) -> Result<(ClassSet, Bench), AppError> {
    let mut db = store.reader(crate::ids::DEPARTMENT).await?;
    let class_set = class_set::get(&mut db, id).await?;
    let bench = bench::find(&mut db, id, label).await?;
    let bench = bench.ok_or(AppError::NotFound(
        "There is no bench with this letter in this class set.",
    ))?;
    Ok((class_set, bench))
}

/// What is to be written down.
struct Renewal {
    bench: BenchId,
    label: String,
    class_set: ClassSetId,
    hash: String,
    by: StaffId,
    at: i64,
}

/// False when the bench has no number to replace.
async fn renew(state: &AppState, done: Renewal) -> Result<bool, AppError> {
    let tell = state.changes.announcing(done.class_set);
    let written = state.store.writer().run_and_tell(tell, move |db| {
        Box::pin(async move {
            let is_renewed = bench::update_lost_come_back(db, done.bench, &done.hash).await?;
            if is_renewed {
                visit::update_all_left(db, done.bench).await?;
                let event = NewEvent {
                    at: done.at,
                    what: "number_renewed",
                    staff_id: Some(done.by),
                    class_set_id: Some(done.class_set),
                    detail: &done.label,
                };
                event::insert(db, &event).await?;
            }
            Ok(is_renewed)
        })
    });
    Ok(written.await?)
}
