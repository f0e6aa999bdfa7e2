//! What a group reads off its apparatus and types into the boxes.

use std::collections::BTreeMap;

use analysis::field::Field;
use analysis::method::Method;
use analysis::sheet::{Cell, Cells, TypedRow, TypedSheet};
use analysis::unit::Unit;

use crate::hand::Hand;
use crate::kit::{Cord, Generator, Tank, WEIGHED};

/// How the frequency is read.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Dial {
    /// A dial on its × 10 range.
    Tens,
    /// A dial in hertz.
    Plain,
    /// No dial: crests counted past a point against a watch.
    Watch,
}

/// Where a length on the string is measured.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Stretch {
    /// From end to end.
    Ends,
    /// From one node to the next but one, or to the next where there are
    /// fewer than three loops.
    TwoLoops,
}

/// What a group sets up.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Setup {
    /// Ripples of these frequencies (Hz).
    Ripples(&'static Tank, &'static [f64]),
    /// These numbers of loops.
    Loops(Strung, &'static [u32]),
}

/// A string set up.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Strung {
    pub(crate) cord: &'static Cord,
    pub(crate) generator: &'static Generator,
    /// Grams that hang on it.
    pub(crate) hung: f64,
}

/// What goes wrong in the readings: nothing on the sheet shows it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Slip {
    /// Nought is written for the first line, but the count began at one; or
    /// nodes were counted on a string: one too many in every row.
    OneTooMany,
    /// The last two digits of the span of a row (from 0) change places.
    DigitsSwapped(usize),
    /// The ruler's end is taken for its nought.
    RulersEnd,
    /// The dial's multiplier is not written down.
    NoMultiplier,
}

/// A group at its bench.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Bench {
    pub(crate) setup: Setup,
    pub(crate) dial: Dial,
    pub(crate) stretch: Stretch,
    /// Unit of lengths on the screen or along the string.
    pub(crate) length_in: Unit,
    /// The number called at the ruler's zero.
    pub(crate) first_called: u32,
    /// Index of the row where they counted one too many.
    pub(crate) miscounted: Option<usize>,
    /// What goes wrong in the readings without their knowing it.
    pub(crate) slip: Option<Slip>,
    /// Whether they marked that row as left out.
    pub(crate) left_out: bool,
    /// Grams of hanger that they did not write down.
    pub(crate) hanger_forgotten: f64,
}

/// The most of the screen that ripples are measured over, in m.
const SCREEN: f64 = 0.42;
/// From a ruler's end to its nought, in m.
const RULERS_END: f64 = 0.009;
/// The known object in the tank, in m.
const OBJECT: f64 = 0.10;

impl Bench {
    /// What it writes for its kit.
    pub(crate) fn kit(&self) -> String {
        match self.setup {
            Setup::Ripples(tank, _) => tank.label.to_owned(),
            Setup::Loops(
                Strung {
                    cord, generator, ..
                },
                _,
            ) => {
                format!("{}, {}", cord.label, generator.label)
            }
        }
    }

    /// The readings of the lesson; no working yet.
    pub(crate) fn readings(&self, hand: &mut Hand) -> TypedSheet {
        match self.setup {
            Setup::Ripples(tank, frequencies) => self.ripples(tank, frequencies, hand),
            Setup::Loops(strung, loops) => self.loops(strung, loops, hand),
        }
    }

    fn ripples(&self, tank: &Tank, frequencies: &[f64], hand: &mut Hand) -> TypedSheet {
        // The lamp is never quite where it was, and the object lies a little
        // above the ripples: this moves a group's every wavelength.
        let enlargement = tank.enlargement * hand.factor(0.03);
        let seen = enlargement * hand.factor(0.02);
        let temperature = 19.0 + hand.off_by(0.8);
        let dial_scale = hand.factor(0.006);
        let mut whole = Cells::new();
        let image = OBJECT * seen + hand.off_by(0.0007);
        whole.insert(Field::ScaleImage, self.length(image));
        whole.insert(Field::ScaleTrue, self.length(OBJECT));
        whole.insert(Field::Depth, bare(tank.depth + hand.off_by(0.2), 0));
        whole.insert(Field::Temperature, bare(temperature, 1));
        let rows = frequencies.iter().enumerate().map(|(at, &wanted)| {
            let mut cells = Cells::new();
            let frequency = wanted * dial_scale * hand.factor(0.003);
            self.write_frequency(&mut cells, wanted, frequency, hand);
            let wavelength =
                tank.lamp * enlargement * tank.speed(frequency, temperature) / frequency;
            let waves = (SCREEN / wavelength).floor().clamp(2.0, 10.0);
            let span = waves * wavelength + hand.off_by(0.001) + hand.off_by(0.03 * wavelength);
            let ruler = if self.slip == Some(Slip::RulersEnd) {
                RULERS_END
            } else {
                0.0
            };
            let first = f64::from(self.first_called);
            cells.insert(Field::FirstCrest, bare(first, 0));
            cells.insert(Field::LastCrest, bare(first + waves + self.too_many(at), 0));
            let mut span = self.length(span + ruler);
            if self.slip == Some(Slip::DigitsSwapped(at)) {
                span.text = last_two_swapped(&span.text);
            }
            cells.insert(Field::Span, span);
            self.row(at, cells)
        });
        let rows = rows.collect();
        let method = Method::RippleTank;
        TypedSheet {
            method,
            whole,
            rows,
        }
    }

