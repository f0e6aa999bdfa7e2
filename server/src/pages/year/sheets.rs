//! The sheets of a year, by class, practical, kit and slip: what every figure
//! of the year's pages leads to.

use std::collections::BTreeSet;

use analysis::figure::significant;
use analysis::method::Method;
use analysis::year::{Made, YearSheet};
use axum::extract::Query;
use serde::Deserialize;

use super::{HEAD_ALONE, Nav, OneByOne, YearQuery};
use crate::db::kit::Kit;
use crate::db::year::YearLesson;
use crate::ids::ClassId;
use crate::report::year::Named;
use crate::table::{Cell, Columns, PageTable, Table};
use crate::web::error::{AppError, Reply};
use crate::web::layout::{Layout, Page};
use crate::web::session::SignedIn;
use crate::web::state::AppState;
use crate::words::share::ratio;
use crate::words::time::long_date;
use crate::words::title;
use crate::words::year::short;

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
    wanted: Wanted,
    teacher: String,
    choices: [Choice; 4],
    found: usize,
    table: PageTable,
}

/// A list to choose from: its name and label, and what may be chosen.
struct Choice {
    name: &'static str,
    label: &'static str,
    any: &'static str,
    chosen: String,
    options: Vec<(String, String)>,
}

/// Shows the page.
pub(super) async fn get(state: AppState, Query(wanted): Query<Wanted>, by: SignedIn) -> Reply {
    let loaded = wanted.load(&state, &by).await?;
    let found = wanted.find(&loaded);
    let mut teachers = loaded.frame.teachers.iter();
    let teacher = teachers.find(|one| one.id.0.to_string() == wanted.teacher);
    let shown = &found[..found.len().min(MOST)];
    Page(SheetsPage {
        layout: by.layout,
        teacher: teacher.map_or_else(String::new, |teacher| teacher.name.clone()),
        choices: wanted.choices(&loaded),
        found: found.len(),
        table: loaded.table(shown),
        nav: loaded.nav,
        wanted,
    })
    .reply()
}

impl OneByOne {
    pub(super) fn sheet(&self, at: usize) -> (&YearSheet, &YearLesson) {
        let sheet = &self.sheets.year.sheets[at];
        (sheet, &self.frame.lessons[sheet.lesson])
    }

    /// Returns the group of a sheet, with a link to it.
    pub(super) fn group(&self, at: usize) -> Cell {
        let (group, (_, lesson)) = (&self.sheets.labels[at], self.sheet(at));
        let date = long_date(&lesson.held_on);
        Cell::from(group).link_called(
            format!("/class-sets/{}/sheets/{group}", lesson.id),
            format!("Sheet of group {group}, {}, {date}", lesson.class_name),
        )
    }

    fn table(&self, sheets: &[usize]) -> PageTable {
        let lesson = |at: &usize| self.sheet(*at).1;
        let dated = Table::of(sheets)
            .name("Date", |at| long_date(&lesson(at).held_on))
            .text("Class", |at| {
                let (class, date) = (&lesson(at).class_name, long_date(&lesson(at).held_on));
                let summary = format!("/class-sets/{}/summary", lesson(at).id);
                Cell::from(class).link_called(summary, format!("Summary of {class}, {date}"))
            })
            .text("Group", |at| self.group(*at))
            .text("Practical", |at| title(self.practical(*at)));
        self.figures(dated).on_page(
            "Table of sheets",
            "Sheets that were handed in, as they are now, by date",
        )
    }

    fn practical(&self, at: usize) -> Method {
        self.sheets.year.lesson(self.sheet(at).0).method
    }

