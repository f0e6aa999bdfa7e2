//! What can be seen or heard of a page.

use std::collections::BTreeSet;

use analysis::field::Field;
use analysis::unit::Unit;
use ego_tree::NodeRef;
use scraper::Node;

use crate::support::Part;

/// Attributes that are read out or shown.
const SHOWN: [&str; 8] = [
    "alt",
    "aria-label",
    "content",
    "data-label",
    "data-many",
    "data-news",
    "placeholder",
    "title",
];

/// What is in English.
const ENGLISH: &str = "[lang=en-GB]";

/// Checks that every word of a page is of the made-up language. `names` are
/// texts that people typed.
pub(super) fn expect_no_other_word(page: &Part, names: &[&str]) {
    let said = [page.attr("lang"), page.attr("dir")];
    let marked = said == ["he-XA", "rtl"] || page.has("[lang=he-XA][dir=rtl]");
    assert!(
        marked,
        "no language:
{}",
        page.html()
    );
    assert!(
        !page.has(ENGLISH),
        "in English:
{}",
        page.html()
    );
    expect_no_other_word_in(page, names);
}

/// The same of a part of a page, but for what says of itself that it is in
/// English.
pub(super) fn expect_no_other_word_in(page: &Part, names: &[&str]) {
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
    let english: BTreeSet<_> = page
        .all(ENGLISH)
        .iter()
        .map(|part| part.element().id())
        .collect();
    let is_english = |node: &NodeRef<'_, Node>| {
        let mut around = std::iter::once(*node).chain(node.ancestors());
        around.any(|node| english.contains(&node.id()))
    };
    let mut texts = Vec::new();
    for node in page
        .element()
        .descendants()
        .filter(|node| !is_english(node))
    {
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
