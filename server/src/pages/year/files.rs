//! The year's tables as files: each as CSV, and all in one workbook.

use axum::extract::{Path, Query, State};
use axum::http::header::{CONTENT_DISPOSITION, CONTENT_TYPE};
use axum::response::{IntoResponse, Response};

use super::asked::Asked;
use super::sheets::Wanted;
use super::teachers::for_head;
use crate::error::AppError;
use crate::files::year as files;
use crate::report::year::YearReport;
use crate::session::SignedIn;
use crate::state::AppState;

/// One of the files of a year.
///
/// # Errors
/// When there is no such file, when teachers' figures are asked for by
/// somebody else than the head of department, or the data file fails.
pub async fn get(
    State(state): State<AppState>,
    Path(name): Path<String>,
    Query(wanted): Query<Wanted>,
    by: SignedIn,
) -> Result<Response, AppError> {
    let asked = Asked {
        year: wanted.year.clone(),
    };
    let (school_year, bytes) = match name.as_str() {
        "kits.csv" => {
            let years = asked.years(&state, &by).await?;
            let before = years.before.as_ref().map(|before| &before.comparison);
            let now = &years.now;
            (
                years.nav.school_year,
                files::kits(&now.frame, &now.comparison, before),
            )
        }
        "kit-lessons.csv" => {
            let loaded = asked.sheets(&state, &by).await?;
            (
                loaded.nav.school_year,
                files::kit_lessons(&loaded.frame, &loaded.sheets),
            )
        }
        "slips.csv" => {
            let years = asked.years(&state, &by).await?;
            let loaded = asked.sheets(&state, &by).await?;
            let before = years
                .before
                .as_ref()
                .map(|before| before.comparison.slips.as_slice());
            (
                loaded.nav.school_year,
                files::slips(&loaded.frame, &loaded.sheets, before),
            )
        }
        "classes.csv" => {
            let years = asked.years(&state, &by).await?;
            (years.nav.school_year, classes(&years.now))
        }
        "teachers.csv" => {
            for_head(&by)?;
            let years = asked.years(&state, &by).await?;
            (years.nav.school_year, teachers(&years.now))
        }
        "sheets.csv" => {
            let loaded = wanted.load(&state, &by).await?;
            let found = wanted.find(&loaded);
            (
                loaded.nav.school_year,
                files::sheets(&loaded.frame, &loaded.sheets, &found),
            )
        }
        _ => return Err(AppError::NotFound("There is no such file of the year.")),
    };
    let bytes = bytes.map_err(AppError::internal)?;
    let saved_as = format!("attachment; filename=\"year-{school_year}-{name}\"");
    let headers = [
        (CONTENT_TYPE, "text/csv; charset=utf-8".to_owned()),
        (CONTENT_DISPOSITION, saved_as),
    ];
    Ok((headers, bytes).into_response())
}

fn classes(year: &YearReport) -> csv::Result<Vec<u8>> {
    let names: Vec<String> = year
        .frame
        .classes
        .iter()
        .map(|class| class.name.clone())
        .collect();
    files::cells("class", &names, &year.comparison.classes)
}

fn teachers(year: &YearReport) -> csv::Result<Vec<u8>> {
    let names: Vec<String> = year
        .frame
        .teachers
        .iter()
        .map(|one| one.name.clone())
        .collect();
    files::cells("teacher", &names, &year.comparison.teachers)
}
