//! What can be seen or heard of a page.

use analysis::field::Field;
use analysis::unit::Unit;
use ego_tree::iter::Edge;
use scraper::Node;

use crate::support::Part;

/// Attributes that are read out or shown.
const SHOWN: [&str; 6] = [
    "alt",
    "aria-label",
    "content",
    "data-label",
    "placeholder",
    "title",
];

/// Checks that every word of a page is of the made-up language. `names` are
/// texts that people typed.
pub(super) fn expect_no_other_word(page: &Part, names: &[&str]) {
    let said = [page.attr("lang"), page.attr("dir")];
    let marked = said == ["he-XA", "rtl"] || page.has("[lang=he-XA][dir=rtl]");
    assert!(marked, "no language:\n{}", page.html());
    let mut names = names.to_vec();
    names.sort_by_key(|name| std::cmp::Reverse(name.len()));
    for text in shown(page) {
        let mut rest = text.clone();
        for name in &names {
            rest = rest.replace(name, " ");
        }
        let mut words = rest.split(|c: char| !c.is_ascii_alphabetic());
        let other = words.find(|word| !word.is_empty() && !is_symbol(word));
        let html = || page.html();
        assert_eq!(
            other,
            None,
            "{text:?} is not from the catalogue:\n{}",
            html()
        );
    }
}

/// Symbols of units, and of what they are made of: `m` and `s` of `m/s`.
fn is_symbol(word: &str) -> bool {
    let fields = Field::ALL.into_iter();
    let units = fields.flat_map(|field| {
        field
            .quantity()
            .units()
            .into_iter()
            .chain(field.fixed_unit())
    });
    let mut symbols = units.map(Unit::symbol);
    symbols.any(|symbol| {
        symbol
            .split(|c: char| !c.is_alphabetic())
            .any(|s| s == word)
    })
}

/// Every text and every shown attribute of a page.
fn shown(page: &Part) -> Vec<String> {
    let mut texts = Vec::new();
    for edge in page.element().traverse() {
        let Edge::Open(node) = edge else { continue };
        match node.value() {
            Node::Text(text) => texts.push(text.to_string()),
            Node::Element(element) => {
                let is_meta = element.name() == "meta";
                let shown = SHOWN
                    .iter()
                    .filter(|name| !(is_meta && **name == "content"));
                texts.extend(shown.filter_map(|name| element.attr(name).map(str::to_owned)));
            }
            _ => {}
        }
    }
    texts
}
