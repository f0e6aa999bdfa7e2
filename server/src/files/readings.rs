//! A readings file, class by class, or (a short one) all of it with all that
//! is wrong in it.
//!
//! Class by class, one is in memory at a time, and of the classes before it 16
//! bytes each, so that one which comes back is noticed.

use std::collections::HashSet;
use std::io::Read;

use sha2::{Digest as _, Sha256};

use super::assumed::Assumptions;
pub use super::class_readings::ClassReadings;
use super::column::{Column, LONGEST_CELL, columns};
use super::csv_lines::CsvLines;
use super::fault::{Fault, ReadError};
use super::line::Line;
use crate::words::file;

/// Reads a file class by class.
pub struct Readings<'r> {
    table: CsvLines<'r>,
    columns: Vec<Column>,
    /// The current line of the table belongs to the class after this one.
    waiting: bool,
    /// What could not be read after the class given last.
    failed: Option<ReadError>,
    /// A digest of each class that has begun.
    begun: HashSet<[u8; 16]>,
    assumed: Assumptions,
}

impl std::fmt::Debug for Readings<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Readings")
            .field("columns", &self.columns)
            .finish_non_exhaustive()
    }
}

#[derive(Clone, Debug, Default)]
pub struct WholeFile {
    /// Its classes, in the order of the file.
    pub classes: Vec<ClassReadings>,
    pub assumed: Assumptions,
    /// What cannot be read, in the order of the file. Where there is any, a
    /// sheet may lack what stands in those cells.
    pub faults: Vec<Fault>,
}

impl<'r> Readings<'r> {
    /// Opens a readings file and reads its header line.
    ///
    /// # Errors
    /// An unknown column, one that is there twice, one that must be there and
    /// is not; an input that cannot be read.
    pub fn open(input: impl Read + Send + 'r) -> Result<Self, ReadError> {
        let table = CsvLines::open(input)?;
        let names: Result<Vec<_>, _> = (0..table.cells())
            .map(|index| table.cell(index, &format!("number {}", index + 1), LONGEST_CELL))
            .collect();
        let columns = columns(table.line(), names?.into_iter())?;
        let assumed = Assumptions {
            semicolons: table.semicolons(),
            ..Assumptions::default()
        };
        Ok(Self {
            table,
            columns,
            waiting: false,
            failed: None,
            begun: HashSet::new(),
            assumed,
        })
    }

    /// Returns what was assumed so far.
    #[must_use]
    pub fn assumed(&self) -> &Assumptions {
        &self.assumed
    }

    /// Returns the next class; `None` at the end of the file. Where a line of
    /// a class cannot be read, the lines before it are given first and the
    /// error with the next call, so that whoever checks figures as they come
    /// finds the first error of the file first.
    ///
    /// # Errors
    /// Whatever cannot be read, with its line and column: see [`Fault`]. After
    /// an error nothing more can be read. Figures are checked later, by
    /// `SheetReadings::check`.
    pub fn next_class(&mut self) -> Result<Option<ClassReadings>, ReadError> {
        if let Some(error) = self.failed.take() {
            return Err(error);
        }
        if !self.waiting && !self.table.next_line()? {
            return Ok(None);
        }
        let mut faults = Vec::new();
        let line = Line::of(&self.table, &self.columns, &mut faults);
        let mut class = ClassReadings::new(line.class);
        first(faults)?;
        self.begin(&class.class)?;
        self.failed = self.fill(&mut class).err();
        class.end();
        self.assumed.note_class(&class);
        Ok(Some(class))
    }

    /// Reads the lines of a class from the current one on.
    fn fill(&mut self, class: &mut ClassReadings) -> Result<(), ReadError> {
        loop {
            let mut faults = Vec::new();
            let line = Line::of(&self.table, &self.columns, &mut faults);
            self.waiting = line.class != class.class;
            if !self.waiting {
                self.assumed.note_line(self.table.line(), &line.cells);
                class.add(self.table.line(), &line, &mut faults);
            }
            first(faults)?;
            if self.waiting || !self.table.next_line()? {
                return Ok(());
            }
        }
    }

    fn begin(&mut self, class: &str) -> Result<(), Fault> {
        let mut digest = [0; 16];
        digest.copy_from_slice(&Sha256::digest(class)[..16]);
        if self.begun.insert(digest) {
            return Ok(());
        }
        let reason = file::class_ended(class);
        Err(Fault::in_column(self.table.line(), "class", reason))
    }

    /// Reads the file to its end, and goes on after what cannot be read as
    /// far as that is possible.
    #[must_use]
    pub fn whole(mut self) -> WholeFile {
        let (mut classes, mut faults) = (Vec::<ClassReadings>::new(), Vec::new());
        loop {
            match self.table.next_line() {
                Ok(true) => {}
                Ok(false) => break,
                Err(error) => {
                    faults.push(error.into_fault(self.table.line()));
                    if self.table.is_broken() {
                        break;
                    }
                    continue;
                }
            }
            let line = Line::of(&self.table, &self.columns, &mut faults);
            let is_same = classes.last().is_some_and(|last| last.class == line.class);
            if !is_same {
                let class = line.class.to_owned();
                classes.push(ClassReadings::new(&class));
            }
            self.assumed.note_line(self.table.line(), &line.cells);
            if let Some(class) = classes.last_mut() {
                class.add(self.table.line(), &line, &mut faults);
            }
            if !is_same && let Some(class) = classes.last() {
                faults.extend(self.begin(&class.class).err());
            }
        }
        for class in &mut classes {
            class.end();
            self.assumed.note_class(class);
        }
        WholeFile {
            classes,
            assumed: self.assumed,
            faults,
        }
    }
}

/// Returns the first fault of a line, where there is one.
fn first(faults: Vec<Fault>) -> Result<(), Fault> {
    faults.into_iter().next().map_or(Ok(()), Err)
}
