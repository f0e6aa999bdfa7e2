//! Odd but possible entries: kept, and asked about.

use crate::field::Field;
use crate::figure::significant;
use crate::method::Method;

use super::{Entries, Sheet};

/// Something to ask about one box. It is never an error.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Question {
    /// Index of the row; `None` for a box of the whole sheet.
    pub row: Option<usize>,
    /// Which box.
    pub field: Field,
    /// What is asked.
    pub asks: Asks,
}

/// What is asked about a box.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Asks {
    /// Whether this figure is right: a school's apparatus seldom gives it.
    Unusual(String),
    /// Which unit it is in.
    Unit,
    /// Whether the comma is a point or a thousand's: the figures before it, and
    /// the three after it.
    Comma(String, String),
    /// Whether the picture is so many times as large as the water.
    Picture(String),
    /// Whether the frequency is so many hertz, with its multiplier.
    Frequency(String),
}

pub(super) fn questions(sheet: &Sheet) -> Vec<Question> {
    let mut asked = Vec::new();
    let usual = sheet.method.spec().usual;
    ask_usual(usual, None, &sheet.whole, &mut asked);
    ask_comma(None, &sheet.whole, &mut asked);
    ask_scale(sheet, &mut asked);
    ask_units(sheet, &mut asked);
    for (index, row) in sheet.rows.iter().enumerate() {
        ask_usual(usual, Some(index), &row.entries, &mut asked);
        ask_frequency(sheet.method, index, &row.entries, &mut asked);
        ask_comma(Some(index), &row.entries, &mut asked);
    }
    asked
}

fn ask_usual(
    usual: &[(Field, f64, f64)],
    row: Option<usize>,
    entries: &Entries,
    asked: &mut Vec<Question>,
) {
    for (field, entry) in entries.iter() {
        let Some((_, low, high)) = usual.iter().find(|(of, ..)| *of == field) else {
            continue;
        };
        if !(*low..=*high).contains(&entry.si()) {
            let asks = Asks::Unusual(entry.figure.text().trim().to_owned());
            asked.push(Question { row, field, asks });
        }
    }
}

/// A unit left out is asked for once a column, at its first figure.
fn ask_units(sheet: &Sheet, asked: &mut Vec<Question>) {
    for field in sheet.method.fields().filter(|field| field.asks_unit()) {
        let in_rows = sheet.rows.iter().enumerate();
        let in_rows = in_rows.filter_map(|(at, row)| Some((Some(at), row.entries.get(field)?)));
        let whole = sheet.whole.get(field).map(|entry| (None, entry));
        let lacking = whole
            .into_iter()
            .chain(in_rows)
            .find(|(_, entry)| entry.unit.is_none());
        if let Some((row, _)) = lacking {
            let asks = Asks::Unit;
            asked.push(Question { row, field, asks });
        }
    }
}

/// `1,150` may be meant as 1.15 or as 1150. It is read as 1.15.
fn ask_comma(row: Option<usize>, entries: &Entries, asked: &mut Vec<Question>) {
    for (field, entry) in entries.iter() {
        let text = entry.figure.text().trim();
        let Some((whole, after)) = text.split_once(',') else {
            continue;
        };
        let figures = after.chars().take_while(char::is_ascii_digit).count();
        if figures == 3 && (1..=3).contains(&whole.len()) && whole != "0" {
            let asks = Asks::Comma(whole.to_owned(), after[..3].to_owned());
            asked.push(Question { row, field, asks });
        }
    }
}

/// An enlargement below 1 would mean a picture smaller than the water.
fn ask_scale(sheet: &Sheet, asked: &mut Vec<Question>) {
    let scale = (
        sheet.whole.si(Field::ScaleImage),
        sheet.whole.si(Field::ScaleTrue),
    );
    if let (Some(image), Some(true_length)) = scale
        && !(0.9..=6.0).contains(&(image / true_length))
    {
        asked.push(Question {
            row: None,
            field: Field::ScaleImage,
            asks: Asks::Picture(significant(image / true_length, 3)),
        });
    }
}

fn ask_frequency(method: Method, row: usize, entries: &Entries, asked: &mut Vec<Question>) {
    let Some(dial) = entries.si(Field::Dial) else {
        return;
    };
    let frequency = dial * entries.si(Field::DialTimes).unwrap_or(1.0);
    let (low, high) = method.spec().frequencies;
    if !(low..=high).contains(&frequency) {
        asked.push(Question {
            row: Some(row),
            field: Field::Dial,
            asks: Asks::Frequency(significant(frequency, 3)),
        });
    }
}
