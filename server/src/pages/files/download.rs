//! Downloads: the set's readings, what is judged of them, and all in one
//! workbook.

use axum::extract::{Path, State};
use axum::http::header::{CONTENT_DISPOSITION, CONTENT_TYPE};
use axum::response::{IntoResponse, Response};

use super::marks;
use super::stored::Stored;
use crate::db::class_set::ClassSet;
use crate::error::AppError;
use crate::files;
use crate::files::assess::assess;
use crate::files::export;
use crate::files::workbook::{Contents, workbook};
use crate::ids::ClassSetId;
use crate::off_thread::off_thread;
use crate::pages::register::set::SetRegister;
use crate::pages::register::show::load as load_register;
use crate::session::SignedIn;
use crate::state::AppState;

const CSV: &str = "text/csv; charset=utf-8";
const XLSX: &str = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

const NO_SUCH_FILE: AppError =
    AppError::NotFound("There is no such file. Open the page of files and choose one.");

/// A file to be saved, never to be shown.
pub(in crate::pages) struct Attachment {
    /// Letters, digits, points and hyphens alone.
    pub(in crate::pages) name: String,
    pub(in crate::pages) kind: &'static str,
    pub(in crate::pages) bytes: Vec<u8>,
}

impl Attachment {
    /// A CSV file.
    pub(in crate::pages) fn csv(name: String, bytes: Vec<u8>) -> Self {
        let kind = CSV;
        Self { name, kind, bytes }
    }

    /// A workbook.
    pub(in crate::pages) fn workbook(name: String, bytes: Vec<u8>) -> Self {
        let kind = XLSX;
        Self { name, kind, bytes }
    }
}

impl IntoResponse for Attachment {
    fn into_response(self) -> Response {
        let saved_as = format!("attachment; filename=\"{}\"", self.name);
        let headers = [
            (CONTENT_TYPE, self.kind.to_owned()),
            (CONTENT_DISPOSITION, saved_as),
        ];
        (headers, self.bytes).into_response()
    }
}

/// One of the files of a class set.
pub(super) async fn get(
    State(state): State<AppState>,
    by: SignedIn,
    Path((id, name)): Path<(ClassSetId, String)>,
) -> Result<Response, AppError> {
    let stored = Stored::load(&mut state.reader(&by).await?, id).await?;
    let bytes = match name.as_str() {
        "readings.csv" => readings(&stored)?,
        "flags.csv" => judged(&stored).await?.flags,
        "groups.csv" => judged(&stored).await?.groups,
        "marks.csv" => marks::csv(&state, &by, id).await?,
        "register.csv" => register(&state, &load_register(&state, &by, id).await?)?,
        "workbook.xlsx" => whole_workbook(&state, &by, &stored).await?,
        _ => return Err(NO_SUCH_FILE),
    };
    let kind = if name.ends_with(".csv") { CSV } else { XLSX };
    let name = file_name(&stored.class_set, &name);
    Ok(Attachment { name, kind, bytes }.into_response())
}

/// A name that says which class set it is of, without anybody's words in it:
/// `class-set-12-2026-11-24-readings.csv`.
fn file_name(class_set: &ClassSet, file: &str) -> String {
    format!("class-set-{}-{}-{file}", class_set.id, class_set.held_on)
}

async fn whole_workbook(
    state: &AppState,
    by: &SignedIn,
    stored: &Stored,
) -> Result<Vec<u8>, AppError> {
    let csv = readings(stored)?;
    let judged = judged(stored).await?;
    let marks = marks::csv(state, by, stored.class_set.id).await?;
    let register = load_register(state, by, stored.class_set.id).await?;
    let is_register_begun = !register.lines.is_empty();
    let register = self::register(state, &register)?;
    let mut sheets = vec![
        ("Readings", csv),
        ("Groups", judged.groups),
        ("Flags", judged.flags),
        ("Marks", marks),
    ];
    if is_register_begun {
        sheets.push(("Register", register));
    }
    let now = state.clock.now();
    let writing = off_thread(move || {
        let sheets = sheets.iter().map(|(name, csv)| Contents { name, csv });
        workbook(&sheets.collect::<Vec<_>>(), now)
    });
    writing.await.map_err(AppError::internal)
}

/// The register file.
fn register(state: &AppState, set: &SetRegister) -> Result<Vec<u8>, AppError> {
    let mut csv = Vec::new();
    files::register::write(&mut csv, &[set.for_file(&state.zone)]).map_err(AppError::internal)?;
    Ok(csv)
}

/// The readings file.
fn readings(stored: &Stored) -> Result<Vec<u8>, AppError> {
    let class = &stored.class_set.class_name;
    let mut csv = Vec::new();
    export::write(&mut csv, class, stored.method, stored.entries()).map_err(AppError::internal)?;
    Ok(csv)
}

struct Judged {
    flags: Vec<u8>,
    groups: Vec<u8>,
}

/// What `crestcount assess` says of the readings file.
async fn judged(stored: &Stored) -> Result<Judged, AppError> {
    let readings = readings(stored)?;
    let judging = off_thread(move || {
        let (mut flags, mut groups) = (Vec::new(), Vec::new());
        let done = assess(&*readings, &mut flags, &mut groups, 1);
        done.map(|_| Judged { flags, groups })
    });
    judging.await.map_err(AppError::internal)
}
