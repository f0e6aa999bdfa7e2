//! The working of a sheet, filled in by the simulated pupil, with at most one
//! wrong turn that its figures can show.

use analysis::field::{Field, Role};
use analysis::method::Method;
use analysis::sheet::{Cells, TypedSheet};
use analysis::slip::Slip;
use rand::Rng;
use rand::rngs::StdRng;

use crate::pupil::{self, Habits, Reading};

/// The share of worked sheets with a wrong turn.
const WRONG: f64 = 0.5;

const ON_WATER: [Slip; 10] = [
    Slip::CountedFromOne,
    Slip::SpanNotDivided,
    Slip::ScaleLeftOut,
    Slip::ScaleMultiplied,
    Slip::CrestToTrough,
    Slip::DialMultiplierLeftOut,
    Slip::SpeedDivided,
    Slip::ReciprocalLeftOut,
    Slip::MeanNotDivided,
    Slip::GradientUpsideDown,
];
const ON_A_STRING: [Slip; 7] = [
    Slip::LoopTakenAsWavelength,
    Slip::NodesCountedAsLoops,
    Slip::DialMultiplierLeftOut,
    Slip::SpeedDivided,
    Slip::ReciprocalLeftOut,
    Slip::MeanNotDivided,
    Slip::GradientUpsideDown,
];

/// Fills in every figure of the working from the readings as written. Returns
/// the wrong turn that was taken, if any.
pub(super) fn fill_in(rng: &mut StdRng, typed: &mut TypedSheet) -> Option<(Slip, Option<usize>)> {
    let readings: Vec<_> = typed.rows.iter().map(|row| reading(&row.cells)).collect();
    let on_water = typed.method == Method::RippleTank;
    let slips: &[Slip] = if on_water { &ON_WATER } else { &ON_A_STRING };
    let slip = slips[rng.random_range(0..slips.len())];
    let wrong = rng.random_bool(WRONG) && changes_something(slip, &readings);
    let work = |habits: &Habits| {
        if on_water {
            let length = |field| number(&typed.whole, field).expect("both lengths are written");
            let scale = (length(Field::ScaleImage), length(Field::ScaleTrue));
            pupil::ripple(&readings, scale, habits)
        } else {
            pupil::string(&readings, habits)
        }
    };
    let mistaken = wrong
        .then(|| work(&Habits::careful(4).with(slip, None)))
        .filter(|worked| can_be_told(slip, worked));
    let taken = mistaken.as_ref().map(|_| (slip, None));
    let worked = mistaken.unwrap_or_else(|| work(&Habits::careful(4)));
    take_working(&mut typed.whole, worked.whole);
    for (row, worked) in typed.rows.iter_mut().zip(worked.rows) {
        take_working(&mut row.cells, worked.cells);
    }
    taken
}

/// Whether the figures can show the turn: a gradient near 1 is the same upside
/// down.
fn can_be_told(slip: Slip, worked: &TypedSheet) -> bool {
    let gradient = number(&worked.whole, Field::Gradient);
    slip != Slip::GradientUpsideDown || gradient.is_some_and(|g| g.ln().abs() > 0.3)
}

fn take_working(cells: &mut Cells, worked: Cells) {
    cells.extend(
        worked
            .into_iter()
            .filter(|(field, _)| field.role() == Role::Working),
    );
}

/// Whether the turn, taken on every row, moves figures in every row.
fn changes_something(slip: Slip, readings: &[Reading]) -> bool {
    readings.iter().all(|reading| match slip {
        Slip::CountedFromOne => reading.first == 1,
        Slip::DialMultiplierLeftOut => reading.times > 1.0,
        _ => true,
    })
}

fn number(cells: &Cells, field: Field) -> Option<f64> {
    let cell = cells.get(&field)?;
    let value: f64 = cell.text.parse().ok()?;
    // The pupil works in cm on water and in m on a string.
    Some(match (cell.unit.as_str(), field) {
        ("mm", Field::Length) => value / 1000.0,
        ("mm", _) => value / 10.0,
        _ => value,
    })
}

fn reading(cells: &Cells) -> Reading {
    let count = |field| {
        let text = &cells.get(&field)?.text;
        text.parse::<u32>().ok()
    };
    let first = count(Field::FirstCrest).unwrap_or(0);
    let waves = count(Field::LastCrest).map(|last| last - first);
    let loops = || count(Field::LengthLoops).or_else(|| count(Field::Loops));
    Reading {
        dial: number(cells, Field::Dial).expect("every row has a dial"),
        times: number(cells, Field::DialTimes).unwrap_or(1.0),
        count: waves.or_else(loops).expect("every row has a count"),
        first,
        span: number(cells, Field::Span)
            .or_else(|| number(cells, Field::Length))
            .expect("every row has a length"),
    }
}
