//! Cells as they are written.

use std::borrow::Cow;
use std::fmt;

use analysis::figure::{Figure, significant};
use askama::Template;
use askama::filters::HtmlSafe;

/// What stands in one place of a table.
#[derive(Clone, Debug, Default)]
pub struct Cell {
    /// All that a file has of it.
    pub(super) text: String,
    /// How a page shows it.
    pub(super) page: Option<Box<OnPage>>,
}

/// What a page shows with a text; each may be blank.
#[derive(Clone, Debug, Default)]
pub(super) struct OnPage {
    /// Smaller, on a line of its own.
    pub(super) below: String,
    /// Smaller, after it.
    pub(super) aside: String,
    /// Its element, where that is more than a span.
    pub(super) element: &'static str,
    /// Its class in the stylesheet.
    pub(super) class: &'static str,
    /// Where it leads.
    pub(super) href: String,
    /// What a screen reader says for the link.
    pub(super) says: String,
    /// More of the same cell.
    pub(super) more: Vec<Cell>,
    /// Whether all of that is on one line.
    pub(super) is_one_line: bool,
    /// What stands there instead of the text.
    pub(super) drawn: Option<Drawn>,
}

/// A template that was drawn; `None` where that failed, and then the page
/// fails too.
#[derive(Clone, Debug)]
pub(super) struct Drawn(Option<String>);

// A whole template, which has escaped what it was given.
impl HtmlSafe for Drawn {}

impl fmt::Display for Drawn {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.0.as_deref().ok_or(fmt::Error)?)
    }
}

impl<T: fmt::Display> From<T> for Cell {
    fn from(text: T) -> Self {
        Self {
            text: text.to_string(),
            page: None,
        }
    }
}

impl Cell {
    /// Makes one cell of several, each on a line.
    pub fn lines(cells: impl IntoIterator<Item = Self>) -> Self {
        let mut cells = cells.into_iter();
        let first = cells.next().unwrap_or_default();
        first.with(|page| page.more = cells.collect())
    }

    /// Makes one cell of several, one after the other.
    pub fn run(cells: impl IntoIterator<Item = Self>) -> Self {
        Self::lines(cells).with(|page| page.is_one_line = true)
    }

    /// Makes a cell that a template draws: what has boxes or lists in it. Files
    /// leave it blank.
    pub fn drawn(template: &impl Template) -> Self {
        let drawn = Drawn(template.render().ok());
        Self::default().with(|page| page.drawn = Some(drawn))
    }

    /// Writes something smaller below it; nothing where that is blank.
    #[must_use]
    pub fn below(self, text: impl Into<String>) -> Self {
        self.with(|page| page.below = text.into())
    }

    /// Writes something smaller after it; nothing where that is blank.
    #[must_use]
    pub fn aside(self, text: impl Into<String>) -> Self {
        self.with(|page| page.aside = text.into())
    }

    /// Makes it stand out.
    #[must_use]
    pub fn strong(self) -> Self {
        self.with(|page| page.element = "strong")
    }

    /// Makes it something to be compared letter by letter.
    #[must_use]
    pub fn code(self) -> Self {
        self.with(|page| page.element = "code")
    }

    /// Gives it a class of the stylesheet.
    #[must_use]
    pub fn class(self, class: &'static str) -> Self {
        self.with(|page| page.class = class)
    }

    /// Makes it a link.
    #[must_use]
    pub fn link(self, href: impl Into<String>) -> Self {
        self.with(|page| page.href = href.into())
    }

    /// Makes it a link for which a screen reader says something else.
    #[must_use]
    pub fn link_called(self, href: impl Into<String>, says: impl Into<String>) -> Self {
        self.link(href).with(|page| page.says = says.into())
    }

    fn with(mut self, change: impl FnOnce(&mut OnPage)) -> Self {
        change(self.page.get_or_insert_default());
        self
    }
}

/// Figures in a number that is written for other programs to go on with.
const FIGURES: u32 = 6;

/// Returns a number to six significant figures. Returns no text when there is
/// none.
pub(super) fn number(value: Option<f64>) -> String {
    value
        .filter(|value| value.is_finite())
        .map_or_else(String::new, |value| significant(value, FIGURES))
}

/// Returns a cell of text that somebody typed. A spreadsheet runs a cell that
/// starts with one of these signs as a formula, so an apostrophe is put before
/// it; numbers (`-0.25`) are left as they are.
pub(super) fn typed(text: &str) -> Cow<'_, str> {
    if is_guarded(text) {
        Cow::Owned(format!("'{text}"))
    } else {
        Cow::Borrowed(text)
    }
}

/// Returns the text that [`typed`] made this cell of.
pub(crate) fn read(cell: &str) -> &str {
    cell.strip_prefix('\'')
        .filter(|text| is_guarded(text))
        .unwrap_or(cell)
}

/// Says whether a text gets an apostrophe. Apostrophes that it has already do
/// not save it from one more: else nobody could tell a formula that was
/// guarded from a text that somebody began with an apostrophe.
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
