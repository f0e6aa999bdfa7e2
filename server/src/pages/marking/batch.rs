//! Many marks as one act: all suggestions of a sheet or of a point, and
//! earlier marks that still hold.

use axum::extract::{Path, State};
use axum::response::Redirect;

use super::given::{Given, store};
use super::{bench, find, place};
use crate::error::AppError;
use crate::ids::ClassSetId;
use crate::report::marking::{MarkingReport, PointStanding};
use crate::session::StaffForm;
use crate::state::AppState;

/// Somebody marked one of the points meanwhile, or a sheet was stored again.
const MET: AppError = AppError::BadRequest(
    "Somebody else marked one of these points, or a sheet was stored again, while this page was open, so nothing was awarded. Open the page again.",
);

/// Earlier marks that cannot simply be given again.
const NOT_AS_IT_IS: AppError = AppError::BadRequest(
    "Their figures now show otherwise, or the point has fewer marks now: award the mark again, with a reason where one is asked for.",
);

/// What a page of many points was made from: the newest revision and the
/// newest mark among them. Both only ever grow.
pub(super) fn seen(report: &MarkingReport, places: impl Iterator<Item = (usize, usize)>) -> String {
    let newest = places.map(|(sheet, point)| {
        let work = report.class.groups[sheet].work.as_ref();
        let mark = report.sheets[sheet].points[point].newest;
        (
            work.map_or(0, |work| work.revision.id.0),
            mark.map_or(0, |id| id.0),
        )
    });
    let (revision, mark) = newest.fold((0, 0), |(a, b), (c, d)| (a.max(c), b.max(d)));
    format!("{revision}-{mark}")
}

/// Awards every suggestion of a sheet, at the points that have no mark.
pub(super) async fn sheet(
    State(state): State<AppState>,
    Path((id, label)): Path<(ClassSetId, String)>,
    form: StaffForm,
) -> Result<Redirect, AppError> {
    let report = find(&state, id).await?;
    let at = bench(&report, &label)?;
    let places = (0..report.points.len()).map(|point| (at, point));
    let given = award_all(&state, &report, places, &form).await?;
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
pub(super) async fn point(
    State(state): State<AppState>,
    Path((id, key)): Path<(ClassSetId, i64)>,
    form: StaffForm,
) -> Result<Redirect, AppError> {
    let report = find(&state, id).await?;
    let at = place(&report, key)?;
    let places = (0..report.sheets.len()).map(|sheet| (sheet, at));
    award_all(&state, &report, places, &form).await?;
    Ok(Redirect::to(&format!(
        "/class-sets/{id}/marking/points/{key}"
    )))
}

/// Says of the earlier marks of a sheet that they still hold: each is given
/// again on what is there now. With a point named, of that one alone.
pub(super) async fn still_holds(
    State(state): State<AppState>,
    Path((id, label)): Path<(ClassSetId, String)>,
    form: StaffForm,
) -> Result<Redirect, AppError> {
    let report = find(&state, id).await?;
    let at = bench(&report, &label)?;
    let named = form.pairs.get("point");
    let points = (0..report.points.len()).filter(|point| {
        let is_meant = named.is_empty() || report.points[*point].key.to_string() == named;
        is_meant && report.sheets[at].points[*point].is_earlier()
    });
    let given = points.filter_map(|point| again(&report, at, point));
    let given: Vec<Given> = given.collect();
    if given.is_empty() {
        return Err(NOT_AS_IT_IS);
    }
    award(&state, &report, &given, &form).await?;
    let anchor = given.first().map_or_else(String::new, |given| {
        format!("#point-{}", report.points[given.point].key)
    });
    Ok(Redirect::to(&format!(
        "/class-sets/{id}/marking/sheets/{label}{anchor}"
    )))
}

/// An earlier mark given again as it is; `None` where the point has fewer
/// marks now, or where it goes against what their figures show and nobody
/// said why.
fn again(report: &MarkingReport, sheet: usize, point: usize) -> Option<Given> {
    let standing = &report.sheets[sheet].points[point];
    let mark = standing.mark.as_ref()?;
    let marks = mark.awarded?;
    let suggestion = standing.suggestion.as_ref();
    let is_against = suggestion.is_some_and(|s| s.is_shown && i64::from(s.marks) != marks);
    let fits = marks <= i64::from(report.points[point].point.marks);
    let holds = fits && !(is_against && mark.reason.is_empty());
    holds.then(|| Given {
        sheet,
        point,
        marks: Some(marks),
        reason: mark.reason.clone(),
    })
}

/// Awards the suggestions at these places, where the page that asks was made
/// from what is there now; what was given.
async fn award_all(
    state: &AppState,
    report: &MarkingReport,
    places: impl Iterator<Item = (usize, usize)> + Clone,
    form: &StaffForm,
) -> Result<Vec<Given>, AppError> {
    if form.pairs.get("seen") != seen(report, places.clone()) {
        return Err(MET);
    }
    let given = suggestions(report, places);
    award(state, report, &given, form).await?;
    Ok(given)
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
