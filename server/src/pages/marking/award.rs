//! Awarding one point of one sheet.

use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};

use super::given::{Given, MET, Refused, read, store};
use super::{bench, find, place, point, sheet};
use crate::error::AppError;
use crate::ids::ClassSetId;
use crate::report::marking::MarkingReport;
use crate::session::StaffForm;
use crate::state::AppState;

/// Awards what the form gives, and goes on to the next point of the sheet, or
/// to the next bench where the form came from a point's page.
pub(super) async fn post(
    State(state): State<AppState>,
    Path((id, label, key)): Path<(ClassSetId, String, i64)>,
    form: StaffForm,
) -> Result<Response, AppError> {
    let report = find(&state, id).await?;
    let (at_sheet, at_point) = (bench(&report, &label)?, place(&report, key)?);
    let by_point = form.pairs.get("back") == "point";
    let sentence = match read(&report, at_sheet, at_point, &form.pairs) {
        Err(sentence) => sentence,
        Ok(given) => {
            if store(
                &state,
                &report,
                std::slice::from_ref(&given),
                form.by.staff_id,
            )
            .await?
            {
                let next = if by_point {
                    next_bench(&report, &given)
                } else {
                    next_point(&report, &given)
                };
                return Ok(Redirect::to(&next).into_response());
            }
            MET
        }
    };
    let status = if sentence == MET {
        StatusCode::CONFLICT
    } else {
        StatusCode::UNPROCESSABLE_ENTITY
    };
    let refused = Refused {
        label,
        key,
        sentence,
        reason: form.pairs.get("reason").to_owned(),
        marks: form.pairs.get("marks").to_owned(),
    };
    // Somebody else's mark is on the page that comes back.
    let report = find(&state, id).await?;
    let page = if by_point {
        point::page(&state, form.by.layout, &report, at_point, Some(&refused)).into_response()
    } else {
        sheet::page(&state, form.by.layout, report, at_sheet, Some(refused))
            .await?
            .into_response()
    };
    Ok((status, page).into_response())
}

/// The next point of the sheet without a mark: after this one, else from the
/// top; this one where all have one.
fn next_point(report: &MarkingReport, given: &Given) -> String {
    let points = &report.sheets[given.sheet].points;
    let open = |at: &usize| *at != given.point && points[*at].awarded().is_none();
    let after = (given.point + 1..points.len()).find(open);
    let next = after.or_else(|| (0..given.point).find(open));
    let next = next.unwrap_or(given.point);
    let class = &report.class;
    format!(
        "/class-sets/{}/marking/sheets/{}#point-{}",
        class.class_set.id, class.groups[given.sheet].bench.label, report.points[next].key
    )
}

/// The same across the sheets for one point.
fn next_bench(report: &MarkingReport, given: &Given) -> String {
    let sheets = &report.sheets;
    let open =
        |at: &usize| *at != given.sheet && sheets[*at].points[given.point].awarded().is_none();
    let after = (given.sheet + 1..sheets.len()).find(open);
    let next = after.or_else(|| (0..given.sheet).find(open));
    let next = next.unwrap_or(given.sheet);
    format!(
        "/class-sets/{}/marking/points/{}#bench-{}",
        report.class.class_set.id,
        report.points[given.point].key,
        report.class.groups[next].bench.label
    )
}
