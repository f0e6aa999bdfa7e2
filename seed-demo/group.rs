//! One group of a lesson: what it sets up, how it works, what its teacher
//! says of it.

use analysis::field::Field;
use analysis::sheet::TypedSheet;
use analysis::slip::Slip;
use server::db::revision::{Answers, Entry, Kind};
use simulator::dice::Dice;
use simulator::group::{Frequency, Group as Bench, Hand, Line, Stretch};
use simulator::kit::{Cord, Tank};
use simulator::sheet::{Code, Sheet, Unit, cell};
use simulator::slip::swaps;
use simulator::working::Habits;

use crate::kit::{Generator, Strung};
use crate::words;

/// From a ruler's end to its nought, mm.
const RULERS_END: f64 = 9.0;

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

#[derive(Clone, Debug)]
pub(crate) struct Group {
    setup: Setup,
    /// How it reads and writes, and what goes wrong in all its readings
    /// without its knowing it.
    pub(crate) bench: Bench,
    pub(crate) habits: Habits,
    /// What goes wrong in the readings of one row (from 0).
    pub(crate) slip_on: Option<(Code, usize)>,
    /// Whether it marked that row as left out.
    leaves_it_out: bool,
    /// Grams of hanger that it did not write down.
    hanger_forgotten: f64,
    pub(crate) progress: Progress,
    pub(crate) words: Vec<Word>,
    /// How many groups before it in the list the one is whose readings it
    /// takes for its own.
    pub(crate) copies: Option<u64>,
    /// Whose readings it says that it uses.
    shared: &'static str,
}

/// What a group sets up.
#[derive(Clone, Copy, Debug)]
enum Setup {
    /// Ripples of these frequencies (Hz).
    Ripples(Tank, &'static [f64]),
    /// These numbers of loops, beside the generator of this label.
    Loops(Cord, &'static str, &'static [u32]),
}

/// How the department's groups read.
const HAND: Hand = Hand {
    span: 1.0,
    blur: 0.03,
    image: 0.7,
    depth: 0.2,
    setting: 0.1,
    length: 3.0,
    resonance: 0.008,
    ..Hand::STEADY
};

/// Returns a careful group at a ripple tank, at these frequencies in Hz.
pub(crate) fn ripples(tank: &Tank, frequencies: &'static [f64]) -> Group {
    // The lamp is never quite where it was, and the object lies a little
    // above the ripples.
    let hand = Hand {
        level: 0.02,
        ..HAND
    };
    let bench = Bench {
        frequency: Frequency::Dial(10, 1),
        ..Bench::new(hand, "cm")
    };
    Group::careful(Setup::Ripples(*tank, frequencies), bench)
}

/// Returns a careful group at a string with so many grams hung, and at the
/// generator that stands beside it.
pub(crate) fn loops(string: &Strung, hung: f64, loops: &'static [u32]) -> Group {
    let hand = Hand {
        level: 0.03,
        ..HAND
    };
    let bench = Bench {
        frequency: Frequency::Dial(10, 2),
        ..Bench::new(hand, "m")
    };
    let cord = Cord {
        hung,
        ..string.cord
    };
    let setup = Setup::Loops(cord, string.beside.label, loops);
    Group::careful(setup, bench).on(string.beside)
}

impl Group {
    fn careful(setup: Setup, bench: Bench) -> Self {
        let habits = Habits {
            wavelength: Some(bench.unit),
            uncertainty: Some(1),
            ..Habits::careful(3)
        };
        Self {
            setup,
            bench,
            habits,
            slip_on: None,
            leaves_it_out: false,
            hanger_forgotten: 0.0,
            progress: Progress::HandedIn,
            words: Vec::new(),
            copies: None,
            shared: "",
        }
    }

    /// Has its string on this generator; nothing changes at a tank.
    pub(crate) fn on(mut self, generator: &'static Generator) -> Self {
        if let Setup::Loops(cord, label, _) = &mut self.setup {
            cord.dial = generator.dial;
            *label = generator.label;
        }
        self
    }

    /// Has its dial on the range in Hz.
    pub(crate) fn plain_dial(mut self) -> Self {
        let decimals = match self.setup {
            Setup::Ripples(..) => 0,
            Setup::Loops(..) => 1,
        };
        self.bench.frequency = Frequency::Dial(1, decimals);
        self
    }

    /// Has no dial, but counts crests past a point against a watch.
    pub(crate) fn by_watch(mut self) -> Self {
        self.bench.frequency = Frequency::Watch;
        self
    }

    pub(crate) fn two_loops_measured(mut self) -> Self {
        self.bench.stretch = Stretch::TwoLoops;
        self
    }

    pub(crate) fn lengths_in(mut self, unit: Unit) -> Self {
        self.bench.unit = unit;
        self.habits.wavelength = Some(unit);
        self
    }

    pub(crate) fn speeds_in(mut self, unit: Unit) -> Self {
        self.habits.speed = unit;
        self
    }

    pub(crate) fn calling_one_first(mut self) -> Self {
        self.bench.first = 1;
        self
    }

    /// Counts one too many in a row (from 0).
    pub(crate) fn miscounting(self, row: usize) -> Self {
        let slip = match self.setup {
            Setup::Ripples(..) => "crest-miscount",
            Setup::Loops(..) => "loop-miscount",
        };
        self.slipping_on(slip, row)
    }

