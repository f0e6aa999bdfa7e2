//! A note on a sheet, a row or a step.

use axum::extract::Path;

use super::page::Refused;
use super::show;
use crate::acts::{AddNote, NotNoted};
use crate::error::Reply;
use crate::ids::ClassSetId;
use crate::layout::go;
use crate::session::StaffForm;
use crate::state::AppState;
use crate::words::refusal;

/// Keeps a note.
pub(super) async fn post(
    state: AppState,
    Path((id, label)): Path<(ClassSetId, String)>,
    form: StaffForm,
) -> Reply {
    let (row, step) = (form.pairs.get("row"), form.pairs.get("step"));
    let given = |text: &str| (!text.is_empty()).then(|| text.to_owned());
    let act = AddNote {
        class_set: id,
        label: label.clone(),
        row: given(row),
        step: given(step),
        // Browsers count a line's end once and send it as two characters.
        body: form.pairs.trimmed("note").replace("\r\n", "\n"),
        for_group: false,
    };
    let fault = match state.act(&form.by, act.clone()).await? {
        Ok(()) => {
            let notes = format!("/class-sets/{id}/sheets/{label}#notes");
            return go(&notes);
        }
        Err(NotNoted::NoSuchBench) => return Err(show::NO_SUCH_BENCH),
        Err(NotNoted::Blank) => refusal::NOTE_FIRST,
        Err(NotNoted::Long) => refusal::AT_MOST_2000,
        Err(NotNoted::NoSuchRow) => refusal::NO_ROW,
        Err(NotNoted::NoSuchStep) => refusal::WHICH_FIGURE,
    };
    let refused = Refused {
        form: "note".to_owned(),
        reason: fault,
        text: act.body,
        row: row.to_owned(),
        step: step.to_owned(),
    };
    let report = show::find(&state, &form.by, id, &label, None).await?;
    let page = show::page(&state, form.by.layout, report, refused)?;
    page.refused()
}
