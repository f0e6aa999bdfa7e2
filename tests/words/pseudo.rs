//! A made-up language, written from right to left, with longer words than
//! English: the English catalogue with each letter put into another script.

use std::sync::OnceLock;

use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement};
use fluent_syntax::{parser, serializer};
use server::words::Say;

/// A letter of the made-up language for each of the alphabet, capital or not.
const LETTERS: [char; 26] = [
    'א', 'ב', 'ג', 'ד', 'ה', 'ו', 'ז', 'ח', 'ט', 'י', 'כ', 'ל', 'מ', 'נ', 'ס', 'ע', 'פ', 'צ', 'ק',
    'ר', 'ש', 'ת', 'ך', 'ם', 'ן', 'ף',
];

/// Returns the made-up language.
pub(super) fn pseudo() -> Say {
    static MADE: OnceLock<Say> = OnceLock::new();
    *MADE.get_or_init(|| Say::read("he-XA", &catalogue()).unwrap())
}

fn catalogue() -> String {
    let mut resource = parser::parse(Say::english_text().to_owned()).unwrap();
    for entry in &mut resource.body {
        let Entry::Message(message) = entry else {
            continue;
        };
        let is_direction = message.id.name == "direction";
        let attributes = message.attributes.iter_mut().map(|a| &mut a.value);
        for pattern in message.value.iter_mut().chain(attributes) {
            translate(pattern);
            if is_direction {
                let value = "rtl".to_owned();
                pattern.elements = vec![PatternElement::TextElement { value }];
            }
        }
    }
    serializer::serialize(&resource)
}

fn translate(pattern: &mut Pattern<String>) {
    for element in &mut pattern.elements {
        match element {
            PatternElement::TextElement { value } => *value = in_letters(value),
            PatternElement::Placeable { expression } => match expression {
                Expression::Select { variants, .. } => {
                    variants.iter_mut().for_each(|v| translate(&mut v.value));
                }
                Expression::Inline(InlineExpression::StringLiteral { value }) => {
                    *value = in_letters(value);
                }
                Expression::Inline(_) => {}
            },
        }
    }
}

/// The text with its letters put into the other script, and every third one
/// written twice. Tags stay as they are.
fn in_letters(text: &str) -> String {
    let (mut said, mut is_tag) = (String::new(), false);
    for (at, c) in text.chars().enumerate() {
        is_tag = (is_tag || c == '<') && c != '>';
        let place = u32::from(c.to_ascii_lowercase()).wrapping_sub(u32::from('a'));
        match LETTERS.get(place as usize) {
            Some(letter) if !is_tag => {
                said.push(*letter);
                said.extend((at % 3 == 0).then_some(*letter));
            }
            _ => said.push(c),
        }
    }
    said
}
