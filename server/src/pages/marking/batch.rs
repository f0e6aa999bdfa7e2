//! Many marks as one act: all suggestions of a sheet or of a point, and
//! earlier marks that still hold.

use axum::extract::{Path, State};
use axum::response::Redirect;

use super::given::{Given, store};
use super::{bench, find, place};
use crate::error::AppError;
use crate::report::marking::{MarkingReport, PointStanding};
use crate::session::StaffForm;
use crate::state::AppState;

/// Somebody marked one of the points meanwhile.
const MET: AppError = AppError::BadRequest(
    "Somebody else marked one of these points while this page was open, so nothing was awarded. Open the page again.",
);

/// Awards every suggestion of a sheet, at the points that have no mark.
///
/// # Errors
/// Not found for an unknown class set or bench.
pub async fn sheet(
    State(state): State<AppState>,
    Path((id, label)): Path<(i64, String)>,
    form: StaffForm,
) -> Result<Redirect, AppError> {
    let report = find(&state, id).await?;
    let at = bench(&report, &label)?;
    let places = (0..report.points.len()).map(|point| (at, point));
    let given = suggestions(&report, places);
    award(&state, &report, &given, &form).await?;
    let mut points =
        (0..report.points.len()).filter(|point| !given.iter().any(|given| given.point == *point));
    let open = points.find(|at_point| report.sheets[at].points[*at_point].awarded().is_none());
    let anchor = open.map_or_else(String::new, |at| {
        format!("#point-{}", report.points[at].key)
    });
    Ok(Redirect::to(&format!(
        "/class-sets/{id}/marking/sheets/{label}{anchor}"
    )))
}

/// Awards the suggestion of every sheet for one point, where it has no mark.
///
/// # Errors
/// Not found for an unknown class set or point.
pub async fn point(
    State(state): State<AppState>,
    Path((id, key)): Path<(i64, i64)>,
    form: StaffForm,
) -> Result<Redirect, AppError> {
    let report = find(&state, id).await?;
    let at = place(&report, key)?;
    let places = (0..report.sheets.len()).map(|sheet| (sheet, at));
    let given = suggestions(&report, places);
    award(&state, &report, &given, &form).await?;
    Ok(Redirect::to(&format!(
        "/class-sets/{id}/marking/points/{key}"
    )))
}

/// Says of the earlier marks of a sheet that they still hold: each is given
/// again on what is there now. With a point named, of that one alone.
///
/// # Errors
/// Not found for an unknown class set or bench.
pub async fn still_holds(
    State(state): State<AppState>,
    Path((id, label)): Path<(i64, String)>,
    form: StaffForm,
) -> Result<Redirect, AppError> {
    let report = find(&state, id).await?;
    let at = bench(&report, &label)?;
    let named = form.pairs.get("point");
    let points = (0..report.points.len()).filter(|point| {
        let is_meant = named.is_empty() || report.points[*point].key.to_string() == named;
        is_meant && report.sheets[at].points[*point].is_earlier()
    });
    let given = points.filter_map(|point| {
        let mark = report.sheets[at].points[point].mark.as_ref()?;
        let most = i64::from(report.points[point].point.marks);
        Some(Given {
            sheet: at,
            point,
            // A point that has fewer marks now gives all that it has.
            marks: mark.awarded.map(|marks| marks.min(most)),
            reason: mark.reason.clone(),
        })
    });
    let given: Vec<Given> = given.collect();
    award(&state, &report, &given, &form).await?;
    let anchor = given.first().map_or_else(String::new, |given| {
        format!("#point-{}", report.points[given.point].key)
    });
    Ok(Redirect::to(&format!(
        "/class-sets/{id}/marking/sheets/{label}{anchor}"
    )))
}

/// The suggestions at these places where there is no mark.
fn suggestions(report: &MarkingReport, places: impl Iterator<Item = (usize, usize)>) -> Vec<Given> {
    let given = places.filter_map(|(sheet, point)| {
        let standing: &PointStanding = &report.sheets[sheet].points[point];
        let suggestion = standing.suggestion.as_ref()?;
        standing.awarded().is_none().then(|| Given {
            sheet,
            point,
            marks: Some(i64::from(suggestion.marks)),
            reason: String::new(),
        })
    });
    given.collect()
}

async fn award(
    state: &AppState,
    report: &MarkingReport,
    given: &[Given],
    form: &StaffForm,
) -> Result<(), AppError> {
    if given.is_empty() || store(state, report, given, form.by.staff_id).await? {
        return Ok(());
    }
    Err(MET)
}
