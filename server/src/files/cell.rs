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

/// Text that somebody typed. A spreadsheet runs a cell that starts with one
/// of these signs as a formula, so an apostrophe is put before it; numbers
/// (`-0.25`) are left as they are.
pub(super) fn typed(text: &str) -> Cow<'_, str> {
    let formula = text.starts_with(['=', '+', '-', '@', '\t', '\r', '\0']);
    if formula && !matches!(Figure::parse(text), Ok(Some(_))) {
        Cow::Owned(format!("'{text}"))
    } else {
        Cow::Borrowed(text)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn formulas_are_made_text_and_numbers_survive() {
        for text in ["=A1", "+A1", "-A1", "@sum", "\tx", "\rx", "=1+1", "-1-1"] {
            assert_eq!(typed(text), format!("'{text}"), "{text}");
        }
        for text in ["-0.25", "+3", "-1,5", "A", "3a", "", "'=A1"] {
            assert_eq!(typed(text), text, "{text}");
        }
    }

    #[test]
    fn numbers_have_six_figures_or_are_blank() {
        assert_eq!(number(Some(0.256_489_123)), "0.256489");
        assert_eq!(number(Some(-1234.0)), "-1234.00");
        assert_eq!(number(None), "");
        assert_eq!(number(Some(f64::INFINITY)), "");
    }
}
