//! The year's tables as files: each as CSV, and all in one workbook.

use axum::extract::{Path, Query, State};
use axum::response::{IntoResponse, Response};

use super::asked::{OneByOne, Years};
use super::sheets::Wanted;
use super::teachers::for_head;
use crate::error::AppError;
use crate::files::workbook::{Contents, workbook};
use crate::files::year as files;
use crate::off_thread::off_thread;
use crate::pages::files::download::Attachment;
use crate::session::SignedIn;
use crate::state::AppState;

/// Where teachers are compared.
const TEACHERS: &str = "teachers.csv";

const WORKBOOK: &str = "workbook.xlsx";

/// A table that is written out as CSV.
type Written = csv::Result<Vec<u8>>;

/// One of the year's tables.
struct Table {
    /// Its tab in the workbook.
    tab: &'static str,
    /// Its file.
    file: &'static str,
    written: Basis,
}

/// What a table is written from. Figures go by the places of classes,
/// teachers and kits in their own frame, so each table takes its names from
/// where it has its figures: the two are read one after the other, and a kit
/// may be listed in between.
enum Basis {
    /// The figures of the year and of the one before.
    Figures(fn(&Years) -> Written),
    /// The sheets one by one.
    Sheets(fn(&OneByOne, &Wanted) -> Written),
    /// The sheets, beside what stands of the year before by name.
    Both(fn(&OneByOne, &Years) -> Written),
}

static TABLES: [Table; 6] = [
    Table {
        tab: "Kits",
        file: "kits.csv",
        written: Basis::Figures(kits),
    },
    Table {
        tab: "Kits by lesson",
        file: "kit-lessons.csv",
        written: Basis::Sheets(|loaded, _| files::kit_lessons(&loaded.frame, &loaded.sheets)),
    },
    Table {
        tab: "Slips",
        file: "slips.csv",
        written: Basis::Both(slips),
    },
    Table {
        tab: "Classes",
        file: "classes.csv",
        written: Basis::Figures(classes),
    },
    Table {
        tab: "Teachers",
        file: TEACHERS,
        written: Basis::Figures(teachers),
    },
    Table {
        tab: "Sheets",
        file: "sheets.csv",
        written: Basis::Sheets(|loaded, wanted| {
            files::sheets(&loaded.frame, &loaded.sheets, &wanted.find(loaded))
        }),
    },
];

/// One of the files of a year.
pub(super) async fn get(
    State(state): State<AppState>,
    Path(name): Path<String>,
    Query(wanted): Query<Wanted>,
    by: SignedIn,
) -> Result<Response, AppError> {
    if name == WORKBOOK {
        return workbook_of_all(&state, wanted, &by).await;
    }
    let table = TABLES
        .iter()
        .find(|table| table.file == name)
        .ok_or(AppError::NotFound("There is no such file of the year."))?;
    if table.file == TEACHERS {
        for_head(&by)?;
    }
    let (school_year, csv) = match table.written {
        Basis::Figures(write) => {
            let years = wanted.asked().years(&state, &by).await?;
            off_thread(move || (years.nav.school_year, write(&years))).await
        }
        Basis::Sheets(write) => {
            let loaded = wanted.load(&state, &by).await?;
            off_thread(move || (loaded.nav.school_year, write(&loaded, &wanted))).await
        }
        Basis::Both(write) => {
            let years = wanted.asked().years(&state, &by).await?;
            let loaded = wanted.load(&state, &by).await?;
            off_thread(move || (loaded.nav.school_year, write(&loaded, &years))).await
        }
    };
    let csv = csv.map_err(AppError::internal)?;
    Ok(Attachment::csv(format!("year-{school_year}-{name}"), csv).into_response())
}

/// Everything that its reader may see, in one workbook.
async fn workbook_of_all(
    state: &AppState,
    wanted: Wanted,
    by: &SignedIn,
) -> Result<Response, AppError> {
    let years = wanted.asked().years(state, by).await?;
    let loaded = wanted.load(state, by).await?;
    let saved_as = format!("year-{}-{WORKBOOK}", years.nav.school_year);
    let now = state.clock.now();
    let bytes = off_thread(move || all(&years, &loaded, &wanted, now)).await?;
    Ok(Attachment::workbook(saved_as, bytes).into_response())
}

fn all(years: &Years, loaded: &OneByOne, wanted: &Wanted, now: i64) -> Result<Vec<u8>, AppError> {
    let tables = TABLES
        .iter()
        .filter(|table| years.nav.is_head || table.file != TEACHERS);
    let written = tables.map(|table| {
        let csv = match table.written {
            Basis::Figures(write) => write(years),
            Basis::Sheets(write) => write(loaded, wanted),
            Basis::Both(write) => write(loaded, years),
        };
        Ok((table.tab, csv.map_err(AppError::internal)?))
    });
    let written = written.collect::<Result<Vec<_>, AppError>>()?;
    let sheets = written.iter().map(|(name, csv)| Contents { name, csv });
    workbook(&sheets.collect::<Vec<_>>(), now).map_err(AppError::internal)
}

fn kits(years: &Years) -> Written {
    let before = years.before.as_ref().map(|before| &before.comparison);
    files::kits(&years.now.frame, &years.now.comparison, before)
}

fn slips(loaded: &OneByOne, years: &Years) -> Written {
    let before = years.before.as_ref().map(|before| &before.comparison);
    let before = before.map(|year| year.slips.as_slice());
    files::slips(&loaded.frame, &loaded.sheets, before)
}

fn classes(years: &Years) -> Written {
    let names = years.now.frame.classes.iter();
    let names: Vec<_> = names.map(|class| class.name.as_str()).collect();
    files::cells("class", &names, &years.now.comparison.classes)
}

fn teachers(years: &Years) -> Written {
    let names = years.now.frame.teachers.iter();
    let names: Vec<_> = names.map(|teacher| teacher.name.as_str()).collect();
    files::cells("teacher", &names, &years.now.comparison.teachers)
}
