//! A readings file judged, class by class.
//!
//! Classes are read until a batch is full; while a batch is judged on all
//! cores, the next is read. So two batches are in memory at most, each of at
//! most [`BATCH`] sheets and one class: memory grows with the largest class,
//! not with the file. The results are written in the order of the file.

use std::io::{self, Read, Write};

use analysis::assess::{Assessment, assess as assess_sheet};
use analysis::class_set::{GroupStanding, summarise};
use analysis::field::Field;
use analysis::method::Method;
use analysis::reading::{Inference, infer};
use analysis::sheet::Sheet;
use rayon::prelude::*;

use super::assumed::Assumptions;
use super::fault::{Fault, ReadError};
use super::readings::{ClassReadings, Readings};
use super::sheet_lines::SheetReadings;
use super::{flags, groups};
use crate::report::judge::{Submitted, read_together};
use crate::table::Table;

/// A batch is full once it has this many sheets. Some milliseconds of work:
/// enough to keep every core busy, and far smaller than a term's file.
pub const BATCH: usize = 256;

/// What was read and written.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Report {
    /// Classes read.
    pub classes: usize,
    /// Sheets judged.
    pub sheets: usize,
    /// Flags written.
    pub flags: usize,
    /// What was assumed while the file was read.
    pub assumed: Assumptions,
}

