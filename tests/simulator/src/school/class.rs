//! One class set by chance: its kits, its groups, what happened at each.

use crate::dice::Dice;
use crate::group::{Frequency, Group, Hand, Stretch};
use crate::kit::{Cord, Tank};
use crate::sheet::{Code, Method, Sheet, Unit, read};
use crate::slip::{Event, Plan};
use crate::working::Habits;

use super::School;

/// What one group hands in, with what happened.
#[derive(Clone, Debug, PartialEq)]
pub struct HandedIn {
    /// Its sheet.
    pub sheet: Sheet,
    /// What it writes for its kit.
    pub kit: String,
    /// What happened at the bench, the kit's fault among it where this sheet
    /// could show it.
    pub truth: Vec<Event>,
    /// The wrong turn in its working, on every row; `None` where it took none.
    pub wrong_turn: Option<Code>,
}

/// A kit with its fault, which all groups at it share.
struct Kit<T> {
    kit: T,
    fault: Option<Code>,
}

impl School {
    /// Draws so many classes, each on one method, at a noise in units of the
    /// instruments' resolution.
    #[must_use]
    pub fn classes(&self, noise: f64, count: usize, seed: u64) -> Vec<Vec<HandedIn>> {
        let mut dice = Dice::new(seed);
        (0..count).map(|_| self.class(noise, &mut dice)).collect()
    }

    fn class(&self, noise: f64, dice: &mut Dice) -> Vec<HandedIn> {
        let on_string = dice.chance(0.5);
        let groups: usize = dice.within(6..=12);
        let kits: usize = dice.within(1..=4);
        let tanks: Vec<_> = (0..kits).map(|_| self.draw_tank(noise, dice)).collect();
        let cords: Vec<_> = (0..kits).map(|_| self.draw_cord(noise, dice)).collect();
        let group = |at: usize| {
            let kit = at % kits;
            let skill = (self.skill_spread * dice.normal()).exp();
            let (mut sheet, truth) = if on_string {
                self.at_string(&cords[kit], noise * skill, dice)
            } else {
                self.at_tank(&tanks[kit], noise * skill, dice)
            };
            let is_worked = dice.chance(self.worked);
            HandedIn {
                wrong_turn: is_worked.then(|| self.work_out(&mut sheet, dice)).flatten(),
                sheet,
                kit: format!("kit {}", kit + 1),
                truth,
            }
        };
        (0..groups).map(group).collect()
    }

    fn draw_tank(&self, noise: f64, dice: &mut Dice) -> Kit<Tank> {
        let faults = ["dirty-water", "depth-off", "lamp-off", "dial-off"];
        let fault = dice.chance(self.faults).then(|| dice.pick(&faults));
        let if_fault = |code, factor| if fault == Some(code) { factor } else { 1.0 };
        let is_deep = dice.chance(super::DEEP_SHARE);
        let depth = dice.log_between(if is_deep {
            super::DEEP
        } else {
            super::USUAL_DEPTH
        });
        let tension = if fault == Some("dirty-water") {
            dice.between(super::DIRTY_TENSION)
        } else {
            draw_tension(dice)
        };
        let enlargement = dice.between(self.enlargement);
        let off = 1.0 + dice.either_way(super::FACTOR_OFF);
        let range = super::DEPTH_OFF[usize::from(dice.chance(0.5))];
        let card = dice.between(range);
        let dial = (noise * self.dial_factor_sd * dice.normal()).exp();
        let kit = Tank {
            label: "",
            tension,
            depth,
            card: if_fault("depth-off", card),
            enlargement,
            lamp: if_fault("lamp-off", off),
            dial: dial * if_fault("dial-off", off),
        };
        Kit { kit, fault }
    }

    fn draw_cord(&self, noise: f64, dice: &mut Dice) -> Kit<Cord> {
        let faults = ["dial-off", "string-stretched"];
        let fault = dice.chance(self.faults).then(|| dice.pick(&faults));
        let if_fault = |code, factor| if fault == Some(code) { factor } else { 1.0 };
        let hung = dice.pick(&super::HUNG);
        let weighed = dice.between((1.5, 2.0));
        let mass = weighed * dice.log_between(super::STRING_DENSITY);
        let stretch = 1.0 + dice.either_way(super::STRETCH);
        let off = 1.0 + dice.either_way(super::FACTOR_OFF);
        let faster = (self.string_speed_sd * dice.normal()).exp();
        let dial = (noise * self.dial_factor_sd * dice.normal()).exp();
        let kit = Cord {
            label: "",
            length: 1000.0 * dice.between(super::STRING),
            hung,
            mass,
            weighed,
            faster: faster * if_fault("string-stretched", stretch),
            dial: dial * if_fault("dial-off", off),
        };
        Kit { kit, fault }
    }

