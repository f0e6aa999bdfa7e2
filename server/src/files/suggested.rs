//! What the readings of a class suggest: slips at the bench, and what there is to
//! ask about readings that agree.
//!
//! The cost of judging sheets together grows with the square of their number,
//! so a class of more than [`PART`] is taken in parts, on all cores.

use analysis::field::Field;
use analysis::method::Method;
use analysis::reading::copied::{Declared, Question, questions};
use analysis::reading::{Inference, Placed, infer};
use analysis::sheet::Sheet;
use rayon::prelude::*;

use super::readings::ClassReadings;
use crate::report::sets;

/// The most sheets of a method that are compared with each other, sheet by
/// sheet. More are no class but a file without classes; those of one lesson
/// mostly stand together in it.
pub const PART: usize = 100;

/// That a sheet's readings agree with another's beyond chance, or repeat
/// themselves without spread.
#[derive(Clone, Debug)]
pub(super) struct Asked {
    /// The most probable of the questions that concern the sheet.
    pub(super) probability: f64,
    /// The column that is compared.
    pub(super) step: Field,
    /// Its first figure.
    pub(super) given: String,
}

/// The sheets that are compared with each other: those of a class and method, in
/// parts as even as can be where they are too many.
fn parts(class: &ClassReadings) -> Vec<Vec<usize>> {
    let of_methods = Method::ALL.map(|method| class.of_method(method));
    let even = |sheets: &Vec<usize>| {
        let parts = sheets.len().div_ceil(PART).max(1);
        let size = sheets.len().div_ceil(parts).max(1);
        let parts = sheets.chunks(size).map(<[_]>::to_vec);
        parts.collect::<Vec<_>>()
    };
    of_methods.iter().flat_map(even).collect()
}

/// Judges the readings of each sheet beside those of its class and method.
pub(super) fn inferences(class: &ClassReadings, sheets: &[Sheet]) -> Vec<Inference> {
    let parts = parts(class);
    let of_part = |part: &Vec<usize>| {
        let place = |at: &usize| Placed {
            sheet: &sheets[*at],
            kit: class.sheets[*at].entry.kit.trim(),
        };
        infer(&part.iter().map(place).collect::<Vec<_>>())
    };
    let inferred: Vec<Vec<Inference>> = parts.par_iter().map(of_part).collect();
    let mut inferences = vec![Inference::default(); sheets.len()];
    for (at, inference) in parts.iter().flatten().zip(inferred.into_iter().flatten()) {
        inferences[*at] = inference;
    }
    inferences
}

/// What there is to ask about each sheet, beside those of its class and method.
pub(super) fn asked(class: &ClassReadings, sheets: &[Sheet]) -> Vec<Option<Asked>> {
    let shared = shared(class);
    let parts = parts(class);
    let of_part = |part: &Vec<usize>| {
        let declared = |at: &usize| Declared {
            sheet: &sheets[*at],
            shared: &shared[*at],
        };
        questions(&part.iter().map(declared).collect::<Vec<_>>())
    };
    let by_part: Vec<Vec<Question>> = parts.par_iter().map(of_part).collect();
    let mut asked = vec![None; sheets.len()];
    for (part, questions) in parts.iter().zip(by_part) {
        // The most probable come first.
        for question in questions {
            for index in question.sheets {
                let at = part[index];
                asked[at].get_or_insert_with(|| about(&sheets[at], question.probability));
            }
        }
    }
    asked
}

/// The set of readings that each sheet says it is of; blank for its own.
fn shared(class: &ClassReadings) -> Vec<String> {
    let mut shared = vec![String::new(); class.sheets.len()];
    for method in Method::ALL {
        let of_method = class.of_method(method);
        let said = of_method.iter().map(|at| {
            let sheet = &class.sheets[*at];
            (sheet.group.as_str(), sheet.entry.shared.as_str())
        });
        let sets = sets(&said.collect::<Vec<_>>());
        for (at, set) in of_method.into_iter().zip(sets) {
            shared[at] = set;
        }
    }
    shared
}

fn about(sheet: &Sheet, probability: f64) -> Asked {
    let step = match sheet.method {
        Method::RippleTank => Field::Span,
        Method::StringLoops => Field::Length,
    };
    let entry = sheet.rows.iter().find_map(|row| row.entries.get(step));
    Asked {
        probability,
        step,
        given: entry.map_or_else(String::new, |entry| entry.figure.text().to_owned()),
    }
}
