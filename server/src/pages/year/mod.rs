//! The year comparison: kits, slips and classes over a school year, with the
//! year before beside it. Teachers are compared for the head of department
//! alone.
//!
//! Every figure leads to the sheets that it was made from: `sheets.rs` lists
//! those of a kit, a class, a slip.

mod class;
mod classes;
mod files;
mod kit;
mod kits;
mod sheets;
mod slip;
mod slips;
mod start;

use analysis::year::{Comparison, Estimated};
use serde::Deserialize;

use crate::clock::school_year;
use crate::db::Connection;
use crate::db::class::list_years;
use crate::db::round_sheet;
use crate::pages::access::Access::{Head, Staff};
use crate::pages::access::Routes;
use crate::report::year::{self, Sheets, YearFrame, YearReport};
use crate::table::Cell;
use crate::web::error::AppError;
use crate::web::session::SignedIn;
use crate::web::state::AppState;
use crate::words;
use crate::words::refusal;
use crate::words::share::{off, off_range, ratio, ratio_range};

/// What others than the head of department are told.
const HEAD_ALONE: &str = refusal::TEACHERS_FOR_HEAD;

pub(super) fn routes() -> Routes {
    Routes::default()
        .get("/year", Staff, start::get)
        .get("/year/kits", Staff, kits::get)
        .get("/year/kits/{id}", Staff, kit::get)
        .get("/year/slips", Staff, slips::get)
        .get("/year/slips/{place}/{code}", Staff, slip::get)
        .get("/year/classes", Staff, classes::get)
        .get("/year/classes/{id}", Staff, class::get)
        .get("/year/teachers", Head(HEAD_ALONE), classes::get_teachers)
        .get("/year/sheets", Staff, sheets::get)
        .get("/year/{file}", Staff, files::get)
}

/// What an address may say: `?year=2026`.
#[derive(Debug, Default, Deserialize)]
struct YearQuery {
    /// The calendar year in which the school year starts.
    #[serde(default)]
    year: String,
}

/// What the frame of the year's pages shows.
#[derive(Debug)]
struct Nav {
    /// The year shown.
    school_year: i64,
    /// Its name: `2026/27`.
    name: String,
    name_before: String,
    /// All years with class sets, newest first, each with its name.
    years: Vec<(i64, String)>,
    /// Whether teachers are compared for this person.
    is_head: bool,
    /// Class sets that are left out, since this person has to mark a sheet of
    /// theirs blind.
    left_out: usize,
}

impl Nav {
    /// Returns the address of a page of the year shown: `/year/kits?year=2026`.
    fn to(&self, page: &str) -> String {
        format!("/year{page}?year={}", self.school_year)
    }
}

/// A year and the one before.
#[derive(Debug)]
struct Years {
    nav: Nav,
    now: YearReport,
    /// `None` where there is no class set in it.
    before: Option<YearReport>,
}

impl Years {
    /// Returns the figures of the year before.
    fn earlier(&self) -> Option<&Comparison> {
        self.before.as_ref().map(|before| &before.comparison)
    }
}

/// A year's sheets one by one.
#[derive(Debug)]
struct OneByOne {
    nav: Nav,
    frame: YearFrame,
    sheets: Sheets,
}

impl YearQuery {
    /// Returns the year that is asked for; else this one, else the newest
    /// there is.
    async fn nav(
        &self,
        db: &mut Connection,
        state: &AppState,
        by: &SignedIn,
    ) -> Result<Nav, AppError> {
        let mut years = list_years(db).await?;
        let present = school_year(state.zone.date(state.clock.now()));
        let school_year = match self.year.trim() {
            "" if years.contains(&present) => present,
            "" => years.first().copied().unwrap_or(present),
            text => text
                .parse()
                .ok()
                .filter(|year| (1900..=2999).contains(year))
                .ok_or(AppError::NotFound(refusal::NO_SCHOOL_YEAR))?,
        };
        if !years.contains(&school_year) {
            years.insert(0, school_year);
        }
        let named = years
            .into_iter()
            .map(|year| (year, words::school_year(year)));
        Ok(Nav {
            school_year,
            name: words::school_year(school_year),
            name_before: words::school_year(school_year - 1),
            years: named.collect(),
            is_head: by.is_head(),
            left_out: 0,
        })
    }

    /// Loads the figures of the year and of the one before.
    async fn years(&self, state: &AppState, by: &SignedIn) -> Result<Years, AppError> {
        let mut db = state.reader(by).await?;
        let mut nav = self.nav(&mut db, state, by).await?;
        let closed = round_sheet::list_closed(&mut db, by.staff_id).await?;
        let (newest, zone) = (&state.newest_rows, &state.zone);
        let now = year::load(&mut db, newest, zone, nav.school_year, &closed).await?;
        let before = nav.school_year - 1;
        let before = match nav.years.iter().any(|(year, _)| *year == before) {
            true => Some(year::load(&mut db, newest, zone, before, &closed).await?),
            false => None,
        };
        drop(db);
        let before = async {
            match before {
                Some(before) => Some(before.compare().await),
                None => None,
            }
        };
        let (mut now, mut before) = tokio::join!(now.compare(), before);
        for report in [Some(&mut now), before.as_mut()].into_iter().flatten() {
            nav.left_out += report.frame.left_out;
            let made = std::mem::take(&mut report.to_keep);
            state.keep(by, made);
        }
        Ok(Years { nav, now, before })
    }

    /// Loads the year's sheets.
    async fn sheets(&self, state: &AppState, by: &SignedIn) -> Result<OneByOne, AppError> {
        let mut db = state.reader(by).await?;
        let mut nav = self.nav(&mut db, state, by).await?;
        let closed = round_sheet::list_closed(&mut db, by.staff_id).await?;
        let frame = YearFrame::load(&mut db, &state.zone, nav.school_year, &closed).await?;
        nav.left_out = frame.left_out;
        let mut sheets = year::sheets::load(&mut db, &frame).await?;
        drop(db);
        let made = std::mem::take(&mut sheets.to_keep);
        state.keep(by, made);
        Ok(OneByOne { nav, frame, sheets })
    }
}

/// Returns a ratio, its interval below.
fn ratio_cell(figure: Option<Estimated>) -> Cell {
    Cell::from(ratio(figure.map(|figure| figure.value))).below(ratio_range(figure))
}

/// Says how far off something is, its interval below.
fn off_cell(figure: Option<Estimated>) -> Cell {
    Cell::from(off(figure.map(|figure| figure.value))).below(off_range(figure))
}
