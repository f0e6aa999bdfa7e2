//! A note on a sheet.

use analysis::field::Field;

use super::{Act, Doing, Staff};
use crate::db::annotation::{self, NewAnnotation};
use crate::db::{Error, bench, class_set, revision};
use crate::ids::{ClassSetId, SheetId};

/// Longest note, in characters.
const LONGEST: usize = 2000;

/// Adds a note to a sheet, to a row that its newest revision has, or to a
/// figure of its method.
#[derive(Clone, Debug)]
pub struct AddNote {
    /// The class set of the sheet.
    pub class_set: ClassSetId,
    /// Label of its bench.
    pub label: String,
    /// Label of the row; `None` where it is about no row in particular.
    pub row: Option<String>,
    /// Name of the box; `None` where it is about no figure in particular.
    pub step: Option<String>,
    /// The note.
    pub body: String,
    /// Whether the group is to read it.
    pub for_group: bool,
}

/// Why a note cannot be added.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotNoted {
    /// There is no such bench.
    NoSuchBench,
    /// Nothing was written.
    Blank,
    /// The note is longer than 2000 characters.
    Long,
    /// The newest revision has no such row.
    NoSuchRow,
    /// The method has no such figure.
    NoSuchStep,
}

impl Act for AddNote {
    type By = Staff;
    type Done = Result<(), NotNoted>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<Self::Done, Error> {
        let class_set = class_set::get(doing.db, self.class_set).await?;
        let Some(bench) = bench::find(doing.db, self.class_set, &self.label).await? else {
            return Ok(Err(NotNoted::NoSuchBench));
        };
        match self.body.chars().count() {
            0 => return Ok(Err(NotNoted::Blank)),
            length if length > LONGEST => return Ok(Err(NotNoted::Long)),
            _ => {}
        }
        if let Some(row) = &self.row
            && !has_row(doing, bench.sheet_id, row).await?
        {
            return Ok(Err(NotNoted::NoSuchRow));
        }
        let method = class_set.method()?;
        let is_known = |step: &String| Field::named(step).is_some_and(|f| method.has(f));
        if !self.step.as_ref().is_none_or(is_known) {
            return Ok(Err(NotNoted::NoSuchStep));
        }
        let new = NewAnnotation {
            sheet_id: bench.sheet_id,
            row_label: self.row,
            step: self.step,
            body: self.body,
            for_group: self.for_group,
            staff_id: by.id,
            written_at: doing.at,
        };
        annotation::insert(doing.db, &new).await?;
        Ok(Ok(()))
    }
}

async fn has_row(doing: &mut Doing<'_>, sheet: SheetId, label: &str) -> Result<bool, Error> {
    let newest = revision::find_latest(doing.db, sheet).await?;
    let has = |rows: &[analysis::sheet::TypedRow]| rows.iter().any(|row| row.label == label);
    Ok(newest.is_some_and(|newest| has(&newest.entry.sheet.rows)))
}
