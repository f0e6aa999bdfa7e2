//! A page as its reader has it: parts by selector, words without tags, forms
//! as a browser would send them.

use std::rc::Rc;

use ego_tree::NodeId;
use ego_tree::iter::Edge;
use scraper::{ElementRef, Html, Node, Selector};

/// Elements that do not end a word.
const INLINE: [&str; 9] = [
    "a", "b", "code", "i", "q", "small", "span", "strong", "time",
];

/// An element of a page, with all that is in it.
#[derive(Clone)]
pub(crate) struct Part {
    page: Rc<Html>,
    node: NodeId,
}

impl Part {
    /// The whole page.
    pub(crate) fn page(html: &str) -> Self {
        let page = Html::parse_document(html);
        let node = page.root_element().id();
        Self {
            page: Rc::new(page),
            node,
        }
    }

    pub(crate) fn element(&self) -> ElementRef<'_> {
        ElementRef::wrap(self.page.tree.get(self.node).unwrap()).unwrap()
    }

    /// Every element in it that a selector finds, in the order of the page.
    pub(crate) fn all(&self, selector: &str) -> Vec<Self> {
        let parsed = Selector::parse(selector).unwrap_or_else(|_| panic!("{selector}"));
        let found = self.element().select(&parsed).map(|found| Self {
            page: self.page.clone(),
            node: found.id(),
        });
        found.collect()
    }

    /// The first element in it that a selector finds.
    pub(crate) fn at(&self, selector: &str) -> Self {
        let mut found = self.all(selector).into_iter();
        let first = found.next();
        first.unwrap_or_else(|| panic!("{selector} is not in:\n{}", self.html()))
    }

    /// The only element of those that a selector finds which says this.
    pub(crate) fn with(&self, selector: &str, words: &str) -> Self {
        let mut found = self.all(selector);
        found.retain(|part| part.words().contains(words));
        assert_eq!(found.len(), 1, "{selector} with {words}: {}", self.html());
        found.remove(0)
    }

    /// The section under the heading with this name.
    pub(crate) fn section(&self, name: &str) -> Self {
        self.at(&format!("section[aria-labelledby='{name}']"))
    }

    pub(crate) fn has(&self, selector: &str) -> bool {
        !self.all(selector).is_empty()
    }

    /// What it says: its text, with one blank between words.
    pub(crate) fn words(&self) -> String {
        let mut text = String::new();
        for edge in self.element().traverse() {
            let (Edge::Open(node) | Edge::Close(node)) = edge;
            match (node.value(), edge) {
                (Node::Text(words), Edge::Open(_)) => text.push_str(words),
                (Node::Element(element), _) if !INLINE.contains(&element.name()) => text.push(' '),
                _ => {}
            }
        }
        let words: Vec<_> = text.split_whitespace().collect();
        words.join(" ")
    }

    /// What each cell of a row of a table says, headings among them.
    pub(crate) fn cells(&self) -> Vec<String> {
        self.all("th, td").iter().map(Self::words).collect()
    }

    /// The same of the only row whose heading ends so.
    pub(crate) fn row(&self, heading: &str) -> Vec<String> {
        let mut rows = self.all("tr:has(th[scope=row])");
        rows.retain(|row| row.at("th").words().ends_with(heading));
        assert_eq!(rows.len(), 1, "{heading}: {}", self.html());
        rows[0].cells()
    }

    pub(crate) fn html(&self) -> String {
        self.element().html()
    }

    /// An attribute; blank if absent.
    pub(crate) fn attr(&self, name: &str) -> &str {
        self.element().attr(name).unwrap_or_default()
    }

    /// The text or value of the first box of this name.
    pub(crate) fn value(&self, name: &str) -> String {
        self.at(&format!("[name='{name}']")).sent()
    }

    /// What a browser sends of this box.
    fn sent(&self) -> String {
        match self.element().value().name() {
            "textarea" => self.element().text().collect(),
            "select" => {
                let chosen = self.all("option[selected]");
                let first = || self.at("option");
                let chosen = chosen.into_iter().next().unwrap_or_else(first);
                chosen.attr("value").to_owned()
            }
            _ => self.attr("value").to_owned(),
        }
    }

    /// What a browser sends of this form, but for its button.
    pub(crate) fn fields(&self) -> Vec<(String, String)> {
        let boxes = self.all("input, select, textarea").into_iter();
        let sent = boxes.filter(|field| {
            let is_tick = ["checkbox", "radio"].contains(&field.attr("type"));
            let is_ticked = field.element().attr("checked").is_some();
            field.attr("type") != "file" && (!is_tick || is_ticked)
        });
        sent.map(|field| (field.attr("name").to_owned(), field.sent()))
            .collect()
    }

    /// Checks that it says something.
    pub(crate) fn says(self, words: &str) -> Self {
        assert!(
            self.words().contains(words),
            "{words:?} is not in:\n{}",
            self.words()
        );
        self
    }

    /// Checks that its link with these words leads to an address that ends so.
    pub(crate) fn leads(self, words: &str, to: &str) -> Self {
        let link = self.with("a", words);
        assert!(link.attr("href").ends_with(to), "{}", link.html());
        self
    }

    /// Checks that something is nowhere in it, its attributes among the rest.
    pub(crate) fn says_nothing_of(self, words: &str) -> Self {
        let html = self.html();
        let is_said = self.words().contains(words) || html.contains(words);
        assert!(!is_said, "{words:?} is in:\n{html}");
        self
    }

    /// Checks that a selector finds nothing in it.
    pub(crate) fn lacks(self, selector: &str) -> Self {
        assert!(!self.has(selector), "{selector} is in:\n{}", self.html());
        self
    }

    /// How often it says something.
    pub(crate) fn count(&self, words: &str) -> usize {
        self.words().matches(words).count()
    }
}
