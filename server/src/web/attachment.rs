//! Files to be saved.

use axum::http::header::{CONTENT_DISPOSITION, CONTENT_TYPE};
use axum::response::{IntoResponse, Response};

use crate::table::{Table, workbook};
use crate::web::error::AppError;

const CSV: &str = "text/csv; charset=utf-8";
const XLSX: &str = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

/// A file to be saved, never to be shown.
#[derive(Debug)]
pub struct Attachment {
    /// Letters, digits, points and hyphens alone.
    name: String,
    kind: &'static str,
    bytes: Vec<u8>,
}

impl Attachment {
    /// Makes a CSV file.
    ///
    /// # Errors
    /// When it cannot be written.
    pub fn csv(name: String, table: &Table) -> Result<Self, AppError> {
        let (kind, bytes) = (CSV, table.csv().map_err(AppError::internal)?);
        Ok(Self { name, kind, bytes })
    }

    /// Makes a workbook at `now` (Unix ms), with the name of each table on its
    /// tab.
    ///
    /// # Errors
    /// When a table is too large for one.
    pub fn workbook(name: String, tables: &[(&str, Table)], now: i64) -> Result<Self, AppError> {
        let (kind, bytes) = (XLSX, workbook(tables, now).map_err(AppError::internal)?);
        Ok(Self { name, kind, bytes })
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
