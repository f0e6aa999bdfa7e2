//! Cells as they are written.

use std::borrow::Cow;

use analysis::figure::{Figure, significant};

/// Figures in a number that is written for other programs to go on with.
const FIGURES: u32 = 6;

/// A number to six significant figures; blank where there is none.
pub(super) fn number(value: Option<f64>) -> String {
    value
        .filter(|value| value.is_finite())
        .map_or_else(String::new, |value| significant(value, FIGURES))
}

/// A cell of text that somebody typed. A spreadsheet runs a cell that starts
/// with one of these signs as a formula, so an apostrophe is put before it;
/// numbers (`-0.25`) are left as they are.
pub(super) fn typed(text: &str) -> Cow<'_, str> {
    if is_guarded(text) {
        Cow::Owned(format!("'{text}"))
    } else {
        Cow::Borrowed(text)
    }
}

/// The text that [`typed`] made this cell of.
pub(crate) fn read(cell: &str) -> &str {
    cell.strip_prefix('\'')
        .filter(|text| is_guarded(text))
        .unwrap_or(cell)
}

/// Whether a text gets an apostrophe. Apostrophes that it has already do not
/// save it from one more: else nobody could tell a formula that was guarded
/// from a text that somebody began with an apostrophe.
fn is_guarded(text: &str) -> bool {
    let bare = text.trim_start_matches('\'');
    bare.starts_with(['=', '+', '-', '@', '\t', '\r', '\0'])
        && (bare != text || !matches!(Figure::parse(text), Ok(Some(_))))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn formulas_are_made_text_and_numbers_survive() {
        for text in ["=A1", "+A1", "-A1", "@sum", "\tx", "\rx", "=1+1", "-1-1"] {
            assert_eq!(typed(text), format!("'{text}"), "{text}");
        }
        for text in ["-0.25", "+3", "-1,5", "A", "3a", "", "'", "'A"] {
            assert_eq!(typed(text), text, "{text}");
        }
    }

    #[test]
    fn what_was_guarded_is_read_as_it_was_typed() {
        for text in [
            "=A1", "'=A1", "''=A1", "-0.25", "'-0.25", "'", "''", "'A", "A", "", "-",
        ] {
            assert_eq!(read(&typed(text)), text, "{text}");
        }
        assert_eq!(typed("'=A1"), "''=A1");
        // As somebody may write it by hand, not knowing of guards.
        assert_eq!(read("=A1"), "=A1");
        assert_eq!(read("'-0.25"), "'-0.25");
    }

    #[test]
    fn numbers_have_six_figures_or_are_blank() {
        assert_eq!(number(Some(0.256_489_123)), "0.256489");
        assert_eq!(number(Some(-1234.0)), "-1234.00");
        assert_eq!(number(None), "");
        assert_eq!(number(Some(f64::INFINITY)), "");
    }
}