    /// Does this in all its readings and does not know it.
    pub(crate) fn slipping(mut self, slip: Code) -> Self {
        self.bench.slip = Some(slip);
        if slip == "zero-error" {
            self.bench.zero = RULERS_END;
        }
        self
    }

    /// Returns the same in one row (from 0).
    pub(crate) fn slipping_on(mut self, slip: Code, row: usize) -> Self {
        self.slip_on = Some((slip, row));
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
        self.leaves_it_out = true;
        self
    }

    pub(crate) fn forgetting_hanger(mut self, grams: f64) -> Self {
        self.hanger_forgotten = grams;
        self
    }

    pub(crate) fn figures(mut self, figures: u32) -> Self {
        self.habits.figures = figures;
        self
    }

    pub(crate) fn rounding_on_the_way(mut self) -> Self {
        self.habits.goes_on_with_rounded = true;
        self
    }

    pub(crate) fn without(mut self, boxes: &[Field]) -> Self {
        self.habits.blank = boxes.iter().map(|field| field.name()).collect();
        self
    }

    pub(crate) fn wrong(mut self, slip: Slip) -> Self {
        self.habits.wrong.push((slip.code(), None));
        self
    }

    pub(crate) fn wrong_on(mut self, slip: Slip, row: usize) -> Self {
        self.habits.wrong.push((slip.code(), Some(row)));
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

    /// Says what it writes for its kit.
    pub(crate) fn kit(&self) -> String {
        match self.setup {
            Setup::Ripples(tank, _) => tank.label.to_owned(),
            Setup::Loops(cord, generator, _) => format!("{}, {generator}", cord.label),
        }
    }

    /// Returns the readings of the lesson; no working yet.
    fn readings(&self, dice: &mut Dice) -> Sheet {
        let mut sheet = match self.setup {
            Setup::Ripples(tank, frequencies) => self.ripples(&tank, frequencies, dice),
            Setup::Loops(cord, _, loops) => {
                let mut lines = self.bench.loops(&cord, loops, dice);
                self.slip(&mut lines);
                let mut sheet = self.bench.string_sheet(&lines);
                let written = Cord {
                    hung: cord.hung - self.hanger_forgotten,
                    mass: cord.mass + 0.01 * dice.normal(),
                    ..cord
                };
                Bench::record_masses(&written, &mut sheet);
                sheet
            }
        };
        if let Some((_, row)) = self.slip_on {
            sheet.rows[row].left_out = self.leaves_it_out;
        }
        sheet
    }

    fn ripples(&self, tank: &Tank, frequencies: &[f64], dice: &mut Dice) -> Sheet {
        let times = match self.bench.frequency {
            Frequency::Dial(times, _) => f64::from(times),
            Frequency::Watch => 1.0,
        };
        let marks: Vec<f64> = frequencies.iter().map(|f| f / times).collect();
        let mut lines = self.bench.ripples(tank, &marks, dice);
        self.slip(&mut lines);
        let mut sheet = self.bench.tank_sheet(tank, &lines, dice);
        self.bench.record_depth(tank, &mut sheet, dice);
        let temperature = format!("{:.1}", 19.0 + 0.8 * dice.normal());
        sheet.whole.insert("temperature_c", cell(temperature, ""));
        sheet
    }

    /// Lets go wrong what goes wrong in one row.
    fn slip(&self, lines: &mut [Line]) {
        let Some((slip, row)) = self.slip_on else {
            return;
        };
        let line = &mut lines[row];
        if slip == "digits-swapped" {
            let swapped = swaps(&line.length).pop();
            line.length = swapped.unwrap_or_default();
        } else {
            line.count += 1;
        }
    }

    /// Lists everything that the group sends, in order. `number` is the
    /// group's own and decides its luck.
    pub(crate) fn sends(&self, number: u64) -> Vec<(Kind, Entry)> {
        let whose = number - self.copies.unwrap_or(0);
        let readings = self.readings(&mut Dice::new(whose));
        let mut begun = readings.clone();
        begun.rows.truncate(2);
        let worked = |habits: &Habits| {
            let mut sheet = readings.clone();
            // The same line on the graph, whatever else they change.
            let by_eye = Some(number + 1_000_000);
            let habits = Habits {
                by_eye,
                ..habits.clone()
            };
            habits.work_out(&mut sheet);
            (Kind::HandedIn, sheet)
        };
        let saved = |sheet: &Sheet| (Kind::Saved, sheet.clone());
        let right = Habits {
            wrong: Vec::new(),
            ..self.habits.clone()
        };
        let sheets = match self.progress {
            Progress::NotBegun => Vec::new(),
            Progress::Saved => vec![saved(&begun)],
            Progress::HandedIn => vec![saved(&begun), worked(&self.habits)],
            Progress::Corrected => vec![
                saved(&begun),
                saved(&readings),
                worked(&self.habits),
                worked(&right),
            ],
        };
        let sent = sheets.into_iter().map(|(kind, sheet)| {
            let sheet = typed(&sheet);
            let answers = match kind {
                Kind::Saved => Answers::default(),
                Kind::HandedIn => words::answers(&sheet, number),
            };
            let entry = Entry {
                sheet,
                kit: self.kit(),
                shared: self.shared.to_owned(),
                answers,
            };
            (kind, entry)
        });
        sent.collect()
    }
}

/// Returns a simulated sheet as a revision stores it.
fn typed(sheet: &Sheet) -> TypedSheet {
    let stored = serde_json::to_value(sheet).and_then(serde_json::from_value);
    stored.expect("its boxes are those of the readings format")
}
