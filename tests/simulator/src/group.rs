//! A group at its kit: what it reads, and how it writes that down.

use crate::dice::Dice;
use crate::kit::{Cord, Tank};
use crate::sheet::{Cells, Code, Method, Sheet, Unit, cell, length};

/// No picture on a screen is longer, mm.
const SCREEN: f64 = 550.0;
/// Waves counted past a point against a watch.
const PASSES: u32 = 30;

/// How exactly a group reads, as standard deviations.
#[derive(Clone, Debug)]
pub struct Hand {
    /// All of them are so many times as large.
    pub noise: f64,
    /// Degrees of freedom of Student's t for errors of reading (scaled to the
    /// same standard deviation); `None` for the normal.
    pub tails: Option<u32>,
    /// Of a span, mm.
    pub span: f64,
    /// Of its two fuzzy ends, a share of one wave on the screen.
    pub blur: f64,
    /// Of the known object's image, mm.
    pub image: f64,
    /// Of its true length, mm.
    pub object: f64,
    /// Of a depth that is written down, mm.
    pub depth: f64,
    /// How far a dial is set or read beside its mark: the whole range, in
    /// units of its last digit.
    pub setting: f64,
    /// Of a length along the string, mm.
    pub length: f64,
    /// Of finding a resonance, a share.
    pub resonance: f64,
    /// Of what moves all wavelengths or all resonances of the group alike, a
    /// share.
    pub level: f64,
}

impl Hand {
    /// A hand that makes no error.
    pub const STEADY: Self = Self {
        noise: 1.0,
        tails: None,
        span: 0.0,
        blur: 0.0,
        image: 0.0,
        object: 0.0,
        depth: 0.0,
        setting: 0.0,
        length: 0.0,
        resonance: 0.0,
        level: 0.0,
    };

    /// An error of reading.
    pub fn error(&self, dice: &mut Dice, sd: f64) -> f64 {
        self.noise * sd * dice.error(self.tails)
    }

    fn level(&self, dice: &mut Dice) -> f64 {
        if self.level > 0.0 {
            dice.factor(self.noise * self.level)
        } else {
            1.0
        }
    }
}

/// How a frequency is read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Frequency {
    /// A dial with its multiplier and the decimals that it is read to.
    Dial(u32, usize),
    /// Crests counted past a point against a watch.
    Watch,
}

/// Where a length on the string is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stretch {
    /// From end to end.
    Ends,
    /// The same; how many loops that are is left blank.
    EndsUnsaid,
    /// Along one loop.
    OneLoop,
    /// Along two loops, or one where there are fewer than three.
    TwoLoops,
}

/// A group: how it reads and writes.
#[derive(Clone, Debug)]
pub struct Group {
    /// How exactly it reads.
    pub hand: Hand,
    /// How it reads frequencies.
    pub frequency: Frequency,
    /// The unit of its lengths.
    pub unit: Unit,
    /// The number called at the first line.
    pub first: u32,
    /// The fewest and the most waves that it takes into a span, where the
    /// screen has room.
    pub waves: (u32, u32),
    /// The known object's length, mm, is between these.
    pub object: (f64, f64),
    /// Where it measures along a string.
    pub stretch: Stretch,
    /// The length from end to end (mm) that it measured once and copies down.
    pub copied: Option<f64>,
    /// What goes wrong in all its readings, by its code.
    pub slip: Option<Code>,
    /// How far its ruler's nought is out, mm.
    pub zero: f64,
}

impl Group {
    /// A group with this hand, that uses a dial in Hz to a decimal, counts
    /// from nought and measures from end to end, in this unit.
    #[must_use]
    pub fn new(hand: Hand, unit: Unit) -> Self {
        Self {
            hand,
            frequency: Frequency::Dial(1, 1),
            unit,
            first: 0,
            waves: (10, 10),
            object: (100.0, 100.0),
            stretch: Stretch::Ends,
            copied: None,
            slip: None,
            zero: 0.0,
        }
    }

    fn slips(&self, code: Code) -> bool {
        self.slip == Some(code)
    }

    /// Multiplier and decimals of its dial; 1 and any where it has none.
    fn dial(&self) -> (u32, usize) {
        match self.frequency {
            Frequency::Dial(times, decimals) => (times, decimals),
            Frequency::Watch => (1, 9),
        }
    }

    /// How far the pointer is from where it is read, in dial units.
    fn beside(&self, dice: &mut Dice) -> f64 {
        let digit = (0..self.dial().1).fold(1.0, |digit, _| digit / 10.0);
        self.hand.noise * self.hand.setting * digit * dice.half_step()
    }

    /// Measures ripples with the dial on these marks.
    pub fn ripples(&self, tank: &Tank, marks: &[f64], dice: &mut Dice) -> Vec<Line> {
        let level = self.hand.level(dice);
        let ripple = |mark: &f64| self.ripple(tank, *mark, level, dice);
        marks.iter().map(ripple).collect()
    }

    fn ripple(&self, tank: &Tank, mark: f64, level: f64, dice: &mut Dice) -> Line {
        let (times, decimals) = self.dial();
        let setting = mark + self.beside(dice);
        let rate = if self.slips("strobe-at-half") {
            2.0
        } else {
            1.0
        };
        let f = rate * setting.max(0.1 * mark) * f64::from(times) / tank.dial;
        let one = level * tank.picture(f);
        let mut waves = dice.within(self.waves.0..=self.waves.1);
        while f64::from(waves) * one > SCREEN && waves > 3 {
            waves -= 1;
        }
        let sd = self.hand.span.hypot(self.hand.blur * one);
        let span = f64::from(waves) * one + self.zero + self.hand.error(dice, sd);
        let counted = match self.slip {
            Some("counted-from-one") => waves + 1,
            Some("crest-to-trough") => 2 * waves,
            _ => waves,
        };
        Line {
            frequency: self.written(format!("{mark:.decimals$}"), f, dice),
            times: self.written_times(),
            count: self.first + counted,
            covered: 0,
            length: length(span.max(10.0), self.unit).text,
        }
    }

