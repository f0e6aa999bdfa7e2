//! Ripple tanks, and what groups write down at them.

use std::collections::BTreeMap;

use analysis::field::Field;
use analysis::method::Method;
use analysis::reading::Cause;
use analysis::sheet::{Cells, TypedRow, TypedSheet};
use analysis::wave::water::Water;
use rand::Rng;
use rand::rngs::StdRng;

use super::Drawn;
use super::dice::{between, either_way, error, half_step, log_between, normal};
use super::row::{Row, rows_on_a_sheet, slips_in_rows};
use super::school::{self, School};
use super::slip::Plan;
use crate::pupil::cell;

/// A tank in a lesson: all groups at it share this.
pub(super) struct Tank {
    water: Water,
    /// Image ÷ true while the scale was measured.
    enlargement: f64,
    /// The same while the ripples were.
    enlargement_later: f64,
    /// ln (dial ÷ true frequency).
    dial: f64,
    /// Recorded ÷ true depth.
    depth_factor: f64,
    fault: Option<Cause>,
}

impl Tank {
    pub(super) fn draw(rng: &mut StdRng, school: &School, noise: f64) -> Self {
        let fault = rng.random_bool(school.faults).then(|| {
            let faults = [
                Cause::DirtyWater,
                Cause::DepthOff,
                Cause::LampOff,
                Cause::DialOff,
            ];
            faults[rng.random_range(0..faults.len())]
        });
        let is = |cause| fault == Some(cause);
        let depth = if rng.random_bool(school::DEEP_SHARE) {
            log_between(rng, school::DEEP)
        } else {
            log_between(rng, school::USUAL_DEPTH)
        };
        let surface_tension = if is(Cause::DirtyWater) {
            between(rng, school::DIRTY_TENSION)
        } else {
            tension(rng)
        };
        let enlargement = between(rng, school.enlargement);
        let off = 1.0 + either_way(rng, school::FACTOR_OFF);
        let depth_range = school::DEPTH_OFF[usize::from(rng.random_bool(0.5))];
        let depth_factor = between(rng, depth_range);
        let dial = noise * school.dial_factor_sd * normal(rng);
        Self {
            water: Water {
                surface_tension,
                density: school::DENSITY,
                depth: depth / 1000.0,
            },
            enlargement,
            enlargement_later: enlargement * if is(Cause::LampOff) { off } else { 1.0 },
            dial: dial + if is(Cause::DialOff) { off.ln() } else { 0.0 },
            depth_factor: if is(Cause::DepthOff) {
                depth_factor
            } else {
                1.0
            },
            fault,
        }
    }
}

fn tension(rng: &mut StdRng) -> f64 {
    let (low, high) = school::TENSION_CUT;
    loop {
        let tension = school::TENSION.0 + school::TENSION.1 * normal(rng);
        if (low..high).contains(&tension) {
            return tension;
        }
    }
}

/// What holds for every row of a group.
struct Group<'s> {
    school: &'s School,
    tank: &'s Tank,
    noise: f64,
    plan: Plan,
    times: u32,
    first: u32,
    in_mm: bool,
    /// A ruler's zero error, mm.
    zero: f64,
}

