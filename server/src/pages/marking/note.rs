//! Notes while marking: for the group's feedback sheet, or for the staff.

use axum::extract::Path;

use super::{NO_BENCH, bench, find, sheet};
use crate::acts::{NoSuchNote, NotKept, NotNoted, NoteMarking, WithdrawNote};
use crate::ids::{AnnotationId, ClassSetId};
use crate::pages::note::TypedNote;
use crate::web::error::{AppError, Reply};
use crate::web::form::{Pairs, TypedText};
use crate::web::layout::go;
use crate::web::session::StaffForm;
use crate::web::state::AppState;
use crate::words::refusal;

/// Keeps a note, and puts it into the bank where the form says so.
pub(super) async fn post(
    state: AppState,
    Path((id, label)): Path<(ClassSetId, String)>,
    form: StaffForm,
) -> Reply {
    let mut note = TypedNote::read(&form.pairs);
    note.body = TypedText::new(text(&form.pairs));
    let act = NoteMarking {
        note: note.act(id, &label, !note.for_staff),
        for_bank: form.pairs.get("keep") == "yes",
    };
    match state.act(&form.by, act).await? {
        Ok(()) => return go(format!("/class-sets/{id}/marking/sheets/{label}#notes")),
        Err(NotKept::LongForGroup) => {
            note.body.refuse(refusal::LONG_NOTE);
        }
        Err(NotKept::NotNoted(NotNoted::Blank)) => {
            note.body.refuse(refusal::NOTE_OR_COMMENT);
        }
        Err(NotKept::NotNoted(why)) => note.refuse(why).ok_or(NO_BENCH)?,
    }
    let desk = find(&state, &form.by, id).await?;
    let at = bench(&desk, &label)?;
    let page = sheet::page(&state, form.by, &desk, at, None, note);
    page.await?.refused()
}

/// Says what was typed, after the comment that was picked, if one was.
fn text(pairs: &Pairs) -> String {
    let typed = pairs.text("note");
    let picked = pairs.trimmed("comment");
    match (picked, typed.as_str()) {
        ("", _) => typed,
        (_, "") => picked.to_owned(),
        // With scripts the comment is in the box already.
        _ if typed.contains(picked) => typed,
        _ => format!("{picked} {typed}"),
    }
}

/// Takes a note back; it is kept, and not shown any more.
pub(super) async fn withdraw(
    state: AppState,
    Path((id, label)): Path<(ClassSetId, String)>,
    form: StaffForm,
) -> Reply {
    let desk = find(&state, &form.by, id).await?;
    let act = WithdrawNote {
        sheet: desk.sheets[bench(&desk, &label)?].sheet_id,
        note: AnnotationId(form.pairs.get("note").parse().unwrap_or(0)),
    };
    state
        .act(&form.by, act)
        .await?
        .map_err(|NoSuchNote| AppError::NotFound(refusal::NOTE_GONE))?;
    go(format!("/class-sets/{id}/marking/sheets/{label}#notes"))
}
