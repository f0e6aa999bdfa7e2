//! Which year is asked for, and its figures.

use serde::Deserialize;

use crate::chart::year::Lane;
use crate::clock::school_year;
use crate::db::class::list_years;
use crate::db::round_sheet;
use crate::error::AppError;
use crate::report::year::{self, Frame, Sheets, YearReport};
use crate::session::SignedIn;
use crate::state::AppState;
use crate::words;

/// What an address may say: `?year=2026`.
#[derive(Debug, Default, Deserialize)]
pub(super) struct Asked {
    /// The calendar year in which the school year starts.
    #[serde(default)]
    pub(super) year: String,
}

/// What the frame of the year's pages shows.
#[derive(Debug)]
pub(super) struct Nav {
    /// The year shown.
    pub(super) school_year: i64,
    /// Its name: `2026/27`.
    pub(super) name: String,
    /// Name of the year before.
    pub(super) name_before: String,
    /// All years with class sets, newest first, each with its name.
    pub(super) years: Vec<(i64, String)>,
    /// Whether teachers are compared for this person.
    pub(super) is_head: bool,
    /// Class sets that are left out, since this person has to mark a sheet of
    /// theirs blind.
    pub(super) left_out: usize,
}

/// A year and the one before.
#[derive(Debug)]
pub(super) struct Years {
    pub(super) nav: Nav,
    pub(super) now: YearReport,
    /// `None` where there is no class set in it.
    pub(super) before: Option<YearReport>,
}

/// A year's sheets one by one.
#[derive(Debug)]
pub(super) struct OneByOne {
    pub(super) nav: Nav,
    pub(super) frame: Frame,
    pub(super) sheets: Sheets,
}

impl Years {
    /// What an open circle stands for; nothing where none is drawn.
    pub(super) fn open_circles(&self, lanes: &[Lane]) -> Option<String> {
        has_open_circles(lanes).then(|| format!("Open circles: {}.", self.nav.name_before))
    }
}

/// Whether there is something of the year before to draw.
pub(super) fn has_open_circles(lanes: &[Lane]) -> bool {
    lanes
        .iter()
        .flat_map(|lane| &lane.marks)
        .any(|mark| mark.is_open)
}

impl Asked {
    /// The year that is asked for; else this one, else the newest there is.
    async fn nav(&self, state: &AppState, by: &SignedIn) -> Result<Nav, AppError> {
        let years = list_years(&mut state.reader(by).await?).await?;
        let present = school_year(state.zone.date(state.clock.now()));
        let usual = || {
            let has_present = years.is_empty() || years.contains(&present);
            if has_present { present } else { years[0] }
        };
        let school_year = match self.year.trim() {
            "" => usual(),
            text => text
                .parse()
                .ok()
                .filter(|year| (1900..=2999).contains(year))
                .ok_or(AppError::NotFound("There is no such school year."))?,
        };
        let mut years: Vec<_> = years
            .into_iter()
            .map(|y| (y, words::school_year(y)))
            .collect();
        if years.iter().all(|(year, _)| *year != school_year) {
            years.insert(0, (school_year, words::school_year(school_year)));
        }
        Ok(Nav {
            school_year,
            name: words::school_year(school_year),
            name_before: words::school_year(school_year - 1),
            years,
            is_head: by.is_head(),
            left_out: 0,
        })
    }

    /// Loads the figures of the year and of the one before.
    pub(super) async fn years(&self, state: &AppState, by: &SignedIn) -> Result<Years, AppError> {
        let mut nav = self.nav(state, by).await?;
        let mut db = state.reader(by).await?;
        let closed = round_sheet::list_closed(&mut db, by.staff_id).await?;
        let now = year::load(&mut db, &state.zone, nav.school_year, &closed).await?;
        let before = nav.school_year - 1;
        let before = match nav.years.iter().any(|(year, _)| *year == before) {
            true => Some(year::load(&mut db, &state.zone, before, &closed).await?),
            false => None,
        };
        drop(db);
        let compared_before = async {
            match before {
                Some(before) => Some(before.compare().await),
                None => None,
            }
        };
        let (mut now, mut before) = tokio::join!(now.compare(), compared_before);
        let before_left_out = before.as_ref().map_or(0, |before| before.frame.left_out);
        nav.left_out = now.frame.left_out + before_left_out;
        for report in [Some(&mut now), before.as_mut()].into_iter().flatten() {
            let made = std::mem::take(&mut report.to_keep);
            year::keep(&state.store, by.department, made, state.clock.now());
        }
        Ok(Years { nav, now, before })
    }

    /// Loads the year's sheets.
    pub(super) async fn sheets(
        &self,
        state: &AppState,
        by: &SignedIn,
    ) -> Result<OneByOne, AppError> {
        let mut nav = self.nav(state, by).await?;
        let mut db = state.reader(by).await?;
        let closed = round_sheet::list_closed(&mut db, by.staff_id).await?;
        let frame = Frame::load(&mut db, &state.zone, nav.school_year, &closed).await?;
        nav.left_out = frame.left_out;
        let mut sheets = year::sheets::load(&mut db, &frame).await?;
        drop(db);
        let made = std::mem::take(&mut sheets.to_keep);
        year::keep_judged(&state.store, by.department, made, state.clock.now());
        Ok(OneByOne { nav, frame, sheets })
    }
}
