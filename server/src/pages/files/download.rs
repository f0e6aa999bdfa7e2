//! Downloads: the set's readings, what is judged of them, and all in one
//! workbook.

use axum::extract::{Path, State};
use axum::http::header::{CONTENT_DISPOSITION, CONTENT_TYPE};
use axum::response::{IntoResponse, Response};
use tokio::task::spawn_blocking;

use super::stored::Stored;
use crate::db::class_set::ClassSet;
use crate::error::AppError;
use crate::files::assess::assess;
use crate::files::export;
use crate::files::workbook::{Contents, workbook};
use crate::ids::ClassSetId;
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
///
/// # Errors
/// Not found for an unknown class set or file.
pub async fn get(
    State(state): State<AppState>,
    _by: SignedIn,
    Path((id, name)): Path<(i64, String)>,
) -> Result<Response, AppError> {
    let stored = Stored::load(&mut *state.store.reader().await?, ClassSetId(id)).await?;
    let bytes = match name.as_str() {
        "readings.csv" => readings(&stored)?,
        "flags.csv" => judged(&stored).await?.flags,
        "groups.csv" => judged(&stored).await?.groups,
        "workbook.xlsx" => whole_workbook(&stored, state.clock.now()).await?,
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

async fn whole_workbook(stored: &Stored, now: i64) -> Result<Vec<u8>, AppError> {
    let csv = readings(stored)?;
    let judged = judged(stored).await?;
    let contents = [
        Contents {
            name: "Readings",
            csv: &csv,
        },
        Contents {
            name: "Groups",
            csv: &judged.groups,
        },
        Contents {
            name: "Flags",
            csv: &judged.flags,
        },
    ];
    workbook(&contents, now).map_err(AppError::internal)
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
    let judging = spawn_blocking(move || {
        let (mut flags, mut groups) = (Vec::new(), Vec::new());
        let done = assess(&*readings, &mut flags, &mut groups, 1);
        done.map(|_| Judged { flags, groups })
    });
    let judged = judging.await.map_err(AppError::internal)?;
    judged.map_err(AppError::internal)
}
