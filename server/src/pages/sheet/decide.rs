//! The teacher's word on a slip, shown or inferred: confirmed, or dismissed
//! with a reason.

use analysis::slip::Kind;
use axum::extract::Path;

use super::body::{slip_anchor, suggested_anchor};
use super::show::{self, ReasonTyped};
use crate::acts::{DecideSlip, NotDecided};
use crate::db::decision::{FlagKey, Verdict};
use crate::ids::ClassSetId;
use crate::report::sheet::SheetReport;
use crate::report::{finding, flag};
use crate::web::error::{AppError, Reply};
use crate::web::form::{Pairs, TypedText};
use crate::web::layout::go;
use crate::web::session::StaffForm;
use crate::web::state::AppState;
use crate::words::Say;
use crate::words::refusal;

/// The slip is gone, or the group has changed its sheet meanwhile.
const NOT_SHOWN: AppError = AppError::NotFound(refusal::SLIP_GONE);

/// Records a decision on one of the sheet's slips.
pub(super) async fn post(
    state: AppState,
    Path((id, label)): Path<(ClassSetId, String)>,
    form: StaffForm,
) -> Reply {
    let report = show::find(&state, &form.by, id, &label, None).await?;
    let (Some(work), Some((anchor, flag))) = (&report.work, shown(&report, &form.pairs)) else {
        return Err(NOT_SHOWN);
    };
    let verdict = match form.pairs.get("verdict") {
        "confirmed" => Verdict::Confirmed,
        "dismissed" => Verdict::Dismissed,
        _ => {
            return Err(AppError::BadRequest(refusal::VERDICT_UNCHANGED));
        }
    };
    let reason = form.pairs.trimmed("reason").to_owned();
    let act = DecideSlip {
        class_set: id,
        label: label.clone(),
        revision: work.revision.id,
        flag,
        verdict,
        reason,
    };
    let fault = match state.act(&form.by, act.clone()).await? {
        Ok(()) => {
            let sheet = format!("/class-sets/{id}/sheets/{label}#{anchor}");
            return go(&sheet);
        }
        Err(NotDecided::NotNewest) => return Err(NOT_SHOWN),
        Err(NotDecided::NoReason) => refusal::WHY_NO_SLIP,
        Err(NotDecided::LongReason) => refusal::AT_MOST_1000,
    };
    let mut reason = TypedText::new(act.reason);
    reason.refuse(fault);
    let typed = ReasonTyped {
        reason: Some((act.flag.name(), reason)),
        ..ReasonTyped::default()
    };
    show::page(&state, form.by.layout, report, typed)?.refused()
}

/// Returns the slip that a form names, with its anchor on the page, where the
/// revision that was on the screen is still the newest and shows or suggests
/// it.
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
    let mut shown = flag::lines(Say::english(), work, Kind::Slip).into_iter();
    if let Some(at) = shown.position(|line| line.key == named) {
        return Some((slip_anchor(at), named));
    }
    let (at, key) = finding::find(work, &named)?;
    Some((suggested_anchor(at), key))
}