    /// A group of a skill, in a unit, with the dial's multiplier.
    fn group(&self, noise: f64, is_ten: bool, unit: Unit) -> Group {
        let (plain, ten) = self.dial_decimals;
        let hand = Hand {
            noise,
            ..self.hand.clone()
        };
        Group {
            frequency: if is_ten {
                Frequency::Dial(10, ten)
            } else {
                Frequency::Dial(1, plain)
            },
            waves: self.waves,
            object: (50.0, 200.0),
            ..Group::new(hand, unit)
        }
    }

    fn at_tank(&self, tank: &Kit<Tank>, noise: f64, dice: &mut Dice) -> (Sheet, Vec<Event>) {
        let mut plan = Plan::draw(dice, &self.tank);
        let is_ten = dice.chance(self.times_ten);
        plan = unless_harmless(plan, !is_ten, "dial-multiplier-left-out");
        let calls_one = !dice.chance(super::CALLS_NOUGHT);
        let zero = dice.either_way(super::ZERO_ERROR);
        let unit = self.unit(dice, "cm");
        let slip = plan.whole();
        let group = Group {
            first: u32::from(calls_one && slip != Some("counted-from-one")),
            slip,
            zero: if slip == Some("zero-error") {
                zero
            } else {
                0.0
            },
            ..self.group(noise, is_ten, unit)
        };
        let marks = self.marks(&group, is_ten, dice);
        let mut lines = group.ripples(&tank.kit, &marks, dice);
        let mut truth = plan.slip_in_rows(dice, &mut lines, true);
        let mut sheet = group.tank_sheet(&tank.kit, &lines, dice);
        let is_recorded = dice.chance(self.recorded);
        if is_recorded {
            group.record_depth(&tank.kit, &mut sheet, dice);
        }
        truth.extend(slip.map(|slip| (slip, None)));
        let fault = tank.fault.filter(|f| *f != "depth-off" || is_recorded);
        truth.extend(fault.map(|fault| (fault, None)));
        forget_ones(&mut sheet, dice);
        if self.without_scale > 0.0 && dice.chance(self.without_scale) {
            sheet.whole.retain(|column, _| !column.starts_with("scale"));
            truth.retain(|(what, _)| !["scale-upside-down", "lamp-off"].contains(what));
            truth.push(("scale-not-found", None));
        }
        (sheet, truth)
    }

    fn unit(&self, dice: &mut Dice, usual: Unit) -> Unit {
        if dice.chance(self.millimetres) {
            "mm"
        } else {
            usual
        }
    }

    /// Dial settings, in Hz before the multiplier, lowest first.
    fn marks(&self, group: &Group, is_ten: bool, dice: &mut Dice) -> Vec<f64> {
        let is_half = group.slip == Some("strobe-at-half");
        let rate = if is_half { 0.5 } else { 1.0 };
        let times = if is_ten { 10.0 } else { 1.0 };
        let (low, high) = self.frequencies;
        let step = 0.1;
        let mut marks: Vec<f64> = Vec::new();
        let count = rows_on_a_sheet(dice);
        while marks.len() < count {
            let aim = dice.within(low * rate..=high * rate) / times;
            let mark = (aim / step).round() * step;
            if marks.iter().all(|other| (other - mark).abs() > step / 2.0) {
                marks.push(mark);
            }
        }
        marks.sort_by(f64::total_cmp);
        marks
    }

    fn at_string(&self, cord: &Kit<Cord>, noise: f64, dice: &mut Dice) -> (Sheet, Vec<Event>) {
        let stretch = match dice.share() {
            share if share < super::END_TO_END => Stretch::Ends,
            share if share < super::END_TO_END + super::LOOPS_LEFT_BLANK => Stretch::EndsUnsaid,
            _ => Stretch::OneLoop,
        };
        let is_one = stretch == Stretch::OneLoop;
        let is_ten = dice.chance(self.times_ten);
        let unit = self.unit(dice, "m");
        let plan = Plan::draw(dice, &self.string);
        // A loop measured by itself is right however the others were counted.
        let plan = unless_harmless(plan, is_one, "nodes-counted-as-loops");
        let plan = unless_harmless(plan, !is_ten, "dial-multiplier-left-out");
        let mut group = Group {
            stretch,
            slip: plan.whole(),
            ..self.group(noise, is_ten, unit)
        };
        if !is_one && dice.chance(super::LENGTH_COPIED) {
            let error = group.hand.error(dice, group.hand.length);
            group.copied = Some(cord.kit.length + error);
        }
        let loops = some_loops(dice);
        let mut lines = group.loops(&cord.kit, &loops, dice);
        let mut truth = plan.slip_in_rows(dice, &mut lines, !is_one);
        truth.extend(plan.whole().map(|slip| (slip, None)));
        let mut sheet = group.string_sheet(&lines);
        if dice.chance(self.recorded) {
            Group::record_masses(&cord.kit, &mut sheet);
            truth.extend(cord.fault.map(|fault| (fault, None)));
        }
        forget_ones(&mut sheet, dice);
        (sheet, truth)
    }

