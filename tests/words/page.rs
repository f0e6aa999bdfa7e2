//! What can be seen or heard of a page.

use analysis::field::Field;
use analysis::unit::Unit;

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

/// Checks that every word of a page is of the made-up language. `names` are
/// texts that people typed.
pub(super) fn expect_no_other_word(page: &str, names: &[&str]) {
    let marked = page.contains("lang=\"he-XA\" dir=\"rtl\"");
    assert!(marked, "no language:\n{page}");
    expect_no_other_word_in(page, names);
}

/// The same of a part of a page.
pub(super) fn expect_no_other_word_in(page: &str, names: &[&str]) {
    for text in shown(page) {
        let mut rest = text.clone();
        let mut names = names.to_vec();
        names.sort_by_key(|name| std::cmp::Reverse(name.len()));
        for name in names {
            rest = rest.replace(name, " ");
        }
        let mut words = rest.split(|c: char| !c.is_ascii_alphabetic());
        let other = words.find(|word| !word.is_empty() && !is_symbol(word));
        assert_eq!(other, None, "{text:?} is not from the catalogue:\n{page}");
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
fn shown(page: &str) -> Vec<String> {
    let mut texts = Vec::new();
    for part in page.split('<').skip(1) {
        let (tag, text) = part.split_once('>').unwrap();
        texts.push(plain(text));
        for name in SHOWN {
            let is_of_the_page = name == "content" && tag.starts_with("meta");
            let after = tag.split_once(&format!(" {name}=\""));
            if let Some((_, after)) = after.filter(|_| !is_of_the_page) {
                texts.push(plain(after.split('"').next().unwrap()));
            }
        }
    }
    texts
}

fn plain(text: &str) -> String {
    let mut text = text.to_owned();
    for (escaped, sign) in [
        ("&#60;", "<"),
        ("&#62;", ">"),
        ("&#34;", "\""),
        ("&#39;", "'"),
        ("&lt;", "<"),
        ("&gt;", ">"),
        ("&quot;", "\""),
        ("&nbsp;", " "),
        ("&amp;", "&"),
    ] {
        text = text.replace(escaped, sign);
    }
    text.replace("&#38;", "&")
}
