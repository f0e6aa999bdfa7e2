//! Stretched strings, and what groups write down at them.

use std::collections::BTreeMap;

use analysis::field::Field;
use analysis::method::Method;
use analysis::reading::Cause;
use analysis::sheet::{TypedRow, TypedSheet};
use analysis::wave::{G_STANDARD, string};
use rand::Rng;
use rand::rngs::StdRng;

use super::Drawn;
use super::dice::{between, either_way, error, half_step, log_between, normal};
use super::row::{Row, rows_on_a_sheet, slips_in_rows};
use super::school::{self, School};
use super::slip::{Plan, pick_rows};
use crate::pupil::cell;

/// A string in a lesson: all groups at it share this.
pub(super) struct Cord {
    speed: f64,
    /// Between its ends, m.
    length: f64,
    /// Hung on it and of it, in g, and the piece weighed, in m, as written.
    hung: String,
    mass: String,
    weighed: String,
    /// ln (dial ÷ true frequency).
    dial: f64,
    fault: Option<Cause>,
}

impl Cord {
    pub(super) fn draw(rng: &mut StdRng, school: &School, noise: f64) -> Self {
        let fault = rng.random_bool(school.faults).then(|| {
            let faults = [Cause::DialOff, Cause::StringStretched];
            faults[rng.random_range(0..faults.len())]
        });
        let is = |cause| fault == Some(cause);
        let hung = school::HUNG[rng.random_range(0..school::HUNG.len())];
        let weighed = between(rng, (1.5, 2.0));
        let mass = weighed * log_between(rng, school::STRING_DENSITY);
        let stretch = 1.0 + either_way(rng, school::STRETCH);
        let off = 1.0 + either_way(rng, school::FACTOR_OFF);
        let foretold = string::speed(hung / 1000.0, mass / 1000.0, weighed, G_STANDARD);
        let speed = foretold * (school.string_speed_sd * normal(rng)).exp();
        let dial = noise * school.dial_factor_sd * normal(rng);
        Self {
            speed: speed
                * if is(Cause::StringStretched) {
                    stretch
                } else {
                    1.0
                },
            length: between(rng, school::STRING),
            hung: format!("{hung:.0}"),
            mass: format!("{mass:.2}"),
            weighed: format!("{weighed:.2}"),
            dial: dial + if is(Cause::DialOff) { off.ln() } else { 0.0 },
            fault,
        }
    }
}

/// How a group measures.
#[derive(Clone, Copy, PartialEq)]
enum Style {
    EndToEnd,
    LoopsLeftBlank,
    OneLoop,
}

/// What holds for every row of a group.
struct Group<'s> {
    school: &'s School,
    cord: &'s Cord,
    noise: f64,
    times: u32,
    style: Style,
    in_mm: bool,
    /// The length from end to end, measured once, in m.
    copied: Option<f64>,
    plan: Plan,
}

pub(super) fn sheet(rng: &mut StdRng, school: &School, cord: &Cord, noise: f64) -> Drawn {
    let style = match rng.random::<f64>() {
        share if share < school::END_TO_END => Style::EndToEnd,
        share if share < school::END_TO_END + school::LOOPS_LEFT_BLANK => Style::LoopsLeftBlank,
        _ => Style::OneLoop,
    };
    let times = if rng.random_bool(school.times_ten) {
        10
    } else {
        1
    };
    let mut group = Group {
        school,
        cord,
        noise,
        times,
        style,
        in_mm: rng.random_bool(school.millimetres),
        copied: None,
        plan: Plan::draw(rng, &school.string),
    };
    // A loop measured by itself is right however the others were counted.
    let harmless = group.plan.is(Cause::NodesCountedAsLoops) && style == Style::OneLoop
        || group.plan.is(Cause::DialMultiplierLeftOut) && times == 1;
    if harmless {
        group.plan = Plan::Nothing;
    }
    if style != Style::OneLoop && rng.random_bool(school::LENGTH_COPIED) {
        group.copied = Some(cord.length + group.length_error(rng));
    }
    let mut rows = group.rows(rng);
    let mut truth = slips_in_rows(rng, &group.plan, &mut rows, style != Style::OneLoop);
    if let Plan::Whole(cause) = group.plan {
        truth.push((cause, None));
    }
    let mut whole = BTreeMap::new();
    let recorded = rng.random_bool(school.recorded);
    if recorded {
        whole.insert(Field::HangingMass, cell(&cord.hung, ""));
        whole.insert(Field::StringMass, cell(&cord.mass, ""));
        whole.insert(Field::StringLength, cell(&cord.weighed, ""));
    }
    if let Some(fault) = cord.fault
        && recorded
    {
        truth.push((fault, None));
    }
    let unwritten = rng.random_bool(0.5);
    let typed = TypedSheet {
        method: Method::StringLoops,
        whole,
        rows: rows
            .iter()
            .enumerate()
            .map(|(at, row)| group.typed(at, row, unwritten))
            .collect(),
    };
    Drawn { typed, truth }
}

