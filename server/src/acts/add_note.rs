//! A note on a sheet.

use analysis::field::Field;

use super::{Act, Doing, NotDone, Refused, Staff, refuse_if};
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
    pub body: String,
    /// Whether the group is to read it.
    pub for_group: bool,
}

/// Why a note cannot be added.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotNoted {
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

impl Act<Staff> for AddNote {
    type Done = ();
    type Stop = NotDone<NotNoted>;

    async fn perform(self, by: Staff, doing: &mut Doing<'_>) -> Result<(), Self::Stop> {
        let class_set = class_set::get(doing.db, self.class_set).await?;
        let bench = bench::find(doing.db, self.class_set, &self.label).await?;
        let bench = bench.ok_or(Refused(NotNoted::NoSuchBench))?;
        let length = self.body.chars().count();
        refuse_if(length == 0, NotNoted::Blank)?;
        refuse_if(length > LONGEST, NotNoted::Long)?;
        if let Some(row) = &self.row {
            let has_row = has_row(doing, bench.sheet_id, row).await?;
            refuse_if(!has_row, NotNoted::NoSuchRow)?;
        }
        let method = class_set.method()?;
        let is_unknown = |step: &String| Field::named(step).is_none_or(|f| !method.has(f));
        let is_unknown = self.step.as_ref().is_some_and(is_unknown);
        refuse_if(is_unknown, NotNoted::NoSuchStep)?;
        let new = NewAnnotation {
            sheet_id: bench.sheet_id,
            row_label: self.row,
            step: self.step,
            body: self.body,
            for_group: self.for_group,
            staff_id: by.id,
            written_at: doing.at,
        };
        Ok(annotation::insert(doing.db, &new).await?)
    }
}

async fn has_row(doing: &mut Doing<'_>, sheet: SheetId, label: &str) -> Result<bool, Error> {
    let newest = revision::find_latest(doing.db, sheet).await?;
    let has = |rows: &[analysis::sheet::TypedRow]| rows.iter().any(|row| row.label == label);
    Ok(newest.is_some_and(|newest| has(&newest.entry.sheet.rows)))
}
