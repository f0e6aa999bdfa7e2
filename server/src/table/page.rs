//! Tables on pages.

use askama::Template;
use askama::filters::HtmlSafe;

use super::{Cell, Kind, Table};

/// A table on a page. One of its columns names the rows.
#[derive(Clone, Debug, Template)]
#[template(path = "partials/table.html")]
pub struct PageTable {
    table: Table,
    label: String,
    caption: String,
    class: &'static str,
}

// A whole template, which has escaped what it was given.
impl HtmlSafe for PageTable {}

impl PageTable {
    pub(super) fn new(table: Table, label: String, caption: String) -> Self {
        Self {
            table,
            label,
            caption,
            class: "",
        }
    }

    /// Gives it a class of the stylesheet.
    #[must_use]
    pub fn class(self, class: &'static str) -> Self {
        Self { class, ..self }
    }

    /// Returns the number of rows.
    #[must_use]
    pub fn height(&self) -> usize {
        self.table.height()
    }

    /// Returns whether there is no row.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.height() == 0
    }
}

impl Kind {
    /// Returns the class of its cells in the stylesheet. Headings are broken
    /// into lines nevertheless.
    fn class(self) -> &'static str {
        match self {
            Self::Text => "",
            Self::Name => "whole",
            Self::Words => "words",
            Self::Figure => "num",
        }
    }
}

impl Cell {
    /// Returns its element on a page. Returns no text when it needs none.
    fn element(&self) -> &'static str {
        match &self.page {
            Some(on) if on.element.is_empty() && !on.class.is_empty() => "span",
            on => on.as_ref().map_or("", |on| on.element),
        }
    }

    /// Returns the cell, then what else stands in it.
    fn each(&self) -> impl Iterator<Item = &Self> {
        let more = self.page.iter().flat_map(|page| &page.more);
        std::iter::once(self).chain(more)
    }

    fn is_one_line(&self) -> bool {
        self.page.as_ref().is_some_and(|page| page.is_one_line)
    }
}
