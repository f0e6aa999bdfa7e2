//! The year's tables as files: each as CSV, and all in one workbook.

use axum::extract::{Path, Query};
use axum::response::IntoResponse;

use super::sheets::{Wanted, for_head};
use super::{OneByOne, Years};
use crate::files::year as files;
use crate::off_thread::off_thread;
use crate::table::Table;
use crate::web::attachment::Attachment;
use crate::web::error::{AppError, Reply};
use crate::web::session::SignedIn;
use crate::web::state::AppState;
use crate::words::refusal;

/// Where teachers are compared.
const TEACHERS: &str = "teachers.csv";

const WORKBOOK: &str = "workbook.xlsx";

/// One of the year's tables.
struct File {
    /// Its tab in the workbook.
    tab: &'static str,
    name: &'static str,
    basis: Basis,
}

/// What a table is made from. Figures go by the places of classes,
/// teachers and kits in their own frame, so each table takes its names from
/// where it has its figures: the two are read one after the other, and a kit
/// may be listed in between.
enum Basis {
    /// The figures of the year and of the one before.
    Figures(fn(&Years) -> Table),
    Sheets(fn(&OneByOne, &Wanted) -> Table),
    /// The sheets, beside what stands of the year before by name.
    Both(fn(&OneByOne, &Years) -> Table),
}

static FILES: [File; 6] = [
    File {
        tab: "Kits",
        name: "kits.csv",
        basis: Basis::Figures(|years| {
            let now = &years.now;
            files::kits(&now.frame, &now.comparison, years.earlier())
        }),
    },
    File {
        tab: "Kits by lesson",
        name: "kit-lessons.csv",
        basis: Basis::Sheets(|loaded, _| files::kit_lessons(&loaded.frame, &loaded.sheets)),
    },
    File {
        tab: "Slips",
        name: "slips.csv",
        basis: Basis::Both(|loaded, years| {
            let before = years.earlier().map(|before| before.slips.as_slice());
            files::slips(&loaded.frame, &loaded.sheets, before)
        }),
    },
    File {
        tab: "Classes",
        name: "classes.csv",
        basis: Basis::Figures(|Years { now, .. }| {
            files::cells("class", &now.frame.classes, &now.comparison.classes)
        }),
    },
    File {
        tab: "Teachers",
        name: TEACHERS,
        basis: Basis::Figures(|Years { now, .. }| {
            files::cells("teacher", &now.frame.teachers, &now.comparison.teachers)
        }),
    },
    File {
        tab: "Sheets",
        name: "sheets.csv",
        basis: Basis::Sheets(|loaded, wanted| {
            files::sheets(&loaded.frame, &loaded.sheets, &wanted.find(loaded))
        }),
    },
];

/// Shows one of the files of a year.
pub(super) async fn get(
    state: AppState,
    Path(name): Path<String>,
    Query(wanted): Query<Wanted>,
    by: SignedIn,
) -> Reply {
    if name == WORKBOOK {
        return workbook_of_all(&state, wanted, &by).await;
    }
    let mut files = FILES.iter();
    let file = files
        .find(|file| file.name == name)
        .ok_or(AppError::NotFound(refusal::NO_FILE_OF_YEAR))?;
    if file.name == TEACHERS {
        for_head(&by)?;
    }
    let written = match file.basis {
        Basis::Figures(table) => {
            let years = wanted.asked().years(&state, &by).await?;
            off_thread(move || csv(years.nav.school_year, &name, &table(&years))).await
        }
        Basis::Sheets(table) => {
            let loaded = wanted.load(&state, &by).await?;
            let write = move || csv(loaded.nav.school_year, &name, &table(&loaded, &wanted));
            off_thread(write).await
        }
        Basis::Both(table) => {
            let years = wanted.asked().years(&state, &by).await?;
            let loaded = wanted.load(&state, &by).await?;
            let write = move || csv(loaded.nav.school_year, &name, &table(&loaded, &years));
            off_thread(write).await
        }
    };
    Ok(written?.into_response())
}

fn csv(school_year: i64, name: &str, table: &Table) -> Result<Attachment, AppError> {
    Attachment::csv(format!("year-{school_year}-{name}"), table)
}

/// Shows everything that its reader may see, in one workbook.
async fn workbook_of_all(state: &AppState, wanted: Wanted, by: &SignedIn) -> Reply {
    let years = wanted.asked().years(state, by).await?;
    let loaded = wanted.load(state, by).await?;
    let now = state.clock.now();
    let written = off_thread(move || all(&years, &loaded, &wanted, now)).await;
    Ok(written?.into_response())
}

fn all(
    years: &Years,
    loaded: &OneByOne,
    wanted: &Wanted,
    now: i64,
) -> Result<Attachment, AppError> {
    let files = FILES.iter();
    let shown = files.filter(|file| years.nav.is_head || file.name != TEACHERS);
    let tables = shown.map(|file| {
        let table = match file.basis {
            Basis::Figures(table) => table(years),
            Basis::Sheets(table) => table(loaded, wanted),
            Basis::Both(table) => table(loaded, years),
        };
        (file.tab, table)
    });
    let saved_as = format!("year-{}-{WORKBOOK}", years.nav.school_year);
    let tables: Vec<_> = tables.collect();
    Attachment::workbook(saved_as, &tables, now)
}
