//! What a page shows, without its looks: headings, rows of tables, lists,
//! facts, and what people typed. Left out are forms, graphs, the help on keys, and
//! prose that is the same on every such page.

use scraper::{ElementRef, Node};

use crate::support::Part;

/// What stands between two tags is a line of its own.
const LINES: [&str; 8] = ["h1", "h2", "h3", "caption", "tr", "li", "dt", "dd"];
/// Nothing in these is shown.
const LEFT_OUT: [&str; 7] = ["form", "svg", "nav", "script", "select", "button", "label"];

/// The lines of a page, without the sections that have these headings.
pub(crate) fn lines(html: &str, without: &[&str]) -> String {
    let main = Part::page(html).at("main");
    let mut reader = Reader::default();
    reader.read(main.element(), without);
    reader.end_line();
    reader.lines.join("\n")
}

#[derive(Default)]
struct Reader {
    lines: Vec<String>,
    line: String,
    /// How many elements are open that make lines, or hold what was typed.
    depth: usize,
}

impl Reader {
    fn read(&mut self, element: ElementRef<'_>, without: &[&str]) {
        for child in element.children() {
            if let (Node::Text(text), 1..) = (child.value(), self.depth) {
                self.line.push_str(text);
            }
            let Some(inner) = ElementRef::wrap(child) else {
                continue;
            };
            let name = inner.value().name();
            let heading = inner.attr("aria-labelledby").unwrap_or_default();
            let is_keys = name == "details" && inner.attr("data-keys").is_some();
            if is_keys || LEFT_OUT.contains(&name) || without.contains(&heading) {
                continue;
            }
            let class = inner.attr("class").unwrap_or_default();
            let is_typed = name == "p" && class.contains("as-typed");
            if is_typed || LINES.contains(&name) {
                self.end_line();
                self.depth += 1;
                self.read(inner, without);
                self.end_line();
                self.depth -= 1;
            } else {
                self.line.push(' ');
                self.read(inner, without);
                let is_cell = ["td", "th"].contains(&name);
                self.line.push_str(if is_cell { " | " } else { " " });
            }
        }
    }

    fn end_line(&mut self) {
        let words: Vec<_> = self.line.split_whitespace().collect();
        if !words.is_empty() {
            self.lines.push(words.join(" "));
        }
        self.line.clear();
    }
}
