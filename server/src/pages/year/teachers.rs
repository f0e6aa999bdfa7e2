//! The class sets of each teacher side by side: for the head of department
//! alone.

use axum::extract::Query;
use axum::response::IntoResponse;

use super::asked::{Asked, Nav, Years};
use super::cells::{Compared, MethodPart};
use crate::error::{AppError, Reply};
use crate::layout::{Layout, Page};
use crate::report::year::Frame;
use crate::session::SignedIn;
use crate::state::AppState;

/// What others are told.
pub(super) const HEAD_ALONE: &str = "Teachers are compared for the head of department alone.";

#[derive(askama::Template)]
#[template(path = "year/teachers.html")]
struct TeachersPage {
    layout: Layout,
    nav: Nav,
    here: &'static str,
    methods: Vec<MethodPart>,
}

/// The page.
pub(super) async fn get(state: AppState, Query(asked): Query<Asked>, by: SignedIn) -> Reply {
    let years = asked.years(&state, &by).await?;
    Ok(Page(TeachersPage {
        layout: by.layout,
        here: "/year/teachers",
        methods: parts(&years),
        nav: years.nav,
    })
    .into_response())
}

/// Whether somebody may see teachers compared.
pub(super) fn for_head(by: &SignedIn) -> Result<(), AppError> {
    if by.is_head() {
        return Ok(());
    }
    Err(AppError::Forbidden(HEAD_ALONE))
}

/// The methods that were done, by teacher.
pub(super) fn parts(years: &Years) -> Vec<MethodPart> {
    Compared::of("teacher", years, named, |figures| &figures.teachers).parts()
}

fn named(frame: &Frame) -> Vec<(i64, &str)> {
    let teachers = frame.teachers.iter();
    teachers
        .map(|teacher| (teacher.id.0, teacher.name.as_str()))
        .collect()
}
