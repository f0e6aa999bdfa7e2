//! The pupils' sentences of one language.

use std::fmt::{self, Display};
use std::sync::LazyLock;

use askama::filters::{Html, Safe, escape};
use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use fluent_syntax::ast::PatternElement;

include!(concat!(env!("OUT_DIR"), "/say.rs"));

/// The sentences of a language, read once and kept.
struct Catalogue {
    tag: String,
    bundle: FluentBundle<FluentResource>,
}

/// Says things to pupils in one language: a function a message, under its
/// name in the catalogue, with its arguments in the order of the English text.
#[derive(Clone, Copy)]
pub struct Say(&'static Catalogue);

static ALL: LazyLock<Vec<Say>> = LazyLock::new(|| {
    let read = |(tag, text): &(&str, &str)| Say::read(tag, text).ok();
    CATALOGUES.iter().filter_map(read).collect()
});

impl Say {
    /// Returns the language that the program was written in.
    #[must_use]
    pub fn english() -> Self {
        ALL[0]
    }

    /// Returns every language that has a catalogue.
    pub fn all() -> impl Iterator<Item = Self> {
        ALL.iter().copied()
    }

    /// Returns the language with this tag. Returns `None` where it has no
    /// catalogue.
    #[must_use]
    pub fn of(tag: &str) -> Option<Self> {
        Self::all().find(|say| say.0.tag == tag)
    }

    /// Reads a catalogue, which is kept for as long as the program runs.
    ///
    /// # Errors
    /// When the tag or the text is none, with what is wrong.
    pub fn read(tag: &str, text: &str) -> Result<Self, String> {
        let language = tag.parse().map_err(|error| format!("{error}"))?;
        let resource = FluentResource::try_new(text.to_owned())
            .map_err(|(_, errors)| format!("{errors:?}"))?;
        let mut bundle = FluentBundle::new_concurrent(vec![language]);
        bundle
            .add_resource(resource)
            .map_err(|errors| format!("{errors:?}"))?;
        let mut catalogue = Catalogue {
            tag: tag.to_owned(),
            bundle,
        };
        // What is put in may run the other way than the sentence around it.
        let runs_left = catalogue.format("direction", None, []) == "rtl";
        catalogue.bundle.set_use_isolating(runs_left);
        Ok(Self(Box::leak(Box::new(catalogue))))
    }

    /// Returns the text of the English catalogue, to make others from.
    #[must_use]
    pub fn english_text() -> &'static str {
        CATALOGUES[0].1
    }

    /// Returns the language's tag, for `lang`.
    #[must_use]
    pub fn tag(self) -> &'static str {
        &self.0.tag
    }

    /// Returns what is said of a thing that is known by its code: a slip, a
    /// cause, a box. Such an entry is one line of plain text. Returns `None`
    /// where there is none.
    pub(super) fn find(
        self,
        kind: &str,
        code: &str,
        attribute: Option<&str>,
    ) -> Option<&'static str> {
        let id = format!("{kind}-{}", code.replace('_', "-"));
        let message = self.0.bundle.get_message(&id)?;
        let pattern = match attribute {
            Some(name) => message.get_attribute(name)?.value(),
            None => message.value()?,
        };
        match pattern.elements.as_slice() {
            [PatternElement::TextElement { value }] => Some(value),
            _ => None,
        }
    }

    /// Returns the same where there must be one: a test asks for all of them.
    pub(super) fn coded(self, kind: &str, code: &str, attribute: Option<&str>) -> &'static str {
        self.find(kind, code, attribute).unwrap_or_else(|| {
            tracing::error!(kind, code, attribute, "nothing is said of this");
            ""
        })
    }
}

impl fmt::Debug for Say {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_tuple("Say").field(&self.0.tag).finish()
    }
}

impl Catalogue {
    fn format<const N: usize>(
        &self,
        id: &str,
        attribute: Option<&str>,
        arguments: [(&'static str, FluentValue<'static>); N],
    ) -> String {
        let message = self.bundle.get_message(id);
        let pattern = message.and_then(|message| match attribute {
            Some(name) => message.get_attribute(name).map(|found| found.value()),
            None => message.value(),
        });
        let Some(pattern) = pattern else {
            tracing::error!(id, attribute, "no such message");
            return id.to_owned();
        };
        let arguments: FluentArgs<'_> = arguments.into_iter().collect();
        let mut errors = Vec::new();
        let said = self
            .bundle
            .format_pattern(pattern, Some(&arguments), &mut errors);
        if !errors.is_empty() {
            tracing::error!(id, attribute, ?errors, "a message lacks something");
        }
        said.into_owned()
    }
}

fn as_text(value: &impl Display) -> FluentValue<'static> {
    FluentValue::from(value.to_string())
}

/// Text that is put into a sentence with tags.
fn as_html(value: &impl Display) -> FluentValue<'static> {
    let Ok(escaped) = escape(value, Html);
    FluentValue::from(escaped.to_string())
}

/// Returns a number that the form of a word may hang on.
fn as_number(value: &impl Display) -> FluentValue<'static> {
    let text = value.to_string();
    text.parse::<f64>()
        .map_or_else(|_| FluentValue::from(text), FluentValue::from)
}