    /// Adds what a sheet says, and what counts of it.
    pub(super) fn figures<'t>(&self, columns: Columns<'t, usize>) -> Columns<'t, usize> {
        let sheet = |at: &usize| self.sheet(*at).0;
        let speed = |speed: Option<f64>| speed.map_or_else(String::new, |v| significant(v, 3));
        columns
            .name("Kit", |at| &self.sheets.kits_as_written[*at])
            .figure("Speed", |at| speed(sheet(at).judgement.speed))
            .unit("m/s")
            .figure("Expected", |at| speed(sheet(at).judgement.expected))
            .unit("m/s")
            .figure("Speed ÷ expected", |at| {
                ratio(sheet(at).judgement.log_ratio().map(f64::exp))
            })
            .text("What counts of it", |at| {
                Cell::lines(sheet(at).made.iter().map(|made| slip_cell(*made)))
            })
            .figure("Marks", |at| {
                let mark = sheet(at).mark;
                mark.map_or_else(String::new, |mark| format!("{:.0} %", 100.0 * mark))
            })
    }
}

/// Returns a slip in a few words, with its mark: full where the working shows
/// it, open where a teacher confirmed it.
pub(super) fn slip_cell(made: Made) -> Cell {
    Cell::from(short(made)).class(match made {
        Made::Shown(_) => "slip shown",
        Made::Confirmed(_) => "slip inferred",
    })
}

/// Refuses whoever may not see teachers compared.
pub(super) fn for_head(by: &SignedIn) -> Result<(), AppError> {
    if by.is_head() {
        return Ok(());
    }
    Err(AppError::Forbidden(HEAD_ALONE))
}

impl Wanted {
    /// Loads the year that the sheets are of.
    pub(super) async fn load(&self, state: &AppState, by: &SignedIn) -> Result<OneByOne, AppError> {
        if !self.teacher.trim().is_empty() {
            for_head(by)?;
        }
        self.asked().sheets(state, by).await
    }

    /// Returns the year that is asked for.
    pub(super) fn asked(&self) -> YearQuery {
        YearQuery {
            year: self.year.clone(),
        }
    }

    /// Returns the sheets that are wanted, as places in the year.
    pub(super) fn find(&self, loaded: &OneByOne) -> Vec<usize> {
        let year = &loaded.sheets.year;
        let sheets = year.sheets.iter().enumerate();
        let slip = self.slip();
        let is_wanted = |sheet: &YearSheet| {
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
        Made::named(place, code)
    }

    /// Returns the address of their file.
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
        parts.fold(nav.to("/sheets.csv"), |address, (name, text)| {
            format!("{address}&{name}={text}")
        })
    }

    /// Returns the lists to choose from.
    fn choices(&self, loaded: &OneByOne) -> [Choice; 4] {
        let frame = &loaded.frame;
        let class = |class: &Named<ClassId>| (class.id.to_string(), class.name.clone());
        let method = |method: Method| (method.code().to_owned(), title(method).to_owned());
        let kit = |kit: &Kit| (kit.id.to_string(), kit.label.clone());
        [
            (
                "class",
                "Class",
                "Any",
                &self.class,
                frame.classes.iter().map(class).collect(),
            ),
            (
                "method",
                "Practical",
                "Any",
                &self.method,
                Method::ALL.map(method).to_vec(),
            ),
            (
                "kit",
                "Kit",
                "Any",
                &self.kit,
                frame.kits.iter().map(kit).collect(),
            ),
            ("slip", "Slip", "Any or none", &self.slip, slips(loaded)),
        ]
        .map(|(name, label, any, chosen, options)| Choice {
            name,
            label,
            any,
            chosen: chosen.clone(),
            options,
        })
    }
}

/// Returns the slips that anybody made, to choose from.
fn slips(loaded: &OneByOne) -> Vec<(String, String)> {
    let sheets = loaded.sheets.year.sheets.iter();
    let made: BTreeSet<Made> = sheets.flat_map(|sheet| &sheet.made).copied().collect();
    let slips = made.into_iter().map(|slip| {
        let (place, code) = (slip.place(), slip.code());
        (
            format!("{place}.{code}"),
            format!("{} (in the {place})", short(slip)),
        )
    });
    slips.collect()
}
