//! One group of a lesson: what it sets up, how it works, what its teacher
//! says of it.

use analysis::field::Field;
use analysis::sheet::TypedSheet;
use analysis::slip::Slip;
use analysis::unit::Unit;
use server::db::revision::{Answers, Entry, Kind};

use crate::bench::{self, Bench, Dial, Setup, Stretch, Strung};
use crate::hand::Hand;
use crate::kit::{Cord, Generator, Tank};
use crate::pupil::Pupil;
use crate::words;

/// How far a group comes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Progress {
    /// Nobody has chosen its bench yet.
    NotBegun,
    /// Two rows and no working so far.
    Saved,
    /// Saved in the lesson, handed in at its end.
    HandedIn,
    /// Handed in, then once more with its wrong turns put right.
    Corrected,
}

/// What a teacher does with a sheet.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Word {
    /// Confirms its slips.
    Confirmed,
    /// Confirms what its readings suggest: they counted again at the bench.
    FoundAtTheBench,
    /// Dismisses its slips, for a reason.
    Dismissed(&'static str),
    /// Writes a note, perhaps about one row or one figure.
    Note(Option<&'static str>, Option<Field>, &'static str),
}

/// A group.
#[derive(Clone, Debug)]
pub(crate) struct Group {
    pub(crate) bench: Bench,
    pub(crate) pupil: Pupil,
    pub(crate) progress: Progress,
    pub(crate) words: Vec<Word>,
    /// How many groups before it in the list the one is whose readings it
    /// takes for its own.
    pub(crate) copies: Option<u64>,
    /// Whose readings it says that it uses.
    pub(crate) shared: &'static str,
}

/// A careful group at a ripple tank, at these frequencies in Hz.
pub(crate) fn ripples(tank: &'static Tank, frequencies: &'static [f64]) -> Group {
    Group::careful(Setup::Ripples(tank, frequencies), Unit::Centimetre)
}

/// A careful group at a string with so many grams hung, and at the generator
/// that stands beside it.
pub(crate) fn loops(cord: &'static Cord, hung: f64, loops: &'static [u32]) -> Group {
    let strung = Strung {
        cord,
        generator: cord.beside,
        hung,
    };
    Group::careful(Setup::Loops(strung, loops), Unit::Metre)
}

impl Group {
    fn careful(setup: Setup, length: Unit) -> Self {
        Self {
            bench: Bench {
                setup,
                dial: Dial::Tens,
                stretch: Stretch::Ends,
                length_in: length,
                first_called: 0,
                miscounted: None,
                slip: None,
                left_out: false,
                hanger_forgotten: 0.0,
            },
            pupil: Pupil {
                figures: 3,
                rounds_on_the_way: false,
                wavelength_in: length,
                speed_in: Unit::MetrePerSecond,
                blank: &[],
                wrong: Vec::new(),
            },
            progress: Progress::HandedIn,
            words: Vec::new(),
            copies: None,
            shared: "",
        }
    }

    /// Has its string on this generator; nothing changes at a tank.
    pub(crate) fn on(mut self, generator: &'static Generator) -> Self {
        if let Setup::Loops(strung, _) = &mut self.bench.setup {
            strung.generator = generator;
        }
        self
    }

    pub(crate) fn dial(mut self, dial: Dial) -> Self {
        self.bench.dial = dial;
        self
    }

    pub(crate) fn two_loops_measured(mut self) -> Self {
        self.bench.stretch = Stretch::TwoLoops;
        self
    }

    pub(crate) fn lengths_in(mut self, unit: Unit) -> Self {
        self.bench.length_in = unit;
        self.pupil.wavelength_in = unit;
        self
    }

    pub(crate) fn speeds_in(mut self, unit: Unit) -> Self {
        self.pupil.speed_in = unit;
        self
    }

    pub(crate) fn calling_one_first(mut self) -> Self {
        self.bench.first_called = 1;
        self
    }

    /// Counts one too many in a row (from 0).
    pub(crate) fn miscounting(mut self, row: usize) -> Self {
        self.bench.miscounted = Some(row);
        self
    }

    /// Does this in its readings and does not know it.
    pub(crate) fn slipping(mut self, slip: bench::Slip) -> Self {
        self.bench.slip = Some(slip);
        self
    }

    /// Has the readings of the group so many before it in the list, which
    /// sets up the same.
    pub(crate) fn copying(mut self, before: u64) -> Self {
        self.copies = Some(before);
        self
    }

    /// Says whose readings it uses.
    pub(crate) fn sharing(mut self, whose: &'static str) -> Self {
        self.shared = whose;
        self
    }

    /// Notices, and marks that row as left out.
    pub(crate) fn leaving_it_out(mut self) -> Self {
        self.bench.left_out = true;
        self
    }

    pub(crate) fn forgetting_hanger(mut self, grams: f64) -> Self {
        self.bench.hanger_forgotten = grams;
        self
    }

    pub(crate) fn figures(mut self, figures: u32) -> Self {
        self.pupil.figures = figures;
        self
    }

    pub(crate) fn rounding_on_the_way(mut self) -> Self {
        self.pupil.rounds_on_the_way = true;
        self
    }

    pub(crate) fn without(mut self, boxes: &'static [Field]) -> Self {
        self.pupil.blank = boxes;
        self
    }

    pub(crate) fn wrong(mut self, slip: Slip) -> Self {
        self.pupil.wrong.push((slip, None));
        self
    }

    pub(crate) fn wrong_on(mut self, slip: Slip, row: usize) -> Self {
        self.pupil.wrong.push((slip, Some(row)));
        self
    }

    pub(crate) fn only(mut self, progress: Progress) -> Self {
        self.progress = progress;
        self
    }

    pub(crate) fn word(mut self, word: Word) -> Self {
        self.words.push(word);
        self
    }

    /// Everything that the group sends, in order. `number` is the group's own
    /// and decides its luck.
    pub(crate) fn sends(&self, number: u64) -> Vec<(Kind, Entry)> {
        let whose = number - self.copies.unwrap_or(0);
        let readings = self.bench.readings(&mut Hand::new(whose));
        let begun = first_rows(&readings, 2);
        let worked = |pupil: &Pupil| {
            let mut sheet = readings.clone();
            // The same line on the graph, whatever else they change.
            pupil.work_out(&mut sheet, &mut Hand::new(number + 1_000_000));
            sheet
        };
        let right = Pupil {
            wrong: Vec::new(),
            ..self.pupil.clone()
        };
        let sheets = match self.progress {
            Progress::NotBegun => Vec::new(),
            Progress::Saved => vec![(Kind::Saved, begun)],
            Progress::HandedIn => vec![(Kind::Saved, begun), (Kind::HandedIn, worked(&self.pupil))],
            Progress::Corrected => vec![
                (Kind::Saved, begun),
                (Kind::Saved, readings.clone()),
                (Kind::HandedIn, worked(&self.pupil)),
                (Kind::HandedIn, worked(&right)),
            ],
        };
        let kit = self.bench.kit();
        sheets
            .into_iter()
            .map(|(kind, sheet)| {
                let answers = match kind {
                    Kind::Saved => Answers::default(),
                    Kind::HandedIn => words::answers(&sheet, number),
                };
                let entry = Entry {
                    sheet,
                    kit: kit.clone(),
                    shared: self.shared.to_owned(),
                    answers,
                };
                (kind, entry)
            })
            .collect()
    }
}

fn first_rows(readings: &TypedSheet, count: usize) -> TypedSheet {
    let mut begun = readings.clone();
    begun.rows.truncate(count);
    begun
}
