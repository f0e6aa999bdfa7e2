//! The registers of a school year.

use analysis::method::Method;
use axum::extract::Query;
use axum::response::IntoResponse;

use crate::clock::school_year;
use crate::db::class;
use crate::db::register::{self, Listed};
use crate::files;
use crate::files::register::Register;
use crate::table::{Cell, PageTable, Table};
use crate::web::attachment::Attachment;
use crate::web::error::{AppError, Reply};
use crate::web::layout::{Layout, Page};
use crate::web::session::SignedIn;
use crate::web::state::AppState;
use crate::words;
use crate::words::refusal;
use crate::words::time::long_date;

/// Which school year is asked for.
#[derive(Debug, serde::Deserialize)]
pub(super) struct RegisterQuery {
    /// The calendar year in which it starts; without one, the present one.
    year: Option<i64>,
}

impl RegisterQuery {
    fn year(&self, state: &AppState) -> Result<i64, AppError> {
        let present = || school_year(state.zone.date(state.clock.now()));
        let year = self.year.unwrap_or_else(present);
        if (2000..2100).contains(&year) {
            Ok(year)
        } else {
            Err(AppError::NotFound(refusal::NO_REGISTERS))
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
    table: PageTable,
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

/// Says whether anybody has filled in the register of a class set.
fn is_begun(set: &Listed) -> bool {
    set.present + set.absent > 0
}

fn owing(set: &Listed) -> i64 {
    set.absent - set.caught_up
}

fn table(sets: &[Listed]) -> PageTable {
    let count = |set: &Listed, count: i64| match is_begun(set) {
        true => count.to_string(),
        false => String::new(),
    };
    Table::of(sets)
        .text("Class", |set| {
            let says = format!(
                "Register of {}, {}",
                set.class_name,
                long_date(&set.held_on)
            );
            let register = format!("/class-sets/{}/register", set.id);
            Cell::from(&set.class_name).link_called(register, says)
        })
        .text("Practical", |set| {
            Method::from_code(&set.method)
                .map_or(set.method.as_str(), |method| words::title(method))
        })
        .name("Date", |set| long_date(&set.held_on))
        .figure("Groups handed in", |set| {
            format!("{} of {}", set.handed_in, set.groups)
        })
        .figure("Present", |set| match is_begun(set) {
            true => set.present.to_string(),
            false => "not filled in".to_owned(),
        })
        .figure("Absent", |set| count(set, set.absent))
        .figure("Caught up", |set| count(set, set.caught_up))
        .figure("Still owing", |set| count(set, owing(set)))
        .on_page("Registers", "By class and date")
}

pub(super) async fn get(
    state: AppState,
    by: SignedIn,
    Query(asked): Query<RegisterQuery>,
) -> Reply {
    let year = asked.year(&state)?;
    let mut db = state.reader(&by).await?;
    let listed = register::list_year(&mut db, year).await?;
    let years = class::list_years(&mut db).await?;
    drop(db);
    Page(YearPage {
        layout: by.layout,
        owing: listed.iter().map(owing).sum(),
        table: table(&listed),
        others: years.into_iter().filter(|y| *y != year).map(Year).collect(),
        year: Year(year),
    })
    .reply()
}

/// Shows the registers of the year as one file.
pub(super) async fn csv(
    state: AppState,
    by: SignedIn,
    Query(asked): Query<RegisterQuery>,
) -> Reply {
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
