//! The teacher's word on a slip, shown or inferred: confirmed, or dismissed
//! with a reason.

use analysis::slip::Kind;
use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};

use super::body::{slip_anchor, suggested_anchor};
use super::page::Refused;
use super::show;
use crate::db::decision::{self, FlagKey, NewDecision, Verdict};
use crate::db::event::{self, NewEvent};
use crate::error::AppError;
use crate::form::Pairs;
use crate::ids::ClassSetId;
use crate::report::sheet::SheetReport;
use crate::report::{finding, flag};
use crate::session::StaffForm;
use crate::state::AppState;

/// Longest reason, in characters.
const LONGEST_REASON: usize = 1000;

/// Records a decision on one of the sheet's slips.
pub(super) async fn post(
    State(state): State<AppState>,
    Path((id, label)): Path<(ClassSetId, String)>,
    form: StaffForm,
) -> Result<Response, AppError> {
    let report = show::find(&state, id, &label, None).await?;
    let (Some(work), Some((anchor, key))) = (&report.work, shown(&report, &form.pairs)) else {
        return Err(AppError::NotFound(
            "The sheet does not show this slip any more. Open it again to see what it shows now.",
        ));
    };
    let verdict = match form.pairs.get("verdict") {
        "confirmed" => Verdict::Confirmed,
        "dismissed" => Verdict::Dismissed,
        _ => {
            return Err(AppError::BadRequest(
                "A slip is confirmed or dismissed. Nothing was changed.",
            ));
        }
    };
    let reason = form.pairs.trimmed("reason").to_owned();
    if let Some(fault) = fault(verdict, &reason) {
        let refused = Refused {
            form: key.name(),
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
    store(&state, id, new).await?;
    Ok(Redirect::to(&format!("/class-sets/{id}/sheets/{label}#{anchor}")).into_response())
}

/// The slip that a form names, with its anchor on the page, where the revision
/// that was on the screen is still the newest and shows or suggests it.
fn shown(report: &SheetReport, pairs: &Pairs) -> Option<(String, FlagKey)> {
    let work = report.work.as_ref()?;
    if pairs.get("revision") != work.revision.id.0.to_string() {
        return None;
    }
    let named = FlagKey {
        step: pairs.get("step").to_owned(),
        slip: pairs.get("slip").to_owned(),
        row_label: pairs.get("row").to_owned(),
    };
    let mut shown = flag::lines(work, Kind::Slip).into_iter();
    if let Some(at) = shown.position(|line| line.key == named) {
        return Some((slip_anchor(at), named));
    }
    let (at, key) = finding::find(work, &named)?;
    Some((suggested_anchor(at), key))
}

fn fault(verdict: Verdict, reason: &str) -> Option<&'static str> {
    if verdict == Verdict::Dismissed && reason.is_empty() {
        return Some("Say why it is no slip.");
    }
    (reason.chars().count() > LONGEST_REASON).then_some("Use at most 1000 characters.")
}

async fn store(state: &AppState, class_set: ClassSetId, new: NewDecision) -> Result<(), AppError> {
    let tell = state.changes.announcing(class_set);
    let write = state.store.writer().run_and_tell(tell, move |db| {
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
