//! The year's tables as files: each as CSV, and all in one workbook.

use axum::extract::{Path, Query, State};
use axum::response::{IntoResponse, Response};

use super::asked::{Asked, OneByOne, Years};
use super::sheets::Wanted;
use super::teachers::for_head;
use crate::error::AppError;
use crate::files::workbook::{Contents, workbook};
use crate::files::year as files;
use crate::pages::files::download::Attachment;
use crate::session::SignedIn;
use crate::state::AppState;

/// Where teachers are compared.
const TEACHERS: &str = "teachers.csv";

/// The tables of the workbook: the names of their tabs, and their files.
const TABS: [(&str, &str); 6] = [
    ("Kits", "kits.csv"),
    ("Kits by lesson", "kit-lessons.csv"),
    ("Slips", "slips.csv"),
    ("Classes", "classes.csv"),
    ("Teachers", TEACHERS),
    ("Sheets", "sheets.csv"),
];

const NO_SUCH_FILE: AppError = AppError::NotFound("There is no such file of the year.");

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
    if name == TEACHERS {
        for_head(&by)?;
    }
    let asked = Asked {
        year: wanted.year.clone(),
    };
    let tables = Tables {
        years: asked.years(&state, &by).await?,
        loaded: wanted.load(&state, &by).await?,
        wanted,
    };
    let saved_as = format!("year-{}-{name}", tables.years.nav.school_year);
    let file = if name == "workbook.xlsx" {
        Attachment::workbook(saved_as, tables.workbook(state.clock.now())?)
    } else {
        Attachment::csv(saved_as, tables.csv(&name)?)
    };
    Ok(file.into_response())
}

/// All that the files are made from.
struct Tables {
    years: Years,
    loaded: OneByOne,
    wanted: Wanted,
}

impl Tables {
    fn csv(&self, name: &str) -> Result<Vec<u8>, AppError> {
        let OneByOne { frame, sheets, .. } = &self.loaded;
        let now = &self.years.now.comparison;
        let before = self.years.before.as_ref().map(|before| &before.comparison);
        let written = match name {
            "kits.csv" => files::kits(frame, now, before),
            "kit-lessons.csv" => files::kit_lessons(frame, sheets),
            "slips.csv" => files::slips(frame, sheets, before.map(|year| year.slips.as_slice())),
            "classes.csv" => {
                let classes = frame.classes.iter().map(|class| class.name.as_str());
                files::cells("class", &classes.collect::<Vec<_>>(), &now.classes)
            }
            TEACHERS => {
                let teachers = frame.teachers.iter().map(|teacher| teacher.name.as_str());
                files::cells("teacher", &teachers.collect::<Vec<_>>(), &now.teachers)
            }
            "sheets.csv" => files::sheets(frame, sheets, &self.wanted.find(&self.loaded)),
            _ => return Err(NO_SUCH_FILE),
        };
        written.map_err(AppError::internal)
    }

    /// Everything that its reader may see, in one workbook.
    fn workbook(&self, now: i64) -> Result<Vec<u8>, AppError> {
        let is_head = self.years.nav.is_head;
        let tabs = TABS.iter().filter(|(_, file)| is_head || *file != TEACHERS);
        let tables = tabs.map(|(name, file)| Ok((*name, self.csv(file)?)));
        let tables = tables.collect::<Result<Vec<_>, AppError>>()?;
        let sheets = tables.iter().map(|(name, csv)| Contents { name, csv });
        workbook(&sheets.collect::<Vec<_>>(), now).map_err(AppError::internal)
    }
}
