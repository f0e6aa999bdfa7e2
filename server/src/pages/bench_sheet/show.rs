//! Showing the sheet as it is stored.

use analysis::sheet::Sheet;
use axum::response::{IntoResponse, Redirect};

use super::boxes::Remarks;
use super::form::SheetForm;
use super::lines::table;
use super::look_again;
use super::page::SheetPage;
use crate::acts::{NoDraft, OpenDraft};
use crate::db::revision::{self, Kind, Revision};
use crate::db::{draft, kit};
use crate::pages::feedback;
use crate::pages::front::{AtBench, OwnBench};
use crate::table::PageTable;
use crate::web::error::{AppError, Reply};
use crate::web::layout::{Layout, Page};
use crate::web::state::AppState;

/// Shows the sheet, to write on while the class set is open and to read
/// afterwards.
pub(super) async fn get(state: AppState, own: OwnBench) -> Reply {
    if !own.0.class_set.is_open() {
        return read(&state, &own.0).await;
    }
    // The draft comes before the contents: if somebody stores in between, the
    // contents are newer than the draft says, and sending them asks once too
    // often. The other way round it would overwrite without asking.
    match open_draft(&state, &own).await? {
        Ok(draft) => write(&state, &own.0, draft).await,
        Err(NoDraft::Closed) => read(&state, &own.0).await,
        Err(NoDraft::Left) => Ok(Redirect::to(&own.0.way_in()).into_response()),
    }
}

async fn write(state: &AppState, at: &AtBench, draft: String) -> Reply {
    let mut db = state.store.reader(at.department).await?;
    let latest = revision::find_latest(&mut db, at.bench.sheet_id).await?;
    let kits = kit::list(&mut db).await?;
    drop(db);
    let form = SheetForm::of_entry(
        at.class_set.method()?,
        latest.as_ref().map(|r| &r.entry),
        draft,
    );
    let (entry, places) = form.entry();
    let questions = Sheet::check(&entry.sheet)
        .map(|s| s.questions())
        .unwrap_or_default();
    let remarks = Remarks::placed(Vec::new(), questions, &places);
    let mut page = SheetPage::new(at, form, &remarks, &kits);
    page.receipt = latest.map(|r| receipt(state, at, &r));
    page.may_look_again = look_again::is_allowed(state, at).await?;
    page.has_feedback = feedback::is_out(state, at).await?;
    Ok(Page(page).into_response())
}

/// Returns the key of an open draft: one that there is, without waiting for
/// the writer, or a new one.
async fn open_draft(state: &AppState, own: &OwnBench) -> Result<Result<String, NoDraft>, AppError> {
    let OwnBench(at, visit) = own;
    let mut db = state.reader(own).await?;
    let found = draft::find_open(&mut db, at.bench.sheet_id, *visit).await?;
    drop(db);
    Ok(match found {
        Some(open) => Ok(open),
        None => state.act(own, OpenDraft).await?,
    })
}

/// Says what is kept and since when. Everything that it speaks of is on disk.
fn receipt(state: &AppState, at: &AtBench, latest: &Revision) -> String {
    let say = at.say;
    let when = say.when(&state.zone, latest.written_at, state.clock.now());
    match (latest.kind, at.bench.handed_in_at) {
        (Kind::HandedIn, _) => say.sheet_handed_in(when),
        (Kind::Saved, None) => say.sheet_saved(when),
        (Kind::Saved, Some(_)) => say.sheet_saved_after(when),
    }
}

#[derive(askama::Template)]
#[template(path = "bench_sheet/closed.html")]
struct ClosedPage {
    layout: Layout,
    code: String,
    label: String,
    practical: &'static str,
    class_name: String,
    /// Date of the lesson, spelt out.
    date: String,
    receipt: Option<String>,
    /// Whether the group can read its marks.
    has_feedback: bool,
    /// `None` where nothing is stored.
    typed: Option<PageTable>,
}

async fn read(state: &AppState, at: &AtBench) -> Reply {
    let latest = revision::find_latest(
        &mut state.store.reader(at.department).await?,
        at.bench.sheet_id,
    )
    .await?;
    let page = ClosedPage {
        layout: Layout::public(at.say),
        code: at.class_set.join_code.clone(),
        label: at.bench.label.clone(),
        practical: at.say.method(at.class_set.method()?),
        class_name: at.class_set.class_name.clone(),
        date: at.say.date(&at.class_set.held_on),
        typed: latest
            .as_ref()
            .map(|r| table(at.say, &r.entry, at.say.sheet_stored()))
            .filter(|typed| !typed.is_empty()),
        receipt: latest.map(|r| receipt(state, at, &r)),
        has_feedback: feedback::is_out(state, at).await?,
    };
    Ok(Page(page).into_response())
}
