//! A full ripple-tank sheet, worked out.

use server::db::revision::{Answers, Entry};
use simulator::sheet::{Reading, cell, tank_sheet};
use simulator::working::Habits;

use super::typed::typed;

/// Frequency in Hz, waves in the span, span on the screen in cm.
const ROWS: [(f64, u32, f64); 6] = [
    (10.0, 6, 24.7),
    (15.0, 8, 22.4),
    (20.0, 9, 19.6),
    (25.0, 10, 18.1),
    (30.0, 10, 15.7),
    (35.0, 10, 14.0),
];

/// Six rows with every figure filled in; spans `level` times the usual, and
/// the enlargement of 1.75 left out of the wavelengths or not.
pub(crate) fn full_sheet(level: f64, leaves_scale_out: bool) -> Entry {
    let readings = ROWS.map(|(dial, count, span)| Reading {
        dial,
        times: 1.0,
        count,
        first: 0,
        span: (10.0 * span * level).round() / 10.0,
    });
    let mut sheet = tank_sheet(&readings, (14.0, 8.0));
    sheet.whole.insert("depth_mm", cell("5", ""));
    let mut habits = Habits::careful(3);
    if leaves_scale_out {
        habits = habits.with("scale-left-out", None);
    }
    habits.work_out(&mut sheet);
    Entry {
        sheet: typed(&sheet),
        kit: "Tank 3".to_owned(),
        shared: String::new(),
        answers: Answers::default(),
    }
}
