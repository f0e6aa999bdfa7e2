//! Tables as the sheets of one workbook: figures as numbers, everything else
//! as text, nothing as a formula.

use rust_xlsxwriter::{
    DocProperties, ExcelDateTime, Format, FormatAlign, Workbook, Worksheet, XlsxError,
};

use super::{Kind, Table};

/// Why a workbook could not be written: a table does not fit into one.
pub type WorkbookError = XlsxError;

/// Least and greatest width of a column, in characters.
const WIDTHS: (usize, usize) = (8, 40);

/// More digits than this a spreadsheet would not keep.
const MOST_DIGITS: usize = 15;

/// Writes a workbook of these tables, made at `now` (Unix ms). Each has the
/// name on its tab, of at most 31 characters.
///
/// # Errors
/// When a table is too large for a workbook.
pub fn workbook(tables: &[(&str, Table)], now: i64) -> Result<Vec<u8>, WorkbookError> {
    let mut workbook = Workbook::new();
    let made = ExcelDateTime::from_timestamp(now / 1000)?;
    workbook.set_properties(&DocProperties::new().set_creation_datetime(&made));
    for (name, table) in tables {
        fill(workbook.add_worksheet().set_name(*name)?, table)?;
    }
    workbook.save_to_buffer()
}

fn fill(sheet: &mut Worksheet, table: &Table) -> Result<(), WorkbookError> {
    let heading = Format::new().set_bold().set_text_wrap();
    let words = Format::new().set_text_wrap().set_align(FormatAlign::Top);
    for (at, column) in (0..).zip(&table.columns) {
        sheet.write_string_with_format(0, at, &*column.name.text, &heading)?;
        let mut width = column.name.text.chars().count();
        for (row, cells) in (1..).zip(&table.rows) {
            let text = &cells[usize::from(at)].text;
            width = width.max(longest_line(text));
            match plain_number(text).filter(|_| column.kind == Kind::Figure) {
                _ if text.is_empty() => {}
                Some(Number { value, decimals }) => {
                    let format = Format::new().set_num_format(as_typed(decimals));
                    sheet.write_number_with_format(row, at, value, &format)?;
                }
                None => {
                    sheet.write_string_with_format(row, at, text, &words)?;
                }
            }
        }
        let width = u32::try_from(width.clamp(WIDTHS.0, WIDTHS.1) + 2).unwrap_or(u32::MAX);
        sheet.set_column_width(at, width)?;
    }
    sheet.set_freeze_panes(1, 0)?;
    Ok(())
}

fn longest_line(text: &str) -> usize {
    let lengths = text.lines().map(|line| line.chars().count());
    lengths.max().unwrap_or(0)
}

struct Number {
    value: f64,
    decimals: usize,
}

/// Returns a number that is written as a spreadsheet would show it: digits,
/// perhaps a minus before them and a point among them. `007` and `5,60` stay
/// text.
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

/// Returns the format that shows as many decimals as were typed.
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
