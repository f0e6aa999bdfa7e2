//! The classes of a year side by side, in the order of the timetable.

use axum::extract::Query;
use axum::response::IntoResponse;

use super::asked::{Asked, Nav, Years};
use super::cells::{Compared, MethodPart};
use crate::error::Reply;
use crate::layout::{Layout, Page};
use crate::report::year::Frame;
use crate::session::SignedIn;
use crate::state::AppState;

#[derive(askama::Template)]
#[template(path = "year/classes.html")]
struct ClassesPage {
    layout: Layout,
    nav: Nav,
    here: &'static str,
    methods: Vec<MethodPart>,
}

/// The page.
pub(super) async fn get(state: AppState, Query(asked): Query<Asked>, by: SignedIn) -> Reply {
    let years = asked.years(&state, &by).await?;
    Ok(Page(ClassesPage {
        layout: by.layout,
        here: "/year/classes",
        methods: parts(&years),
        nav: years.nav,
    })
    .into_response())
}

/// The methods that were done, by class.
pub(super) fn parts(years: &Years) -> Vec<MethodPart> {
    Compared::of("class", years, named, |figures| &figures.classes).parts()
}

fn named(frame: &Frame) -> Vec<(i64, &str)> {
    let classes = frame.classes.iter();
    classes
        .map(|class| (class.id.0, class.name.as_str()))
        .collect()
}
