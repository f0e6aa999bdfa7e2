//! Notes while marking: for the group's feedback slip, or for the staff.

use axum::extract::Path;

use super::sheet::{self, RefusedNote};
use super::{NO_BENCH, bench, find};
use crate::acts::{AddNote, NoSuchNote, NotKept, NotNoted, NoteMarking, WithdrawNote};
use crate::error::{AppError, Reply};
use crate::form::Pairs;
use crate::ids::{AnnotationId, ClassSetId};
use crate::layout::go;
use crate::session::StaffForm;
use crate::state::AppState;
use crate::words::refusal;

/// Keeps a note, and puts it into the bank where the form says so.
pub(super) async fn post(
    state: AppState,
    Path((id, label)): Path<(ClassSetId, String)>,
    form: StaffForm,
) -> Reply {
    let given = |name: &str| {
        let value = form.pairs.get(name);
        (!value.is_empty()).then(|| value.to_owned())
    };
    let note = AddNote {
        class_set: id,
        label: label.clone(),
        row: given("row"),
        step: given("step"),
        body: text(&form.pairs),
        for_group: form.pairs.get("for") != "staff",
    };
    let act = NoteMarking {
        note: note.clone(),
        for_bank: form.pairs.get("keep") == "yes",
    };
    let sentence = match state.act(&form.by, act).await? {
        Ok(()) => return go(format!("/class-sets/{id}/marking/sheets/{label}#notes")),
        Err(NotKept::LongForGroup) => refusal::LONG_NOTE,
        Err(NotKept::NotNoted(why)) => match why {
            NotNoted::NoSuchBench => return Err(NO_BENCH),
            NotNoted::Blank => refusal::NOTE_OR_COMMENT,
            NotNoted::Long => refusal::AT_MOST_2000,
            NotNoted::NoSuchRow => refusal::NO_ROW,
            NotNoted::NoSuchStep => refusal::WHICH_FIGURE,
        },
    };
    let refused = RefusedNote {
        sentence,
        text: note.body,
        row: form.pairs.get("row").to_owned(),
        step: form.pairs.get("step").to_owned(),
        for_staff: !note.for_group,
    };
    let desk = find(&state, &form.by, id).await?;
    let at = bench(&desk, &label)?;
    let page = sheet::page(&state, form.by, &desk, at, None, Some(refused));
    page.await?.refused()
}

/// What was typed, after the comment that was picked, if one was.
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
