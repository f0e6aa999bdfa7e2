//! Downloads: the set's readings, what is judged of them, and all in one
//! workbook.

use std::collections::HashMap;

use axum::extract::{Path, State};
use axum::response::{IntoResponse, Response};

use super::stored::StoredClass;
use crate::db::revision;
use crate::files;
use crate::files::assess::{Results, assess_class_set};
use crate::ids::ClassSetId;
use crate::off_thread::off_thread;
use crate::pages::register::set::SetRegister;
use crate::pages::register::show::load as load_register;
use crate::report::desk::first;
use crate::table::Table;
use crate::web::attachment::Attachment;
use crate::web::error::AppError;
use crate::web::session::SignedIn;
use crate::web::state::AppState;
use crate::words::file;

const NO_SUCH_FILE: AppError = AppError::NotFound(file::NO_SUCH_FILE);

/// Returns one of the files of a class set.
pub(super) async fn get(
    State(state): State<AppState>,
    by: SignedIn,
    Path((id, name)): Path<(ClassSetId, String)>,
) -> Result<Response, AppError> {
    let stored = StoredClass::load(&mut state.reader(&by).await?, id).await?;
    // Says which class set it is of, without anybody's words in it.
    let saved_as = format!("class-set-{id}-{}-{name}", stored.class_set.held_on);
    let table = match name.as_str() {
        "readings.csv" => readings(&stored),
        "flags.csv" => judged(&stored).await?.flags,
        "groups.csv" => judged(&stored).await?.groups,
        "marks.csv" => marks(&state, &by, id).await?,
        "register.csv" => register(&state, &load_register(&state, &by, id).await?),
        "workbook.xlsx" => {
            let tables = all(&state, &by, &stored).await?;
            let now = state.clock.now();
            let workbook = off_thread(move || Attachment::workbook(saved_as, &tables, now)).await;
            return Ok(workbook?.into_response());
        }
        _ => return Err(NO_SUCH_FILE),
    };
    Ok(Attachment::csv(saved_as, &table)?.into_response())
}

/// Returns the tables of the workbook, each with the name of its sheet.
async fn all(
    state: &AppState,
    by: &SignedIn,
    stored: &StoredClass,
) -> Result<Vec<(&'static str, Table)>, AppError> {
    let judged = judged(stored).await?;
    let mut tables = vec![
        ("Readings", readings(stored)),
        ("Groups", judged.groups),
        ("Flags", judged.flags),
        ("Marks", marks(state, by, stored.class_set.id).await?),
    ];
    let set = load_register(state, by, stored.class_set.id).await?;
    if !set.lines.is_empty() {
        tables.push(("Register", register(state, &set)));
    }
    Ok(tables)
}

fn register(state: &AppState, set: &SetRegister) -> Table {
    files::register::table(&[set.for_file()], &state.zone)
}

fn readings(stored: &StoredClass) -> Table {
    let class = &stored.class_set.class_name;
    files::export::table(class, stored.method, stored.entries())
}

async fn marks(state: &AppState, by: &SignedIn, id: ClassSetId) -> Result<Table, AppError> {
    let mut db = state.reader(by).await?;
    let desk = first::load(&mut db, id, None).await?;
    let versions = revision::list_versions(&mut db, id).await?;
    drop(db);
    let versions: HashMap<_, _> = versions.into_iter().collect();
    Ok(files::marks::table(&desk, &versions, &state.zone))
}

/// Returns what `crestcount assess` says of the readings file.
async fn judged(stored: &StoredClass) -> Result<Results, AppError> {
    let readings = readings(stored).csv().map_err(AppError::internal)?;
    let judging = off_thread(move || assess_class_set(&*readings));
    judging.await.map_err(AppError::internal)
}