    fn loops(&self, strung: Strung, loops: &[u32], hand: &mut Hand) -> TypedSheet {
        let Strung {
            cord,
            generator,
            hung,
        } = strung;
        let speed = cord.speed(hung) * hand.factor(0.03);
        let dial_scale = hand.factor(0.006) / generator.dial;
        let mut whole = Cells::new();
        whole.insert(Field::HangingMass, bare(hung - self.hanger_forgotten, 0));
        whole.insert(Field::StringMass, bare(cord.mass + hand.off_by(0.01), 2));
        whole.insert(Field::StringLength, bare(WEIGHED, 2));
        let rows = loops.iter().enumerate().map(|(at, &loops)| {
            let mut cells = Cells::new();
            let count = f64::from(loops);
            // Tuned by eye for the widest loops.
            let frequency = count * speed / (2.0 * cord.length) * hand.factor(0.008);
            self.write_frequency(&mut cells, frequency / dial_scale, frequency, hand);
            let covered = match self.stretch {
                Stretch::Ends => count,
                Stretch::TwoLoops if loops < 3 => 1.0,
                Stretch::TwoLoops => 2.0,
            };
            let length = cord.length * covered / count + hand.off_by(0.003);
            let too_many = self.too_many(at);
            cells.insert(Field::Loops, bare(count + too_many, 0));
            cells.insert(Field::Length, self.length(length));
            cells.insert(Field::LengthLoops, bare(covered + too_many, 0));
            self.row(at, cells)
        });
        let rows = rows.collect();
        let method = Method::StringLoops;
        TypedSheet {
            method,
            whole,
            rows,
        }
    }

    /// Waves or loops that were counted in a row and are not there.
    fn too_many(&self, at: usize) -> f64 {
        if self.is_miscounted(at) || self.slip == Some(Slip::OneTooMany) {
            1.0
        } else {
            0.0
        }
    }

    fn is_miscounted(&self, at: usize) -> bool {
        self.miscounted == Some(at)
    }

    fn row(&self, at: usize, cells: BTreeMap<Field, Cell>) -> TypedRow {
        TypedRow {
            label: (at + 1).to_string(),
            cells,
            left_out: self.left_out && self.is_miscounted(at),
        }
    }

    /// What is read of a frequency: `set` on the dial, `true_one` by the watch.
    fn write_frequency(&self, cells: &mut Cells, set: f64, true_one: f64, hand: &mut Hand) {
        let ripples = matches!(self.setup, Setup::Ripples(..));
        match self.dial {
            // A tank's dial is set to a mark; a string's is turned until the loops are widest.
            Dial::Tens => {
                cells.insert(Field::Dial, bare(set / 10.0, if ripples { 1 } else { 2 }));
                let is_forgotten = self.slip == Some(Slip::NoMultiplier);
                let times = if is_forgotten { 1.0 } else { 10.0 };
                cells.insert(Field::DialTimes, bare(times, 0));
            }
            Dial::Plain => {
                cells.insert(Field::Dial, bare(set, if ripples { 0 } else { 1 }));
                cells.insert(Field::DialTimes, bare(1.0, 0));
            }
            Dial::Watch => {
                let seconds = 30.0 / true_one + hand.off_by(0.1);
                cells.insert(Field::PassesFirst, bare(0.0, 0));
                cells.insert(Field::PassesLast, bare(30.0, 0));
                cells.insert(Field::Seconds, bare(seconds, 1));
            }
        }
    }

    /// A length in m as read to the millimetre, in this group's unit.
    fn length(&self, metres: f64) -> Cell {
        let decimals = match self.length_in {
            Unit::Millimetre => 0,
            Unit::Centimetre => 1,
            _ => 3,
        };
        Cell {
            text: format!("{:.decimals$}", metres / self.length_in.si()),
            unit: self.length_in.symbol().to_owned(),
        }
    }
}

/// 24.6 as 26.4.
fn last_two_swapped(figure: &str) -> String {
    let mut signs: Vec<char> = figure.chars().collect();
    let mut digits = (0..signs.len())
        .rev()
        .filter(|at| signs[*at].is_ascii_digit());
    if let (Some(last), Some(before)) = (digits.next(), digits.next()) {
        signs.swap(last, before);
    }
    signs.into_iter().collect()
}

/// A figure whose unit is fixed by its box.
fn bare(value: f64, decimals: usize) -> Cell {
    Cell {
        text: format!("{value:.decimals$}"),
        unit: String::new(),
    }
}
