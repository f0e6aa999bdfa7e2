//! The sheets of a year, by class, practical, kit and slip: what every figure
//! of the year's pages leads to.

use analysis::method::Method;
use analysis::year::Made;
use axum::extract::Query;
use axum::response::IntoResponse;
use serde::Deserialize;

use super::asked::{Asked, Nav, OneByOne};
use super::line::SheetLine;
use super::{slip, teachers};
use crate::error::{AppError, Reply};
use crate::layout::{Layout, Page};
use crate::report::year::words::slip as slip_words;
use crate::session::SignedIn;
use crate::state::AppState;

/// Most sheets on one page: the file has all of them.
const MOST: usize = 400;

/// Which sheets are asked for; what is blank asks for any.
#[derive(Debug, Default, Deserialize)]
pub(super) struct Wanted {
    #[serde(default)]
    pub(super) year: String,
    /// Id of a class.
    #[serde(default)]
    pub(super) class: String,
    /// Id of a teacher: for the head of department alone.
    #[serde(default)]
    pub(super) teacher: String,
    /// Id of a kit.
    #[serde(default)]
    pub(super) kit: String,
    /// Code of a method.
    #[serde(default)]
    pub(super) method: String,
    /// Place and code of a slip: `working.scale-left-out`.
    #[serde(default)]
    pub(super) slip: String,
}

#[derive(askama::Template)]
#[template(path = "year/sheets.html")]
struct SheetsPage {
    layout: Layout,
    nav: Nav,
    here: &'static str,
    wanted: Wanted,
    teacher: String,
    classes: Vec<(String, String)>,
    kits: Vec<(String, String)>,
    slips: Vec<(String, String)>,
    found: usize,
    lines: Vec<SheetLine>,
}

/// The page.
pub(super) async fn get(state: AppState, Query(wanted): Query<Wanted>, by: SignedIn) -> Reply {
    let loaded = wanted.load(&state, &by).await?;
    let found = wanted.find(&loaded);
    let frame = &loaded.frame;
    let teacher = frame
        .teachers
        .iter()
        .find(|t| t.id.0.to_string() == wanted.teacher);
    Ok(Page(SheetsPage {
        layout: by.layout,
        here: "/year/sheets",
        teacher: teacher.map_or_else(String::new, |teacher| teacher.name.clone()),
        classes: options(frame.classes.iter().map(|c| (c.id.0, c.name.clone()))),
        kits: options(frame.kits.iter().map(|kit| (kit.id.0, kit.label.clone()))),
        slips: slips(&loaded),
        found: found.len(),
        lines: found
            .iter()
            .take(MOST)
            .map(|at| SheetLine::of(&loaded, *at))
            .collect(),
        nav: loaded.nav,
        wanted,
    })
    .into_response())
}

impl Wanted {
    /// Loads the year that the sheets are of.
    pub(super) async fn load(&self, state: &AppState, by: &SignedIn) -> Result<OneByOne, AppError> {
        if !self.teacher.trim().is_empty() {
            teachers::for_head(by)?;
        }
        self.asked().sheets(state, by).await
    }

    /// The year that is asked for.
    pub(super) fn asked(&self) -> Asked {
        Asked {
            year: self.year.clone(),
        }
    }

    /// The sheets that are wanted, as places in the year.
    pub(super) fn find(&self, loaded: &OneByOne) -> Vec<usize> {
        let year = &loaded.sheets.year;
        let sheets = year.sheets.iter().enumerate();
        let slip = self.slip();
        let is_wanted = |sheet: &analysis::year::YearSheet| {
            let lesson = &loaded.frame.lessons[sheet.lesson];
            let is = |wanted: &str, has: &str| wanted.trim().is_empty() || wanted.trim() == has;
            let mut kits = sheet
                .kits
                .iter()
                .map(|kit| loaded.frame.kits[*kit].id.0.to_string());
            is(&self.class, &lesson.class_id.0.to_string())
                && is(&self.teacher, &lesson.staff_id.0.to_string())
                && is(&self.method, &lesson.method)
                && (self.kit.trim().is_empty() || kits.any(|kit| kit == self.kit.trim()))
                && match slip {
                    None => self.slip.trim().is_empty(),
                    Some(slip) => sheet.made.contains(&slip),
                }
        };
        sheets
            .filter(|(_, sheet)| is_wanted(sheet))
            .map(|(at, _)| at)
            .collect()
    }

    fn slip(&self) -> Option<Made> {
        let (place, code) = self.slip.trim().split_once('.')?;
        slip::named(place, code)
    }

    /// The same as it stands in an address.
    fn address(&self, nav: &Nav) -> String {
        let parts = [
            ("class", &self.class),
            ("teacher", &self.teacher),
            ("kit", &self.kit),
            ("method", &self.method),
            ("slip", &self.slip),
        ];
        // Ids and codes: whatever else was typed finds nothing anyway.
        let plain = |text: &str| {
            text.chars()
                .all(|c| c.is_ascii_alphanumeric() || matches!(c, '-' | '.'))
        };
        let parts = parts
            .into_iter()
            .filter(|(_, text)| !text.is_empty() && plain(text));
        parts.fold(
            format!("year={}", nav.school_year),
            |address, (name, text)| format!("{address}&{name}={text}"),
        )
    }
}

fn options(named: impl Iterator<Item = (i64, String)>) -> Vec<(String, String)> {
    named.map(|(id, name)| (id.to_string(), name)).collect()
}

/// The slips that anybody made, to choose from.
fn slips(loaded: &OneByOne) -> Vec<(String, String)> {
    let made = loaded
        .sheets
        .year
        .sheets
        .iter()
        .flat_map(|sheet| &sheet.made);
    let mut made: Vec<Made> = made.copied().collect();
    made.sort_unstable();
    made.dedup();
    let slips = made.into_iter().map(|slip| {
        let (place, code) = (slip_words::place(slip), slip_words::code(slip));
        let name = format!("{} (in the {place})", slip_words::short(slip));
        (format!("{place}.{code}"), name)
    });
    slips.collect()
}
