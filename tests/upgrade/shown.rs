//! What a page shows, without its looks: headings, rows of tables, lists,
//! facts, and what people typed. Left out are forms, graphs, the help on keys, and
//! prose that is the same on every such page.

/// What stands between two tags is a line of its own.
const LINES: [&str; 8] = ["h1", "h2", "h3", "caption", "tr", "li", "dt", "dd"];
/// Nothing in these is shown.
const LEFT_OUT: [&str; 7] = ["form", "svg", "nav", "script", "select", "button", "label"];

/// The lines of a page, without the sections that have these headings.
pub(crate) fn lines(html: &str, without: &[&str]) -> String {
    let (_, main) = html.split_once("<main").unwrap();
    let (main, _) = main.split_once("</main>").unwrap();
    let mut reader = Reader::default();
    for part in main.split('<').skip(1) {
        let (tag, text) = part.split_once('>').unwrap();
        reader.tag(tag, without);
        reader.text(text);
    }
    reader.end_line();
    reader.lines.join("\n")
}

#[derive(Default)]
struct Reader {
    lines: Vec<String>,
    line: String,
    /// How many elements are open that make lines.
    depth: usize,
    /// Whether a paragraph is open that holds what somebody typed.
    is_typed: bool,
    /// The element that is left out, with how many of its name are open.
    left_out: Option<(String, usize)>,
}

impl Reader {
    fn tag(&mut self, tag: &str, without: &[&str]) {
        let is_end = tag.starts_with('/');
        let words = tag.trim_start_matches('/').split_whitespace();
        let name = words.clone().next().unwrap_or_default();
        if let Some((left_out, open)) = &mut self.left_out {
            if left_out == name {
                *open = if is_end { *open - 1 } else { *open + 1 };
            }
            if *open == 0 {
                self.left_out = None;
            }
            return;
        }
        let is_section = |heading: &&str| tag.contains(&format!("aria-labelledby=\"{heading}\""));
        let is_keys = name == "details" && tag.contains("data-keys");
        if is_keys || LEFT_OUT.contains(&name) || without.iter().any(is_section) {
            self.left_out = (!is_end).then(|| (name.to_owned(), 1));
        } else if LINES.contains(&name) {
            self.end_line();
            self.depth = if is_end {
                self.depth - 1
            } else {
                self.depth + 1
            };
        } else if name == "p" && (self.is_typed || tag.contains("as-typed")) {
            self.end_line();
            self.is_typed = !is_end;
        } else if is_end && (name == "td" || name == "th") {
            self.line.push_str(" | ");
        } else {
            self.line.push(' ');
        }
    }

    fn text(&mut self, text: &str) {
        if self.left_out.is_none() && (self.depth > 0 || self.is_typed) {
            self.line.push_str(&plain(text));
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

fn plain(html: &str) -> String {
    let signs = [
        ("&#34;", "\""),
        ("&#39;", "'"),
        ("&#60;", "<"),
        ("&#62;", ">"),
    ];
    let plain = signs.iter().fold(html.to_owned(), |text, (code, sign)| {
        text.replace(code, sign)
    });
    plain.replace("&#38;", "&").replace("&amp;", "&")
}