    /// Fills the working in. Returns the wrong turn that was taken, on every
    /// row; `None` where none was.
    fn work_out(&self, sheet: &mut Sheet, dice: &mut Dice) -> Option<Code> {
        let turns: &[Code] = match sheet.method {
            Method::RippleTank => &ON_WATER,
            Method::StringLoops => &ON_A_STRING,
        };
        let turn = dice.pick(turns);
        let is_wrong = dice.chance(WRONG) && changes_something(turn, sheet);
        let careful = Habits {
            bare: self.bare > 0.0 && dice.chance(self.bare),
            ..Habits::careful(4)
        };
        let mut mistaken = sheet.clone();
        careful.clone().with(turn, None).work_out(&mut mistaken);
        if is_wrong && can_be_told(turn, &mistaken) {
            *sheet = mistaken;
            return Some(turn);
        }
        careful.work_out(sheet);
        None
    }
}

/// The share of worked sheets with a wrong turn.
const WRONG: f64 = 0.5;

const ON_WATER: [Code; 10] = [
    "counted-from-one",
    "span-not-divided",
    "scale-left-out",
    "scale-multiplied",
    "crest-to-trough",
    "dial-multiplier-left-out",
    "speed-divided",
    "reciprocal-left-out",
    "mean-not-divided",
    "gradient-upside-down",
];
const ON_A_STRING: [Code; 7] = [
    "loop-taken-as-wavelength",
    "nodes-counted-as-loops",
    "dial-multiplier-left-out",
    "speed-divided",
    "reciprocal-left-out",
    "mean-not-divided",
    "gradient-upside-down",
];

/// Whether the turn, taken on every row, moves figures in every row.
fn changes_something(turn: Code, sheet: &Sheet) -> bool {
    let every = |column, wanted: fn(f64) -> bool| {
        let mut rows = sheet.rows.iter();
        rows.all(|row| read(&row.cells, column).is_some_and(wanted))
    };
    match turn {
        "counted-from-one" => every("first_crest", |first| first > 0.5),
        "dial-multiplier-left-out" => every("dial_times", |times| times > 1.5),
        "scale-left-out" | "scale-multiplied" => sheet.whole.contains_key("scale_image"),
        _ => true,
    }
}

/// Whether the figures can show the turn: a gradient near 1 is the same upside
/// down.
fn can_be_told(turn: Code, worked: &Sheet) -> bool {
    let gradient = read(&worked.whole, "gradient");
    turn != "gradient-upside-down" || gradient.is_some_and(|g| g.ln().abs() > 0.3)
}

fn draw_tension(dice: &mut Dice) -> f64 {
    let (low, high) = super::TENSION_CUT;
    loop {
        let tension = super::TENSION.0 + super::TENSION.1 * dice.normal();
        if (low..high).contains(&tension) {
            return tension;
        }
    }
}

/// The plan, but nothing where it is this slip and would show nowhere.
fn unless_harmless(plan: Plan, is_harmless: bool, slip: Code) -> Plan {
    if is_harmless && plan.whole() == Some(slip) {
        Plan::Nothing
    } else {
        plan
    }
}

/// Rows on a sheet: 4 to 6, or 2 or 3.
fn rows_on_a_sheet(dice: &mut Dice) -> usize {
    if dice.chance(super::SHORT_SHEETS) {
        dice.within(2..=3)
    } else {
        dice.within(4..=6)
    }
}

/// Mostly the first harmonics, else any of the first six.
fn some_loops(dice: &mut Dice) -> Vec<u32> {
    let count = rows_on_a_sheet(dice);
    if dice.chance(0.7) {
        return (1..).take(count).collect();
    }
    let any = dice.some(count, 6);
    let all = (1..=6_u32).zip(0..6_usize);
    all.filter(|(_, at)| any.contains(at))
        .map(|(loops, _)| loops)
        .collect()
}

/// Half of the groups write no multiplier of 1.
fn forget_ones(sheet: &mut Sheet, dice: &mut Dice) {
    if dice.chance(0.5) {
        for row in &mut sheet.rows {
            row.cells
                .retain(|column, cell| *column != "dial_times" || cell.text != "1");
        }
    }
}