/// Why a file could not be assessed.
#[derive(Debug, thiserror::Error)]
pub enum AssessError {
    /// The readings could not be read.
    #[error(transparent)]
    Read(#[from] ReadError),
    /// The results could not be written.
    #[error("the results cannot be written: {0}")]
    Write(#[from] io::Error),
    /// The threads could not be started.
    #[error("the threads cannot be started: {0}")]
    Threads(#[from] rayon::ThreadPoolBuildError),
}

impl From<Fault> for AssessError {
    fn from(fault: Fault) -> Self {
        Self::Read(fault.into())
    }
}

impl From<csv::Error> for AssessError {
    fn from(error: csv::Error) -> Self {
        Self::Write(error.into())
    }
}

/// Judges readings, and writes flags and groups as the format says. `threads`
/// is the number of cores to use; 0 for all.
///
/// # Errors
/// At the first line in the file that cannot be read, with its place. Part of
/// the results has been written by then: see [`super::command`].
pub fn assess(
    readings: impl Read + Send,
    flags: impl Write,
    groups: impl Write,
    threads: usize,
) -> Result<Report, AssessError> {
    let mut flags = csv::Writer::from_writer(flags);
    let mut groups = csv::Writer::from_writer(groups);
    let begun = Results::default();
    begun.flags.write_names(&mut flags)?;
    begun.groups.write_names(&mut groups)?;
    let report = judge_all(readings, threads, |of_class| {
        of_class.flags.write_rows(&mut flags)?;
        of_class.groups.write_rows(&mut groups)
    })?;
    flags.flush()?;
    groups.flush()?;
    Ok(report)
}

/// Judges the readings of one class set.
///
/// # Errors
/// At the first line in the file that cannot be read, with its place.
pub fn assess_class_set(readings: impl Read + Send) -> Result<Results, AssessError> {
    let mut all = Results::default();
    judge_all(readings, 1, |of_class| {
        all.flags.append(of_class.flags);
        all.groups.append(of_class.groups);
        Ok(())
    })?;
    Ok(all)
}

/// Judges readings, and hands over the results of one class after the other.
fn judge_all(
    readings: impl Read + Send,
    threads: usize,
    mut take: impl FnMut(Results) -> csv::Result<()>,
) -> Result<Report, AssessError> {
    let pool = rayon::ThreadPoolBuilder::new()
        .num_threads(threads)
        .build()?;
    let mut readings = Readings::open(readings)?;
    let mut report = Report::default();
    let mut batch = read_batch(&mut readings);
    while !batch.classes.is_empty() {
        let (judged, next) = pool.join(|| judge(&batch.classes), || read_batch(&mut readings));
        for (class, judged) in batch.classes.iter().zip(judged?) {
            let results = Results::of(class, &judged);
            report.classes += 1;
            report.sheets += class.sheets.len();
            report.flags += results.flags.height();
            take(results)?;
        }
        batch.end?;
        batch = next;
    }
    batch.end?;
    report.assumed = readings.assumed().clone();
    Ok(report)
}

/// What is said of some readings.
#[derive(Clone, Debug)]
pub struct Results {
    /// A line for each thing to say.
    pub flags: Table,
    /// A line for each sheet.
    pub groups: Table,
}

impl Results {
    fn of(class: &ClassReadings, judged: &ClassJudged) -> Self {
        Self {
            flags: flags::table(class, judged),
            groups: groups::table(class, judged),
        }
    }
}

impl Default for Results {
    /// Returns tables without rows.
    fn default() -> Self {
        Self::of(&ClassReadings::default(), &ClassJudged::default())
    }
}

/// That a sheet's readings agree with another's beyond chance, or repeat
/// themselves without spread.
#[derive(Clone, Debug)]
pub(super) struct KitQuestion {
    /// The most probable of the questions that concern the sheet.
    pub(super) probability: f64,
    /// The column that is compared.
    pub(super) step: Field,
    /// Its first figure.
    pub(super) given: String,
}

/// A class's sheets assessed, with how each stands among those of its method
/// and what its readings suggest beside theirs.
#[derive(Default)]
pub(super) struct ClassJudged {
    pub(super) assessed: Vec<Assessment>,
    pub(super) standings: Vec<GroupStanding>,
    pub(super) inferences: Vec<Inference>,
    /// What there is to ask about each sheet.
    pub(super) asked: Vec<Option<KitQuestion>>,
}

/// Classes to judge together, and what came after them: an error is told
/// only when those before it in the file are known to be none.
struct Batch {
    classes: Vec<ClassReadings>,
    end: Result<(), ReadError>,
}

fn read_batch(readings: &mut Readings<'_>) -> Batch {
    let mut classes = Vec::new();
    let mut sheets = 0;
    let mut end = Ok(());
    while sheets < BATCH {
        match readings.next_class() {
            Ok(Some(class)) => {
                sheets += class.sheets.len();
                classes.push(class);
            }
            Ok(None) => break,
            Err(error) => {
                end = Err(error);
                break;
            }
        }
    }
    Batch { classes, end }
}

/// Judges a batch, or finds the first line in it that cannot be read.
fn judge(batch: &[ClassReadings]) -> Result<Vec<ClassJudged>, Fault> {
    let judged: Vec<_> = batch.par_iter().map(judge_class).collect();
    let mut classes = Vec::new();
    for class in judged {
        classes.push(class?);
    }
    Ok(classes)
}

fn judge_class(class: &ClassReadings) -> Result<ClassJudged, Fault> {
    let one = |sheet: &SheetReadings| {
        let sheet = sheet.check()?;
        let assessment = assess_sheet(&sheet);
        Ok((sheet, assessment))
    };
    let judged: Vec<Result<_, Fault>> = class.sheets.par_iter().map(one).collect();
    if let Some(first) = judged
        .iter()
        .filter_map(|sheet| sheet.as_ref().err())
        .min_by_key(|fault| fault.line)
    {
        return Err(first.clone());
    }
    let (sheets, assessed): (Vec<_>, Vec<_>) = judged.into_iter().flatten().unzip();
    let mut judged = ClassJudged {
        standings: vec![GroupStanding::default(); assessed.len()],
        inferences: vec![Inference::default(); assessed.len()],
        asked: vec![None; assessed.len()],
        assessed,
    };
    for method in Method::ALL {
        judged.judge_together(class, &sheets, &class.of_method(method));
    }
    Ok(judged)
}

impl ClassJudged {
    /// Judges sheets of one method beside each other, by their places in the
    /// class.
    fn judge_together(&mut self, class: &ClassReadings, sheets: &[Sheet], places: &[usize]) {
        let assessed = places.iter().map(|at| &self.assessed[*at]);
        let summary = summarise(&assessed.collect::<Vec<_>>());
        for (at, standing) in places.iter().zip(summary.standings) {
            self.standings[*at] = standing;
        }
        let submitted = places.iter().map(|at| {
            let one = &class.sheets[*at];
            Submitted {
                group: &one.group,
                sheet: &sheets[*at],
                kit: one.entry.kit.trim(),
                shared: &one.entry.shared,
            }
        });
        let together = read_together(&submitted.collect::<Vec<_>>(), infer);
        for (at, inference) in places.iter().zip(together.inferences) {
            self.inferences[*at] = inference.unwrap_or_default();
        }
        // The most probable come first.
        for question in together.questions {
            for place in question.sheets {
                let at = places[place];
                self.asked[at].get_or_insert_with(|| about(&sheets[at], question.probability));
            }
        }
    }
}

/// Returns the column that a question is about, and its first figure.
fn about(sheet: &Sheet, probability: f64) -> KitQuestion {
    let step = sheet.method.length();
    let entry = sheet.rows.iter().find_map(|row| row.entries.get(step));
    KitQuestion {
        probability,
        step,
        given: entry.map_or_else(String::new, |entry| entry.figure.text().to_owned()),
    }
}
