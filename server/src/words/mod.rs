//! Every sentence of the program, by the code of what it is about.
//!
//! Pupils' sentences stand in `en-GB.ftl`, and another language is another
//! such file ([`Say`]). Staff's are in English and stand in Rust.
//!
//! Why Fluent, through `fluent-bundle` and a build script: plurals and the
//! order of words are the translator's, and each message becomes a function
//! that templates call. `fluent-typed` makes such functions too, but wants a
//! comment for the type of each argument, and takes no references, which is
//! what templates hand over. `i18n-embed-fl` checks its macro's calls, but a
//! macro in a template sees no loop's variable, and it brings nine more crates.

/// Names sentences that nothing is put into.
macro_rules! sentences {
    ($($name:ident: $said:literal;)*) => {
        $(#[doc = $said] pub const $name: &str = $said;)*
    };
}

mod catalogue;
pub mod cause;
pub mod check;
pub mod file;
pub mod finding;
pub mod graph;
pub mod house;
pub mod kit_year;
pub mod moderation;
pub mod number;
pub mod question;
pub mod refusal;
pub mod room;
pub mod share;
pub mod sheet;
mod slip;
pub mod suggestion;
pub mod taking_in;
pub mod time;
pub mod verdict;
pub mod version;
pub mod year;

use std::borrow::Borrow;
use std::fmt::Display;

use analysis::field::Field;
use analysis::kit::Kind;
use analysis::method::Method;
use analysis::moderation::sample::Rule;

pub use catalogue::Say;

/// Returns the word for one thing or for any other number of them.
#[must_use]
pub fn plural<'w, N: Copy + PartialEq + From<u8>>(n: N, one: &'w str, many: &'w str) -> &'w str {
    if n == N::from(1) { one } else { many }
}

/// Returns how many there are of a thing: `1 row`, `6 rows`.
#[must_use]
pub fn counted<N: Copy + Display + PartialEq + From<u8>>(n: N, one: &str, many: &str) -> String {
    format!("{n} {}", plural(n, one, many))
}

/// Returns a number as it stands in a sentence: in words up to twelve.
#[must_use]
pub fn spelt(n: usize) -> String {
    const WORDS: [&str; 13] = [
        "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
        "eleven", "twelve",
    ];
    WORDS
        .get(n)
        .map_or_else(|| n.to_string(), |word| (*word).to_owned())
}

/// Returns a list after what it is of: `row 2`, `rows 2 and 5`, `rows 2, 5 and
/// 6`. Returns `None` for no names.
#[must_use]
pub fn list(one: &str, many: &str, names: &[&str]) -> Option<String> {
    let text = format!(
        "{} {}",
        plural(names.len(), one, many),
        Say::english().list(names)
    );
    (!names.is_empty()).then(|| text.trim_start().to_owned())
}

impl Say {
    /// Returns a list of names: `2`, `2 and 5`, `2, 5 and 6`. Blank for none.
    #[must_use]
    pub fn list(self, names: &[&str]) -> String {
        let Some((last, most)) = names.split_last() else {
            return String::new();
        };
        let more = |most: String, next: &&str| self.list_more(most, next);
        match most.split_first() {
            None => (*last).to_owned(),
            Some((first, others)) => {
                self.list_two(others.iter().fold((*first).to_owned(), more), last)
            }
        }
    }
}

/// Returns what a practical is called, for staff.
#[must_use]
pub fn title(method: impl Borrow<Method>) -> &'static str {
    Say::english().method(*method.borrow())
}

/// Returns what a kind of kit is called.
#[must_use]
pub fn kit(kind: Kind) -> &'static str {
    match kind {
        Kind::Tank => "Ripple tank",
        Kind::Generator => "Signal generator",
        Kind::String => "String and vibrator",
    }
}

/// Returns why a sheet was taken into a sample, by the code of the rule. Other
/// text is of a record that was closed when words were kept, and comes back.
#[must_use]
pub fn taken(rule: &str) -> &str {
    let Some(rule) = Rule::from_code(rule) else {
        return rule;
    };
    match rule {
        Rule::All => "every sheet is taken",
        Rule::Highest => "highest total",
        Rule::Lowest => "lowest total above nought",
        Rule::Middle => "nearest to the middle total",
        Rule::Class => "its class had none yet",
        Rule::Marker => "its marker had none yet",
        Rule::Random => "at random",
    }
}

/// Returns what pupils may be told before their sheet is marked, by the code of
/// the setting.
#[must_use]
pub fn look_again(setting: &str) -> &'static str {
    match setting {
        "explain" => "Explain the step: the same, with a question to think about",
        "step" => "Point to the step: which figure to look at again",
        _ => "Nothing until their sheet is marked",
    }
}

/// Returns what a figure is called in a sentence, for staff.
#[must_use]
pub fn label(field: Field) -> &'static str {
    Say::english().field(field)
}

/// Returns a phrase with a capital at its start, to begin a sentence or stand
/// alone.
#[must_use]
pub fn capitalised(phrase: &str) -> String {
    let mut letters = phrase.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// Returns a school year by the two calendar years that it lies in: `2026/27`.
#[must_use]
pub fn school_year(starts: i64) -> String {
    format!("{starts}/{:02}", (starts + 1).rem_euclid(100))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_thing_is_singular_and_none_is_not() {
        assert_eq!(counted(0, "row", "rows"), "0 rows");
        assert_eq!(counted(1_i64, "row", "rows"), "1 row");
        assert_eq!(counted(6_usize, "row", "rows"), "6 rows");
        assert_eq!([0, 12, 13].map(spelt), ["no", "twelve", "13"]);
    }

    #[test]
    fn lists_end_with_and() {
        let rows = |names: &[&str]| list("row", "rows", names);
        assert_eq!(rows(&[]), None);
        assert_eq!(rows(&["2"]).unwrap(), "row 2");
        assert_eq!(rows(&["2", "5"]).unwrap(), "rows 2 and 5");
        assert_eq!(rows(&["2", "5", "6"]).unwrap(), "rows 2, 5 and 6");
    }

    #[test]
    fn school_years_have_two_numbers() {
        assert_eq!(school_year(2026), "2026/27");
        assert_eq!(school_year(1999), "1999/00");
    }

    #[test]
    fn what_is_put_into_a_sentence_with_tags_is_escaped() {
        let sum = Say::english()
            .feedback_sum("1 & 2", "<em>3</em>")
            .to_string();
        assert_eq!(
            sum,
            "1 &#38; 2; you have <strong>&#60;em&#62;3&#60;/em&#62;</strong>."
        );
    }
}
