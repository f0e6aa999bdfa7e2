//! Which final noughts of a whole number are figures: `10` beside `8` and `15`
//! is 9.5 to 10.5, `100` beside `240` is 95 to 105.
//!
//! Noughts are figures down to the finest place of another figure of the same
//! column; or, where that is coarser, down to as many figures as the column
//! shows (two at the least), since a group that rounds to two figures writes
//! `98` and then `100` for 102. A mean and a gradient belong to the column of
//! speeds; a speed does not belong to theirs, since they are often taken to
//! more figures.

use crate::entry::{Entries, Entry, Row};
use crate::field::{Field, Place, Role};
use crate::unit::Unit;

/// No column is taken to show fewer figures.
const LEAST_FIGURES: u32 = 2;

/// What a column shows.
#[derive(Clone, Copy)]
struct Shown {
    /// The finest place, as a power of ten of the SI unit.
    finest: i32,
    figures: u32,
}

pub(super) fn settle(whole: &mut Entries, rows: &mut [Row]) {
    let columns = Field::ALL
        .into_iter()
        .filter(|field| field.role() == Role::Working && field.place() == Place::Row);
    for field in columns {
        let Some(shown) = shown(rows, field) else {
            continue;
        };
        for row in &mut *rows {
            settle_one(row.entries.get_mut(field), shown);
        }
        if field == Field::Speed {
            settle_one(whole.get_mut(Field::MeanSpeed), shown);
            settle_one(whole.get_mut(Field::Gradient), shown);
        }
    }
}

fn shown(rows: &[Row], field: Field) -> Option<Shown> {
    let column = || rows.iter().filter_map(|row| row.entries.get(field));
    let places = column().map(|entry| entry.figure.last_place() + unit(entry));
    let figures = column().map(|entry| entry.figure.least_figures()).max()?;
    Some(Shown {
        finest: places.min()?,
        figures: figures.max(LEAST_FIGURES),
    })
}

fn settle_one(entry: Option<&mut Entry>, shown: Shown) {
    if let Some(entry) = entry {
        let by_place = shown.finest - unit(entry);
        let by_figures = entry.figure.place_of(shown.figures);
        entry.figure.noughts_count_to(by_place.max(by_figures));
    }
}

/// The power of ten of the unit in which an entry is read: those of the
/// working are powers of ten of the SI unit.
fn unit(entry: &Entry) -> i32 {
    let si = entry.reading_unit().map_or(1.0, Unit::si);
    let mut powers = -9..=9;
    powers
        .find(|power| 10_f64.powi(*power) > 0.5 * si)
        .unwrap_or(0)
}
