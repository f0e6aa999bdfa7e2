//! The registers of a school year.

use analysis::method::Method;
use axum::extract::{Query, State};
use axum::response::{IntoResponse, Response};

use crate::attachment::Attachment;
use crate::clock::{long_date, school_year};
use crate::db::class;
use crate::db::register::{self, Listed};
use crate::error::AppError;
use crate::files;
use crate::files::register::Register;
use crate::layout::{Layout, Page};
use crate::session::SignedIn;
use crate::state::AppState;
use crate::words;

/// Which school year is asked for.
#[derive(Debug, serde::Deserialize)]
pub(super) struct Asked {
    /// The calendar year in which it starts; without one, the present one.
    year: Option<i64>,
}

impl Asked {
    fn year(&self, state: &AppState) -> Result<i64, AppError> {
        let present = || school_year(state.zone.date(state.clock.now()));
        let year = self.year.unwrap_or_else(present);
        if (2000..2100).contains(&year) {
            Ok(year)
        } else {
            Err(AppError::NotFound("There are no registers of that year."))
        }
    }
}

#[derive(askama::Template)]
#[template(path = "register/year.html")]
struct YearPage {
    layout: Layout,
    year: Year,
    /// Other years that have class sets.
    others: Vec<Year>,
    lines: Vec<SetLine>,
    /// Pupils who have not caught up, in all of them.
    owing: i64,
}

/// A school year, by the calendar year in which it starts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Year(i64);

impl std::fmt::Display for Year {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&words::school_year(self.0))
    }
}

struct SetLine {
    listed: Listed,
    practical: String,
    date: String,
}

impl SetLine {
    fn is_begun(&self) -> bool {
        self.listed.present + self.listed.absent > 0
    }

    fn owing(&self) -> i64 {
        self.listed.absent - self.listed.caught_up
    }
}

/// The page.
pub(super) async fn get(
    State(state): State<AppState>,
    by: SignedIn,
    Query(asked): Query<Asked>,
) -> Result<Response, AppError> {
    let year = asked.year(&state)?;
    let mut db = state.reader(&by).await?;
    let listed = register::list_year(&mut db, year).await?;
    let years = class::list_years(&mut db).await?;
    drop(db);
    let lines: Vec<_> = listed
        .into_iter()
        .map(|listed| SetLine {
            practical: Method::from_code(&listed.method)
                .map_or_else(|| listed.method.clone(), |m| words::title(m).to_owned()),
            date: long_date(&listed.held_on),
            listed,
        })
        .collect();
    Ok(Page(YearPage {
        layout: by.layout,
        owing: lines.iter().map(SetLine::owing).sum(),
        lines,
        others: years.into_iter().filter(|y| *y != year).map(Year).collect(),
        year: Year(year),
    })
    .into_response())
}

/// The registers of the year as one file.
pub(super) async fn csv(
    State(state): State<AppState>,
    by: SignedIn,
    Query(asked): Query<Asked>,
) -> Result<Response, AppError> {
    let year = asked.year(&state)?;
    let mut db = state.reader(&by).await?;
    let sets = register::list_year(&mut db, year).await?;
    let groups = register::list_groups_of_year(&mut db, year).await?;
    let lines = register::list_lines_of_year(&mut db, year).await?;
    drop(db);
    let registers = sets.into_iter().map(|set| {
        let groups = groups.iter().filter(|group| group.class_set_id == set.id);
        let lines = lines.iter().filter(|line| line.class_set_id == set.id);
        Register {
            groups: groups.cloned().collect(),
            lines: lines.map(|line| line.line.clone()).collect(),
            class: set.class_name,
            method: set.method,
            date: set.held_on,
        }
    });
    let table = files::register::table(&registers.collect::<Vec<_>>(), &state.zone);
    let name = format!("register-{year}-{}.csv", year + 1);
    Ok(Attachment::csv(name, &table)?.into_response())
}
