//! Simulated classes as the engine takes them, with what really happened.

use analysis::reading::{Cause, Placed};
use analysis::sheet::{Sheet, TypedSheet};
use analysis::slip::Slip;
use simulator::school::{HandedIn, School};
use simulator::slip;

use crate::pupil::typed;

/// Something that happened: what, and in which row (`None`: all of them).
pub(crate) type Event = (Cause, Option<usize>);

/// A sheet with its truth.
#[derive(Clone, Debug)]
pub(crate) struct SimSheet {
    pub(crate) typed: TypedSheet,
    pub(crate) sheet: Sheet,
    pub(crate) kit: String,
    /// What happened at the bench, the kit's fault among it where this sheet
    /// could show it.
    pub(crate) truth: Vec<Event>,
    /// The wrong turn in its working, on every row, if it has any.
    pub(crate) wrong_turn: Option<Slip>,
}

/// One class, all on one method.
#[derive(Clone, Debug)]
pub(crate) struct SimClass {
    /// Noise in units of the instruments' resolution.
    pub(crate) noise: f64,
    pub(crate) sheets: Vec<SimSheet>,
}

impl SimClass {
    /// The sheets as the engine takes them.
    pub(crate) fn placed(&self) -> Vec<Placed<'_>> {
        let placed = self.sheets.iter().map(|sheet| Placed {
            sheet: &sheet.sheet,
            kit: &sheet.kit,
        });
        placed.collect()
    }
}

/// So many classes of a school, at a noise in units of the instruments'
/// resolution.
pub(crate) fn classes(school: &School, noise: f64, count: usize, seed: u64) -> Vec<SimClass> {
    let drawn = school.classes(noise, count, seed).into_iter();
    let class = drawn.map(|groups| SimClass {
        noise,
        sheets: groups.into_iter().map(checked).collect(),
    });
    class.collect()
}

fn checked(group: HandedIn) -> SimSheet {
    let typed = typed(&group.sheet);
    let event = |&(code, row): &slip::Event| (cause(code), row);
    SimSheet {
        sheet: Sheet::check(&typed).expect("simulated sheets can be read"),
        typed,
        kit: group.kit,
        truth: group.truth.iter().map(event).collect(),
        wrong_turn: group
            .wrong_turn
            .map(|code| Slip::from_code(code).expect("a code of the methods")),
    }
}

/// The cause of this code.
pub(crate) fn cause(code: &str) -> Cause {
    Cause::from_code(code).expect("a code of the methods")
}