pub(super) fn sheet(rng: &mut StdRng, school: &School, tank: &Tank, noise: f64) -> Drawn {
    let mut plan = Plan::draw(rng, &school.tank);
    let times = if rng.random_bool(school.times_ten) {
        10
    } else {
        1
    };
    if times == 1 && plan.is(Cause::DialMultiplierLeftOut) {
        plan = Plan::Nothing;
    }
    let called_one = !rng.random_bool(school::CALLS_NOUGHT) && !plan.is(Cause::CountedFromOne);
    let zero = either_way(rng, school::ZERO_ERROR);
    let group = Group {
        school,
        tank,
        noise,
        times,
        first: u32::from(called_one),
        in_mm: rng.random_bool(school.millimetres),
        zero: if plan.is(Cause::ZeroError) { zero } else { 0.0 },
        plan,
    };
    let mut rows: Vec<_> = group
        .marks(rng)
        .into_iter()
        .map(|mark| group.row(rng, mark))
        .collect();
    let mut truth = slips_in_rows(rng, &group.plan, &mut rows, true);
    let mut whole = BTreeMap::new();
    group.scale(rng, &mut whole);
    let depth_recorded = group.depth(rng, &mut whole);
    if let Plan::Whole(cause) = group.plan {
        truth.push((cause, None));
    }
    if let Some(fault) = tank.fault
        && (fault != Cause::DepthOff || depth_recorded)
    {
        truth.push((fault, None));
    }
    let unwritten = rng.random_bool(0.5);
    let typed = TypedSheet {
        method: Method::RippleTank,
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
    fn error(&self, rng: &mut StdRng, sd: f64) -> f64 {
        self.noise * sd * error(rng, self.school.tails)
    }

    fn decimals(&self) -> usize {
        if self.times == 1 {
            self.school.dial_decimals.0
        } else {
            self.school.dial_decimals.1
        }
    }

    /// Dial settings, in Hz before the multiplier, lowest first.
    fn marks(&self, rng: &mut StdRng) -> Vec<f64> {
        let rate = if self.plan.is(Cause::StrobeAtHalf) {
            0.5
        } else {
            1.0
        };
        let (low, high) = self.school.frequencies;
        let step = 0.1;
        let times = f64::from(self.times);
        let mut marks: Vec<f64> = Vec::new();
        let count = rows_on_a_sheet(rng);
        while marks.len() < count {
            let aim = rng.random_range(low * rate..=high * rate) / times;
            let mark = (aim / step).round() * step;
            if marks.iter().all(|other| (other - mark).abs() > step / 2.0) {
                marks.push(mark);
            }
        }
        marks.sort_by(f64::total_cmp);
        marks
    }

    fn row(&self, rng: &mut StdRng, mark: f64) -> Row {
        let decimals = self.decimals();
        let digit = 10_f64.powi(-i32::try_from(decimals).expect("few"));
        let setting = mark + self.noise * digit * half_step(rng);
        let rate = if self.plan.is(Cause::StrobeAtHalf) {
            2.0
        } else {
            1.0
        };
        let f = rate * setting.max(0.1 * mark) * f64::from(self.times) / self.tank.dial.exp();
        let one = self.tank.enlargement_later * self.tank.water.wavelength(f) * 1000.0;
        let (fewest, most) = self.school.waves;
        let mut waves = rng.random_range(fewest..=most);
        while f64::from(waves) * one > school::SCREEN && waves > 3 {
            waves -= 1;
        }
        let span = f64::from(waves) * one + self.zero + self.error(rng, self.school.span_sd);
        let counted = match self.plan {
            Plan::Whole(Cause::CountedFromOne) => waves + 1,
            Plan::Whole(Cause::CrestToTrough) => 2 * waves,
            _ => waves,
        };
        Row {
            dial: format!("{mark:.decimals$}"),
            times: if self.plan.is(Cause::DialMultiplierLeftOut) {
                1
            } else {
                self.times
            },
            count: self.first + counted,
            length: self.length(span.max(10.0)),
        }
    }

    /// A length in mm, read to 1 mm, as written.
    fn length(&self, mm: f64) -> String {
        if self.in_mm {
            format!("{mm:.0}")
        } else {
            format!("{:.1}", mm.round() / 10.0)
        }
    }

    fn unit(&self) -> &'static str {
        if self.in_mm { "mm" } else { "cm" }
    }

    fn scale(&self, rng: &mut StdRng, whole: &mut Cells) {
        let length = between(rng, (50.0, 200.0));
        let image = length * self.tank.enlargement + self.error(rng, self.school.image_sd);
        let mut image = self.length(image);
        let mut length = self.length(length + self.error(rng, self.school.true_sd));
        if self.plan.is(Cause::ScaleUpsideDown) {
            std::mem::swap(&mut image, &mut length);
        }
        whole.insert(Field::ScaleImage, cell(&image, self.unit()));
        whole.insert(Field::ScaleTrue, cell(&length, self.unit()));
    }

    fn depth(&self, rng: &mut StdRng, whole: &mut Cells) -> bool {
        let recorded = rng.random_bool(self.school.recorded);
        if recorded {
            let depth = self.tank.water.depth * 1000.0 * self.tank.depth_factor;
            let depth = (depth + self.error(rng, self.school.depth_sd)).max(1.0);
            whole.insert(Field::Depth, cell(&format!("{depth:.0}"), ""));
        }
        recorded
    }

    fn typed(&self, at: usize, row: &Row, unwritten: bool) -> TypedRow {
        let mut cells = BTreeMap::from([
            (Field::Dial, cell(&row.dial, "")),
            (Field::FirstCrest, cell(&self.first.to_string(), "")),
            (Field::LastCrest, cell(&row.count.to_string(), "")),
            (Field::Span, cell(&row.length, self.unit())),
        ]);
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
