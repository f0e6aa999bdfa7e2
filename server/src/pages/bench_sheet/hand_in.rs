//! Taking a sheet that was sent: more rows, save, or hand in.

use analysis::sheet::Sheet;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect};

use super::act::Act;
use super::boxes::Remarks;
use super::form::SheetForm;
use super::page::{Complaint, SheetPage};
use super::{conflict, look_again, not_kept, own_words};
use crate::acts::{self, Sent};
use crate::db::kit;
use crate::db::revision::{Entry, Kind};
use crate::pages::front::{AtBench, OwnBench};
use crate::web::error::{AppError, Reply};
use crate::web::form::Pairs;
use crate::web::layout::Page;
use crate::web::state::AppState;
use crate::words::Say;

/// Longest text of the boxes that hold no figure, in characters.
const LONGEST_WORDS: usize = 40;

/// Does what the button says. Whatever happens, what was typed comes back or
/// is on disk.
pub(super) async fn post(state: AppState, own: OwnBench, pairs: Pairs) -> Reply {
    let at = &own.0;
    let mut form = SheetForm::read(at.class_set.method()?, &pairs);
    let is_closed = !at.class_set.is_open();
    let kind = match form.act {
        Act::Save | Act::LookAgain => Kind::Saved,
        Act::HandIn => Kind::HandedIn,
        // Only the writer knows whether a hand-in is one that it has already.
        Act::AddRows | Act::Repeat(_) if is_closed => {
            return Ok(not_kept::closed(at, &form.entry().0));
        }
        Act::AddRows => {
            let ready = form.add_rows(2);
            return with_rows(&state, at, form, ready, at.say.sheet_add_rows_added()).await;
        }
        Act::Repeat(index) => {
            let ready = form.repeat(index);
            let sentence = repeated(at.say, &form, index, ready);
            return with_rows(&state, at, form, ready, sentence).await;
        }
    };
    let (entry, _) = form.entry();
    if is_refused(&form, &entry) {
        if is_closed {
            return Ok(not_kept::closed(at, &entry));
        }
        return again(&state, at, form, StatusCode::UNPROCESSABLE_ENTITY, None).await;
    }
    store(&state, &own, form, pairs, kind, entry).await
}

fn repeated(say: Say, form: &SheetForm, index: usize, ready: Option<usize>) -> String {
    let label = |row: usize| form.rows.get(row).map_or("", |r| r.label.as_str());
    ready.map_or_else(String::new, |ready| {
        say.sheet_repeat_ready(label(ready), label(index))
    })
}

/// Shows the page with a row ready to be typed in.
async fn with_rows(
    state: &AppState,
    at: &AtBench,
    form: SheetForm,
    ready: Option<usize>,
    sentence: String,
) -> Reply {
    let mut page = filled(state, at, form, StatusCode::OK).await?;
    match ready {
        Some(row) => page.make_ready(row, sentence),
        None => page.notice = Some(at.say.sheet_add_rows_full()),
    }
    Ok(Page(page).into_response())
}

fn is_refused(form: &SheetForm, entry: &Entry) -> bool {
    let is_empty_hand_in = form.act == Act::HandIn && entry.is_blank();
    is_empty_hand_in
        || is_long(&form.kit)
        || is_long(&form.shared)
        || own_words::are_wrong(&form.answers)
        || Sheet::check(&entry.sheet).is_err()
}

/// Says what is wrong with the text for the kit.
pub(in crate::pages) fn wrong_kit(say: Say, kit: &str) -> Option<String> {
    is_long(kit).then(|| say.sheet_kit_long())
}

/// Says what is wrong with the text that says whose readings they are.
pub(in crate::pages) fn wrong_shared(say: Say, shared: &str) -> Option<String> {
    is_long(shared).then(|| say.sheet_shared_long())
}

fn is_long(words: &str) -> bool {
    words.chars().count() > LONGEST_WORDS
}

async fn store(
    state: &AppState,
    own: &OwnBench,
    mut form: SheetForm,
    pairs: Pairs,
    kind: Kind,
    entry: Entry,
) -> Reply {
    let at = &own.0;
    let draft = form.draft.clone();
    let act = acts::HandIn { draft, kind, entry };
    match state.act(own, act).await? {
        Sent::Kept(_) => {
            let goes_on = form.act == Act::LookAgain && look_again::is_allowed(state, at).await?;
            let next = if goes_on {
                look_again::url(at)
            } else {
                at.url()
            };
            Ok(Redirect::to(&next).into_response())
        }
        Sent::Conflict { stored, draft } => {
            let when = at
                .say
                .when(&state.zone, stored.written_at, state.clock.now());
            Ok(conflict::page(at, &form, pairs, &stored, &when, draft))
        }
        Sent::UnknownDraft { draft } => {
            form.draft = draft;
            let notice = at.say.sheet_too_old();
            again(state, at, form, StatusCode::CONFLICT, Some(notice)).await
        }
        Sent::Closed => Ok(not_kept::closed(at, &form.entry().0)),
        Sent::Left => Ok(not_kept::number_first(at, &form.entry().0)),
    }
}

/// Shows the page with everything typed in it, as a response.
async fn again(
    state: &AppState,
    at: &AtBench,
    form: SheetForm,
    status: StatusCode,
    notice: Option<String>,
) -> Reply {
    let mut page = filled(state, at, form, status).await?;
    page.notice = notice;
    Ok((status, Page(page)).into_response())
}

/// Returns the page with everything typed in it, and what is wrong if it was
/// to be kept.
async fn filled(
    state: &AppState,
    at: &AtBench,
    form: SheetForm,
    status: StatusCode,
) -> Result<SheetPage, AppError> {
    let kits = kit::list(&mut state.store.reader(at.department).await?).await?;
    let (entry, places) = form.entry();
    let (problems, questions) = match Sheet::check(&entry.sheet) {
        Ok(sheet) => (Vec::new(), sheet.questions()),
        Err(problems) if status == StatusCode::UNPROCESSABLE_ENTITY => (problems, Vec::new()),
        // More rows were asked for: no time yet to complain.
        Err(_) => (Vec::new(), Vec::new()),
    };
    let is_refused = status == StatusCode::UNPROCESSABLE_ENTITY;
    let wrong_kit = wrong_kit(at.say, &form.kit).filter(|_| is_refused);
    let wrong_shared = wrong_shared(at.say, &form.shared).filter(|_| is_refused);
    let answers = own_words::boxes(at.say, &form.answers, is_refused);
    let is_empty = is_refused && entry.is_blank();
    let mut page = SheetPage::new(
        at,
        form,
        &Remarks::placed(problems, questions, &places),
        &kits,
    );
    page.refuse_words(wrong_kit, wrong_shared, answers);
    if is_empty {
        let text = at.say.sheet_empty();
        page.complaints.push(Complaint {
            target: "r1.dial".to_owned(),
            text,
        });
    }
    page.is_empty_hand_in = is_empty;
    page.may_look_again = look_again::is_allowed(state, at).await?;
    Ok(page)
}