impl Group<'_> {
    fn length_error(&self, rng: &mut StdRng) -> f64 {
        self.noise * self.school.length_sd / 1000.0 * error(rng, self.school.tails)
    }

    fn rows(&self, rng: &mut StdRng) -> Vec<Row> {
        let count = rows_on_a_sheet(rng);
        // Mostly the first harmonics, else any of the first six.
        let mut loops: Vec<u32> = if rng.random_bool(0.7) {
            (1..).take(count).collect()
        } else {
            let any = pick_rows(rng, count, 6);
            (1..=6)
                .filter(|loops| any.iter().any(|at| u32::try_from(*at + 1) == Ok(*loops)))
                .collect()
        };
        loops.sort_unstable();
        loops
            .into_iter()
            .map(|loops| self.row(rng, loops))
            .collect()
    }

    fn row(&self, rng: &mut StdRng, loops: u32) -> Row {
        let cord = self.cord;
        let resonance = cord.speed * f64::from(loops) / (2.0 * cord.length);
        let found = 1.0 + self.noise * self.school.resonance_sd * error(rng, self.school.tails);
        let decimals = if self.times == 1 {
            self.school.dial_decimals.0
        } else {
            self.school.dial_decimals.1
        };
        let digit = 10_f64.powi(-i32::try_from(decimals).expect("few"));
        let pointer = resonance * found * cord.dial.exp() / f64::from(self.times);
        let read = (pointer + self.noise * digit * half_step(rng)).max(digit);
        let length = match (self.style, self.copied) {
            (Style::OneLoop, _) => cord.length / f64::from(loops) + self.length_error(rng),
            (_, Some(copied)) => copied,
            (_, None) => cord.length + self.length_error(rng),
        };
        Row {
            dial: format!("{read:.decimals$}"),
            times: if self.plan.is(Cause::DialMultiplierLeftOut) {
                1
            } else {
                self.times
            },
            count: loops + u32::from(self.plan.is(Cause::NodesCountedAsLoops)),
            length: if self.in_mm {
                format!("{:.0}", length * 1000.0)
            } else {
                format!("{length:.3}")
            },
        }
    }

    fn typed(&self, at: usize, row: &Row, unwritten: bool) -> TypedRow {
        let unit = if self.in_mm { "mm" } else { "m" };
        let mut cells = BTreeMap::from([
            (Field::Dial, cell(&row.dial, "")),
            (Field::Loops, cell(&row.count.to_string(), "")),
            (Field::Length, cell(&row.length, unit)),
        ]);
        let covered = match self.style {
            Style::EndToEnd => Some(row.count),
            Style::LoopsLeftBlank => None,
            Style::OneLoop => Some(1),
        };
        if let Some(covered) = covered {
            cells.insert(Field::LengthLoops, cell(&covered.to_string(), ""));
        }
        if row.times > 1 || !unwritten {
            cells.insert(Field::DialTimes, cell(&row.times.to_string(), ""));
        }
        TypedRow {
            label: (at + 1).to_string(),
            cells,
            left_out: false,
        }
    }
}
