//! Makes a function of each message of the English catalogue, so that a page
//! which asks for a message that is not there, or leaves an argument out, does
//! not compile. A catalogue that lacks a message of the English one, or asks
//! for an argument that is not given, stops the build too.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::{env, fs};

use fluent_syntax::ast::{
    Entry, Expression, InlineExpression, Pattern, PatternElement, VariantKey,
};
use fluent_syntax::parser;

/// Where the catalogues stand, one a language, named by its tag.
const FOLDER: &str = "src/words";
/// The catalogue that functions are made from.
const FIRST: &str = "en-GB";
/// Beginnings of messages that are looked up by a code: they have no function,
/// and are one line of plain text.
const BY_CODE: [&str; 8] = [
    "answer-", "ask-", "caution-", "field-", "method-", "needs-", "nouns-", "slip-",
];

/// The texts of a catalogue, by message and attribute.
type Texts = BTreeMap<(String, Option<String>), Text>;

/// What a text needs.
#[derive(Default)]
struct Text {
    /// Names of arguments in the order of reading, and whether each is a
    /// number that a choice hangs on.
    arguments: Vec<(String, bool)>,
    /// Whether there are tags in it: then it is HTML, and what is put in is
    /// escaped.
    has_tags: bool,
}

/// Writes the functions and the list of catalogues.
pub(crate) fn write() {
    let mut paths: Vec<PathBuf> = fs::read_dir(FOLDER)
        .expect("the folder of catalogues")
        .map(|entry| entry.expect("a file").path())
        .filter(|path| path.extension().is_some_and(|end| end == "ftl"))
        .collect();
    paths.sort_by_key(|path| tag(path) != FIRST);
    let first = texts(&paths[0]);
    for other in &paths[1..] {
        compare(&first, &texts(other), other);
    }
    let mut code = list(&paths);
    code.push_str("impl Say {\n");
    for ((id, attribute), text) in &first {
        if !is_by_code(id) {
            function(&mut code, id, attribute.as_deref(), text);
        }
    }
    code.push_str("}\n");
    let out = env::var("OUT_DIR").expect("cargo sets it");
    fs::write(Path::new(&out).join("say.rs"), code).expect("the functions are written");
}

fn is_by_code(id: &str) -> bool {
    BY_CODE.iter().any(|beginning| id.starts_with(beginning))
}

fn tag(path: &Path) -> &str {
    path.file_stem()
        .and_then(|stem| stem.to_str())
        .unwrap_or("")
}

fn list(paths: &[PathBuf]) -> String {
    let mut code = String::from("const CATALOGUES: &[(&str, &str)] = &[\n");
    for path in paths {
        let file = fs::canonicalize(path).expect("a file that is there");
        let _ = writeln!(code, "    ({:?}, include_str!({file:?})),", tag(path));
    }
    code.push_str("];\n");
    code
}

fn function(code: &mut String, id: &str, attribute: Option<&str>, text: &Text) {
    let name = attribute.map_or_else(|| id.to_owned(), |attribute| format!("{id}-{attribute}"));
    let name = name.replace('-', "_");
    let (mut taken, mut given) = (String::new(), String::new());
    for (argument, is_number) in &text.arguments {
        let variable = argument.replace('-', "_");
        let kind = match (is_number, text.has_tags) {
            (true, _) => "number",
            (false, true) => "html",
            (false, false) => "text",
        };
        let _ = write!(taken, ", {variable}: impl Display");
        let _ = write!(given, "({argument:?}, as_{kind}(&{variable})), ");
    }
    let said = format!("self.0.format({id:?}, {attribute:?}, [{given}])");
    let (returned, said) = match text.has_tags {
        true => ("Safe<String>", format!("Safe({said})")),
        false => ("String", said),
    };
    let _ = writeln!(
        code,
        "    pub(crate) fn {name}(self{taken}) -> {returned} {{ {said} }}"
    );
}

fn compare(first: &Texts, other: &Texts, path: &Path) {
    for (key, text) in first {
        let there = other.get(key);
        let there = there.unwrap_or_else(|| panic!("{} lacks {key:?}", path.display()));
        for (name, _) in &there.arguments {
            let is_given = text.arguments.iter().any(|(given, _)| given == name);
            assert!(is_given, "{}: {key:?} has no ${name}", path.display());
        }
        let is_alike = text.has_tags == there.has_tags;
        assert!(is_alike, "{}: tags in {key:?}", path.display());
    }
}

fn texts(path: &Path) -> Texts {
    let text = fs::read_to_string(path).expect("a catalogue");
    let resource = parser::parse(text.as_str());
    let resource = resource.unwrap_or_else(|(_, errors)| panic!("{}: {errors:?}", path.display()));
    let mut texts = Texts::new();
    let mut add = |key: (String, Option<String>), pattern: &Pattern<&str>| {
        let mut needs = Text::default();
        of_pattern(pattern, &mut needs);
        let is_plain = matches!(pattern.elements[..], [PatternElement::TextElement { .. }]);
        let may_be = is_plain || !is_by_code(&key.0);
        assert!(may_be, "{}: {key:?} is no plain line", path.display());
        let before = texts.insert(key.clone(), needs);
        assert!(before.is_none(), "{}: {key:?} twice", path.display());
    };
    for entry in &resource.body {
        let Entry::Message(message) = entry else {
            continue;
        };
        let id = message.id.name.to_owned();
        if let Some(pattern) = &message.value {
            add((id.clone(), None), pattern);
        }
        for attribute in &message.attributes {
            add(
                (id.clone(), Some(attribute.id.name.to_owned())),
                &attribute.value,
            );
        }
    }
    texts
}

fn of_pattern(pattern: &Pattern<&str>, needs: &mut Text) {
    for element in &pattern.elements {
        let expression = match element {
            PatternElement::Placeable { expression } => expression,
            PatternElement::TextElement { value } => {
                needs.has_tags |= value.contains('<');
                continue;
            }
        };
        match expression {
            Expression::Inline(inline) => of_inline(inline, false, needs),
            Expression::Select { selector, variants } => {
                let is_number = variants.iter().any(|variant| match variant.key {
                    VariantKey::NumberLiteral { .. } => true,
                    VariantKey::Identifier { name } => name == "one",
                });
                of_inline(selector, is_number, needs);
                for variant in variants {
                    of_pattern(&variant.value, needs);
                }
            }
        }
    }
}

/// Messages that another one quotes take no arguments here.
fn of_inline(inline: &InlineExpression<&str>, is_number: bool, needs: &mut Text) {
    if let InlineExpression::VariableReference { id } = inline
        && !needs.arguments.iter().any(|(name, _)| name == id.name)
    {
        needs.arguments.push((id.name.to_owned(), is_number));
    }
}
