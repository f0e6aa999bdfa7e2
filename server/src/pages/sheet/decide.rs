//! The teacher's word on a slip: confirmed, or dismissed with a reason.

use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};

use super::page::Refused;
use super::show;
use crate::db::decision::{self, FlagKey, NewDecision, Verdict};
use crate::db::event::{self, NewEvent};
use crate::error::AppError;
use crate::ids::ClassSetId;
use crate::report::flag;
use crate::session::StaffForm;
use crate::state::AppState;

/// Longest reason, in characters.
const LONGEST_REASON: usize = 1000;

/// Records a decision on one of the sheet's slips.
///
/// # Errors
/// Not found for an unknown class set or bench, and for a slip that the sheet
/// does not show (it was handed in again since the page was opened).
pub async fn post(
    State(state): State<AppState>,
    Path((id, label)): Path<(i64, String)>,
    form: StaffForm,
) -> Result<Response, AppError> {
    let report = show::find(&state, id, &label).await?;
    let text = |name: &str| form.pairs.get(name).to_owned();
    let key = FlagKey {
        step: text("step"),
        slip: text("slip"),
        row_label: text("row"),
    };
    let gone = AppError::NotFound(
        "The sheet does not show this slip any more. Open it again to see what it shows now.",
    );
    let Some(work) = &report.work else {
        return Err(gone);
    };
    let flags = &work.assessment.flags;
    let Some(at) = flags
        .iter()
        .position(|f| flag::key(&work.assessment, f) == key)
    else {
        return Err(gone);
    };
    if form.pairs.get("revision") != work.revision.id.0.to_string() {
        return Err(gone);
    }
    let reason = form.pairs.trimmed("reason").to_owned();
    let verdict = match form.pairs.get("verdict") {
        "confirmed" => Verdict::Confirmed,
        "dismissed" => Verdict::Dismissed,
        _ => {
            return Err(AppError::BadRequest(
                "A slip is confirmed or dismissed. Nothing was changed.",
            ));
        }
    };
    let fault = match verdict {
        Verdict::Dismissed if reason.is_empty() => Some("Say why it is no slip."),
        _ if reason.chars().count() > LONGEST_REASON => Some("Use at most 1000 characters."),
        _ => None,
    };
    if let Some(fault) = fault {
        let refused = Refused {
            form: format!("{}.{}.{}", key.step, key.slip, key.row_label),
            reason: fault,
            text: reason,
            ..Refused::default()
        };
        let page = show::page(&state, form.by.layout, report, refused)?;
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
    }
    let new = NewDecision {
        sheet_id: report.bench.sheet_id,
        revision_id: work.revision.id,
        flag: key,
        verdict,
        reason,
        staff_id: form.by.staff_id,
        decided_at: state.clock.now(),
    };
    store(&state, ClassSetId(id), new).await?;
    Ok(Redirect::to(&format!("/class-sets/{id}/sheets/{label}#slip-{at}")).into_response())
}

async fn store(state: &AppState, class_set: ClassSetId, new: NewDecision) -> Result<(), AppError> {
    let write = state.store.writer().run(move |db| {
        Box::pin(async move {
            let what = NewEvent {
                at: new.decided_at,
                what: match new.verdict {
                    Verdict::Confirmed => "slip_confirmed",
                    Verdict::Dismissed => "slip_dismissed",
                },
                staff_id: Some(new.staff_id),
                class_set_id: Some(class_set),
                detail: &new.flag.slip,
            };
            event::insert(db, &what).await?;
            decision::insert(db, &new).await
        })
    });
    Ok(write.await?)
}
