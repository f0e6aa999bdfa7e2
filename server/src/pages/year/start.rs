//! The year in three sentences, each followed to its page.

use analysis::year::kits::{KitYear, Standing};
use analysis::year::share::Change;
use axum::extract::Query;

use super::slips::made;
use super::{Nav, YearQuery, Years};
use crate::report::year::YearReport;
use crate::web::error::Reply;
use crate::web::layout::{Layout, Page};
use crate::web::session::SignedIn;
use crate::web::state::AppState;
use crate::words::kit_year::headline;
use crate::words::year;

#[derive(askama::Template)]
#[template(path = "year/start.html")]
struct StartPage {
    layout: Layout,
    nav: Nav,
    counts: String,
    counts_before: Option<String>,
    is_empty: bool,
    /// What stands out, each with the page that it leads to and its name.
    stands_out: [(&'static str, &'static str, String); 3],
}

pub(super) async fn get(state: AppState, Query(asked): Query<YearQuery>, by: SignedIn) -> Reply {
    let years = asked.years(&state, &by).await?;
    Page(StartPage {
        layout: by.layout,
        counts: counts(&years.now),
        counts_before: years.before.as_ref().map(counts),
        is_empty: years.now.frame.lessons.is_empty(),
        stands_out: [
            ("/kits", "Kits", kits(&years)),
            ("/slips", "Slips", slips(&years)),
            ("/classes", "Classes", classes(&years)),
        ],
        nav: years.nav,
    })
    .reply()
}

/// Says how much there is: `12 class sets; 102 of 108 groups have handed in.`
fn counts(of: &YearReport) -> String {
    year::counts(of.frame.lessons.len(), of.comparison.handed_in)
}

/// Returns the kit that is most surely off, and how many others are.
fn kits(years: &Years) -> String {
    let kits = years.now.frame.kits.iter().zip(&years.now.comparison.kits);
    let mut off: Vec<_> = kits.filter(|(_, year)| year.is_off()).collect();
    let sureness = |year: &KitYear| {
        let shape = year.looks_like.as_ref().map_or(0.0, |looks| looks.sigmas);
        year.sigmas.map_or(0.0, f64::abs).max(shape)
    };
    off.sort_by(|(_, one), (_, other)| sureness(other).total_cmp(&sureness(one)));
    let judged = |year: &&KitYear| year.standing != Standing::TooFew;
    let judged = years.now.comparison.kits.iter().filter(judged).count();
    match off.as_slice() {
        [] if judged == 0 => year::NO_KIT_YET.to_owned(),
        [] => year::no_kit_off(judged),
        [(listed, year)] => headline(&listed.label, year),
        [(listed, year), rest @ ..] => format!(
            "{} {}",
            headline(&listed.label, year),
            year::other_kits_off(rest.len())
        ),
    }
}

/// Returns the slip that most groups made, and how that has changed.
fn slips(years: &Years) -> String {
    let mut made = made(years).into_iter();
    let Some((year, before)) = made.find(|(year, _)| year.whole.made > 0) else {
        return year::NO_WORKING_SLIPS.to_owned();
    };
    let change = Change {
        before,
        after: year.whole,
    };
    year::commonest(year.slip, change, &years.nav.name_before)
}

/// Says which classes stand apart, in the order of the timetable.
fn classes(years: &Years) -> String {
    let names = &years.now.frame.classes;
    let mut apart: Vec<&str> = Vec::new();
    let mut is_compared = false;
    for cells in &years.now.comparison.classes {
        for (cell, class) in cells.cells.iter().zip(names) {
            is_compared |= cell.stands_apart.is_some();
            if cell.stands_apart == Some(true) && !apart.contains(&class.name.as_str()) {
                apart.push(&class.name);
            }
        }
    }
    match apart.as_slice() {
        _ if !is_compared => year::TOO_FEW_GROUPS.to_owned(),
        [] => year::CLASSES_ALIKE.to_owned(),
        names => year::apart(names),
    }
}
