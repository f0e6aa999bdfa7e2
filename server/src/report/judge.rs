//! The one way to judge a class, for its pages and for a file of readings.
//!
//! Each sheet is assessed by itself, the readings of all are read together,
//! and the sheets that count are compared (`analysis::class_set::summarise`).

use std::panic::{AssertUnwindSafe, catch_unwind};

use analysis::reading::copied::{Declared, Question, questions};
use analysis::reading::{Inference, Placed};
use analysis::sheet::Sheet;
use rayon::prelude::*;

use super::shared::sets;
use crate::db::inference::Together;

/// The most sheets that are read together. The cost grows with the square of
/// their number, and more are no class but a file without classes; those of
/// one lesson mostly stand together in it.
pub const PART: usize = 100;

/// What infers: `analysis::reading::infer`, or a test's own.
pub type Infer = fn(&[Placed<'_>]) -> Vec<Inference>;

/// A sheet of a class and method, as it is judged with the others.
#[derive(Clone, Copy, Debug)]
pub struct Submitted<'a> {
    /// The group's label.
    pub group: &'a str,
    /// What it read and worked out.
    pub sheet: &'a Sheet,
    /// The kit that it worked with, blank where that is not known.
    pub kit: &'a str,
    /// What it wrote of whose readings these are.
    pub shared: &'a str,
}

/// Reads the sheets of a class together: what their readings suggest, and what
/// there is to ask about them. Too many are taken in parts, as even as can be.
///
/// A sheet on which the inference panics has none; the others keep theirs.
#[must_use]
pub fn read_together(sheets: &[Submitted<'_>], infer: Infer) -> Together {
    let said: Vec<_> = sheets.iter().map(|one| (one.group, one.shared)).collect();
    let sets = sets(&said);
    let parts = sheets.len().div_ceil(PART).max(1);
    let size = sheets.len().div_ceil(parts).max(1);
    let parts = sheets.par_chunks(size).zip(sets.par_chunks(size));
    let read: Vec<Together> = parts
        .map(|(part, sets)| Together {
            inferences: infer_around(part, infer),
            questions: ask(part, sets),
        })
        .collect();
    let mut all = Together::default();
    for part in read {
        let before = all.inferences.len();
        all.inferences.extend(part.inferences);
        for mut question in part.questions {
            for at in &mut question.sheets {
                *at += before;
            }
            all.questions.push(question);
        }
    }
    all
}

/// Lists what there is to ask about these sheets, by the set of readings that
/// each is said to be of.
fn ask(sheets: &[Submitted<'_>], sets: &[String]) -> Vec<Question> {
    let declared = sheets.iter().zip(sets).map(|(one, shared)| Declared {
        sheet: one.sheet,
        shared,
    });
    questions(&declared.collect::<Vec<_>>())
}

/// Infers, and after a panic finds the sheet that brings it about: one that
/// panics alone, or without which the others do not. Returns `None` for that
/// sheet; for all of them where no such sheet is found.
fn infer_around(sheets: &[Submitted<'_>], infer: Infer) -> Vec<Option<Inference>> {
    let attempt = |places: &[usize]| {
        let placed = places.iter().map(|at| Placed {
            sheet: sheets[*at].sheet,
            kit: sheets[*at].kit,
        });
        let placed: Vec<_> = placed.collect();
        let inferred = catch_unwind(AssertUnwindSafe(|| infer(&placed))).ok()?;
        let mut all = vec![None; sheets.len()];
        for (at, inference) in places.iter().zip(inferred) {
            all[*at] = Some(inference);
        }
        Some(all)
    };
    let all: Vec<usize> = (0..sheets.len()).collect();
    if let Some(inferred) = attempt(&all) {
        return inferred;
    }
    let mut fine = all;
    fine.retain(|at| attempt(&[*at]).is_some());
    let without_each = (0..fine.len()).map(|place| {
        let mut rest = fine.clone();
        rest.remove(place);
        rest
    });
    let mut attempts = std::iter::once(fine.clone()).chain(without_each);
    let inferred = attempts.find_map(|places| attempt(&places));
    inferred.unwrap_or_else(|| vec![None; sheets.len()])
}