    /// Finds the resonances with these numbers of loops.
    pub fn loops(&self, cord: &Cord, loops: &[u32], dice: &mut Dice) -> Vec<Line> {
        let level = self.hand.level(dice);
        let row = |loops: &u32| self.row(cord, *loops, level, dice);
        loops.iter().map(row).collect()
    }

    fn row(&self, cord: &Cord, loops: u32, level: f64, dice: &mut Dice) -> Line {
        let (times, decimals) = self.dial();
        let found = 1.0 + self.hand.error(dice, self.hand.resonance);
        let f = level * cord.resonance(loops) * found;
        let digit = (0..decimals).fold(1.0, |digit, _| digit / 10.0);
        let read = (f * cord.dial / f64::from(times) + self.beside(dice)).max(digit);
        let covered = match self.stretch {
            Stretch::OneLoop => 1,
            Stretch::TwoLoops => (loops / 3).clamp(0, 1) + 1,
            Stretch::Ends | Stretch::EndsUnsaid => loops,
        };
        let along = match self.copied {
            Some(copied) if covered == loops && self.stretch != Stretch::OneLoop => copied,
            _ => {
                let part = cord.length * f64::from(covered) / f64::from(loops);
                part + self.hand.error(dice, self.hand.length)
            }
        };
        Line {
            frequency: self.written(format!("{read:.decimals$}"), f, dice),
            times: self.written_times(),
            count: loops + u32::from(self.slips("nodes-counted-as-loops")),
            covered,
            length: length(along, self.unit).text,
        }
    }

    /// What is written of a frequency: the dial's text, or the watch's of the
    /// true one.
    fn written(&self, dial: String, f: f64, dice: &mut Dice) -> String {
        match self.frequency {
            Frequency::Dial(..) => dial,
            Frequency::Watch => format!("{:.1}", f64::from(PASSES) / f + 0.1 * dice.normal()),
        }
    }

    fn written_times(&self) -> u32 {
        if self.slips("dial-multiplier-left-out") {
            1
        } else {
            self.dial().0
        }
    }

    /// Writes a tank's rows down, and measures the known object.
    pub fn tank_sheet(&self, tank: &Tank, lines: &[Line], dice: &mut Dice) -> Sheet {
        let object = dice.between(self.object);
        let image = object * tank.enlargement + self.hand.error(dice, self.hand.image);
        let object = object + self.hand.error(dice, self.hand.object);
        let mut lengths = [image, object].map(|mm| length(mm, self.unit));
        if self.slips("scale-upside-down") {
            lengths.reverse();
        }
        let [image, object] = lengths;
        let whole = Cells::from([("scale_image", image), ("scale_true", object)]);
        let row = |line: &Line| {
            let mut cells = self.frequency_cells(line);
            cells.insert("first_crest", cell(self.first, ""));
            cells.insert("last_crest", cell(line.count, ""));
            cells.insert("span", cell(&line.length, self.unit));
            cells
        };
        Sheet::new(Method::RippleTank, whole, lines.iter().map(row))
    }

    /// Writes the depth of the water down.
    pub fn record_depth(&self, tank: &Tank, sheet: &mut Sheet, dice: &mut Dice) {
        let depth = tank.depth * tank.card + self.hand.error(dice, self.hand.depth);
        let depth = format!("{:.0}", depth.max(1.0));
        sheet.whole.insert("depth_mm", cell(depth, ""));
    }

    /// Writes a string's rows down.
    #[must_use]
    pub fn string_sheet(&self, lines: &[Line]) -> Sheet {
        let row = |line: &Line| {
            let mut cells = self.frequency_cells(line);
            cells.insert("loops", cell(line.count, ""));
            cells.insert("length", cell(&line.length, self.unit));
            let covered = match self.stretch {
                Stretch::Ends => line.count,
                Stretch::EndsUnsaid => return cells,
                Stretch::OneLoop | Stretch::TwoLoops => line.covered,
            };
            cells.insert("length_loops", cell(covered, ""));
            cells
        };
        Sheet::new(Method::StringLoops, Cells::new(), lines.iter().map(row))
    }

    /// Writes a string's masses down.
    pub fn record_masses(cord: &Cord, sheet: &mut Sheet) {
        for (column, text) in [
            ("hanging_mass_g", format!("{:.0}", cord.hung)),
            ("string_mass_g", format!("{:.2}", cord.mass)),
            ("string_length_m", format!("{:.2}", cord.weighed)),
        ] {
            sheet.whole.insert(column, cell(text, ""));
        }
    }

    fn frequency_cells(&self, line: &Line) -> Cells {
        match self.frequency {
            Frequency::Dial(..) => Cells::from([
                ("dial", cell(&line.frequency, "")),
                ("dial_times", cell(line.times, "")),
            ]),
            Frequency::Watch => Cells::from([
                ("passes_first", cell(0, "")),
                ("passes_last", cell(PASSES, "")),
                ("seconds", cell(&line.frequency, "")),
            ]),
        }
    }
}

/// A row before it is written down.
#[derive(Clone, Debug)]
pub struct Line {
    /// What the dial or the watch says.
    pub frequency: String,
    /// The multiplier beside it.
    pub times: u32,
    /// The last number called, or the loops seen.
    pub count: u32,
    /// Loops in the length along the string.
    pub covered: u32,
    /// The span, or the length along the string.
    pub length: String,
}
