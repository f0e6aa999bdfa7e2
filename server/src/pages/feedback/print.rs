//! Feedback sheets for the teacher: one to look at before it is out, all to print.

use axum::extract::Path;

use super::sheet_view::{SheetView, view};
use crate::db::class_set::{self, ClassSet};
use crate::db::release;
use crate::ids::ClassSetId;
use crate::report::feedback::{Feedback, load};
use crate::web::error::{AppError, Reply};
use crate::web::layout::{Layout, Page};
use crate::web::session::SignedIn;
use crate::web::state::AppState;
use crate::words::refusal;

#[derive(askama::Template)]
#[template(path = "feedback/print.html")]
struct PrintPage<'a> {
    layout: Layout,
    class_set: &'a ClassSet,
    sheets: Vec<SheetView<'a>>,
    is_released: bool,
}

async fn now(
    state: &AppState,
    by: &SignedIn,
    id: ClassSetId,
) -> Result<(ClassSet, Feedback, bool), AppError> {
    let mut db = state.reader(by).await?;
    let class_set = class_set::get(&mut db, id).await?;
    let is_out = release::find_out(&mut db, class_set.id).await?.is_some();
    let feedback = load(&mut db, &class_set, None).await?;
    Ok((class_set, feedback, is_out))
}

/// Shows every feedback sheet of the class set as it would be released now, a
/// side of paper each; benches without work and without marks have none.
pub(super) async fn all(state: AppState, by: SignedIn, Path(id): Path<ClassSetId>) -> Reply {
    let (class_set, feedback, is_released) = now(&state, &by, id).await?;
    let sheets = feedback.sheets.iter();
    let sheets = sheets.filter(|sheet| sheet.work.is_some() || sheet.marks.marked() > 0);
    let page = PrintPage {
        layout: by.layout,
        sheets: sheets
            .map(|sheet| view(state.say, &class_set, &feedback, sheet))
            .collect(),
        is_released,
        class_set: &class_set,
    };
    Page(page).reply()
}

/// Shows one feedback sheet as it would be released now.
pub(super) async fn one(
    state: AppState,
    by: SignedIn,
    Path((id, label)): Path<(ClassSetId, String)>,
) -> Reply {
    let (class_set, feedback, is_released) = now(&state, &by, id).await?;
    let mut sheets = feedback.sheets.iter();
    let sheet = sheets.find(|sheet| sheet.bench.label == label);
    let sheet = sheet.ok_or(AppError::NotFound(refusal::NO_BENCH))?;
    let page = PrintPage {
        layout: by.layout,
        sheets: vec![view(state.say, &class_set, &feedback, sheet)],
        is_released,
        class_set: &class_set,
    };
    Page(page).reply()
}
