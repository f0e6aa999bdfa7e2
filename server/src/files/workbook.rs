//! Files as the sheets of one workbook: numbers as numbers, everything else
//! as text, nothing as a formula.

use analysis::field::Field;
use rust_xlsxwriter::{
    DocProperties, ExcelDateTime, Format, FormatAlign, Workbook, Worksheet, XlsxError,
};

use super::cell;

/// Columns that hold numbers besides those of figures.
const NUMBERS: [&str; 17] = [
    "row",
    "rows",
    "speed_low",
    "speed_high",
    "given_speed",
    "expected_speed",
    "robust_z",
    "probability",
    "given",
    "expected",
    "point",
    "marks",
    "awarded",
    "suggested",
    "revision",
    "present",
    "absent",
];

/// Least and greatest width of a column, in characters.
const WIDTHS: (usize, usize) = (8, 40);

/// More digits than this a spreadsheet would not keep.
const MOST_DIGITS: usize = 15;

/// One sheet of the workbook: its name, and a CSV file of ours.
#[derive(Clone, Copy, Debug)]
pub struct Contents<'a> {
    /// The name on its tab, at most 31 characters.
    pub name: &'a str,
    /// What stands in it.
    pub csv: &'a [u8],
}

/// Why a workbook could not be written.
#[derive(Debug, thiserror::Error)]
pub enum WorkbookError {
    /// A file is no CSV.
    #[error(transparent)]
    Csv(#[from] csv::Error),
    /// What is to be written does not fit into a workbook.
    #[error(transparent)]
    Workbook(#[from] XlsxError),
}

/// A workbook of these sheets, made at `now` (Unix ms).
///
/// # Errors
/// When a file is no CSV, or too large for a workbook.
pub fn workbook(sheets: &[Contents<'_>], now: i64) -> Result<Vec<u8>, WorkbookError> {
    let mut workbook = Workbook::new();
    let made = ExcelDateTime::from_timestamp(now / 1000)?;
    workbook.set_properties(&DocProperties::new().set_creation_datetime(&made));
    for sheet in sheets {
        fill(workbook.add_worksheet().set_name(sheet.name)?, sheet.csv)?;
    }
    Ok(workbook.save_to_buffer()?)
}

fn fill(sheet: &mut Worksheet, csv: &[u8]) -> Result<(), WorkbookError> {
    let mut lines = csv::ReaderBuilder::new().from_reader(csv);
    let names: Vec<String> = lines.headers()?.iter().map(str::to_owned).collect();
    let heading = Format::new().set_bold().set_text_wrap();
    let words = Format::new().set_text_wrap().set_align(FormatAlign::Top);
    let mut widths: Vec<usize> = names.iter().map(|name| name.chars().count()).collect();
    for (column, name) in (0..).zip(&names) {
        sheet.write_string_with_format(0, column, name, &heading)?;
    }
    for (row, line) in (1..).zip(lines.records()) {
        let line = line?;
        for (column, text) in (0..).zip(&line) {
            let at = usize::from(column);
            let text = cell::read(text);
            widths[at] = widths[at].max(longest_line(text));
            match plain_number(text).filter(|_| holds_numbers(&names[at])) {
                _ if text.is_empty() => {}
                Some(Number { value, decimals }) => {
                    let format = Format::new().set_num_format(as_typed(decimals));
                    sheet.write_number_with_format(row, column, value, &format)?;
                }
                None => {
                    sheet.write_string_with_format(row, column, text, &words)?;
                }
            }
        }
    }
    for (column, width) in (0..).zip(widths) {
        let width = u32::try_from(width.clamp(WIDTHS.0, WIDTHS.1) + 2).unwrap_or(u32::MAX);
        sheet.set_column_width(column, width)?;
    }
    sheet.set_freeze_panes(1, 0)?;
    Ok(())
}

fn longest_line(text: &str) -> usize {
    let lengths = text.lines().map(|line| line.chars().count());
    lengths.max().unwrap_or(0)
}

fn holds_numbers(column: &str) -> bool {
    Field::named(column).is_some()
        || NUMBERS.contains(&column)
        || super::year::NUMBERS.contains(&column)
}

struct Number {
    value: f64,
    decimals: usize,
}

/// A number that is written as a spreadsheet would show it: digits, perhaps a
/// minus before them and a point among them. `007` and `5,60` stay text.
fn plain_number(text: &str) -> Option<Number> {
    let digits = text.strip_prefix('-').unwrap_or(text);
    let (whole, fraction) = match digits.split_once('.') {
        Some((whole, fraction)) => (whole, Some(fraction)),
        None => (digits, None),
    };
    let is_number = |part: &str| !part.is_empty() && part.bytes().all(|b| b.is_ascii_digit());
    let has_leading_nought = whole.len() > 1 && whole.starts_with('0');
    let decimals = fraction.map_or(0, str::len);
    if !is_number(whole)
        || !fraction.is_none_or(is_number)
        || has_leading_nought
        || whole.len() + decimals > MOST_DIGITS
    {
        return None;
    }
    let value = text.parse().ok()?;
    Some(Number { value, decimals })
}

/// The format that shows as many decimals as were typed.
fn as_typed(decimals: usize) -> String {
    match decimals {
        0 => "0".to_owned(),
        decimals => format!("0.{}", "0".repeat(decimals)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_plain_numbers_are_numbers() {
        for (text, value, decimals) in [
            ("5.60", 5.6, 2),
            ("-1.5", -1.5, 1),
            ("0", 0.0, 0),
            ("0.25", 0.25, 2),
            ("4400", 4400.0, 0),
        ] {
            let number = plain_number(text).expect(text);
            assert!((number.value - value).abs() < 1e-12, "{text}");
            assert_eq!(number.decimals, decimals, "{text}");
        }
        for text in [
            "",
            "-",
            "5.",
            ".5",
            "5,60",
            " 5.6",
            "5.6 cm",
            "+3",
            "1e3",
            "007",
            "3a",
            "=1",
            "1234567890123456",
            "٣",
        ] {
            assert!(plain_number(text).is_none(), "{text}");
        }
    }
}
