//! Class sets as they come in from the bench, with what really happened.
//!
//! Drawn from the physics and the list of slips, and from figures of its own
//! (`school.rs`): nothing here knows the engine's priors. The same seed gives
//! the same classes.

mod cord;
mod dice;
mod row;
pub(crate) mod school;
pub(crate) mod slip;
mod tank;
mod work;

use analysis::method::Method;
use analysis::reading::{Cause, Placed};
use analysis::sheet::{Sheet, TypedSheet};
use analysis::slip::Slip;
use rand::rngs::StdRng;
use rand::{Rng, SeedableRng};

use school::School;

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
    /// The wrong turn in its working, if it has any.
    pub(crate) wrong_turn: Option<(Slip, Option<usize>)>,
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

/// What a sheet is before it is checked.
struct Drawn {
    typed: TypedSheet,
    truth: Vec<Event>,
}

/// So many classes of a school, at a noise in units of the instruments'
/// resolution.
pub(crate) fn classes(school: &School, noise: f64, count: usize, seed: u64) -> Vec<SimClass> {
    let mut rng = StdRng::seed_from_u64(seed);
    (0..count).map(|_| class(&mut rng, school, noise)).collect()
}

fn class(rng: &mut StdRng, school: &School, noise: f64) -> SimClass {
    let method = Method::ALL[usize::from(rng.random_bool(0.5))];
    let groups = rng.random_range(6..=12);
    let kits = rng.random_range(1..=4);
    let tanks: Vec<_> = (0..kits)
        .map(|_| tank::Tank::draw(rng, school, noise))
        .collect();
    let cords: Vec<_> = (0..kits)
        .map(|_| cord::Cord::draw(rng, school, noise))
        .collect();
    let sheets = (0..groups)
        .map(|group| {
            let kit = group % kits;
            let skill = (school.skill_spread * dice::normal(rng)).exp();
            let drawn = match method {
                Method::RippleTank => tank::sheet(rng, school, &tanks[kit], noise * skill),
                Method::StringLoops => cord::sheet(rng, school, &cords[kit], noise * skill),
            };
            finish(rng, school, drawn, kit)
        })
        .collect();
    SimClass { noise, sheets }
}

/// Fills in the working of some sheets, and checks every sheet at the door.
fn finish(rng: &mut StdRng, school: &School, drawn: Drawn, kit: usize) -> SimSheet {
    let Drawn { mut typed, truth } = drawn;
    let wrong_turn = if rng.random_bool(school.worked) {
        work::fill_in(rng, &mut typed)
    } else {
        None
    };
    let sheet = Sheet::check(&typed).expect("simulated sheets can be read");
    SimSheet {
        typed,
        sheet,
        kit: format!("kit {}", kit + 1),
        truth,
        wrong_turn,
    }
}
