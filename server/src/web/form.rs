//! A form as pairs of text, so that what was typed is never lost to a type.

use std::borrow::Cow;

use axum::extract::{FromRequest, Request};
use axum::http::StatusCode;

use crate::web::error::AppError;
use crate::words::Say;

/// The pairs of a form, in the order of the page.
#[derive(Clone, Debug, Default)]
pub struct Pairs(pub Vec<(String, String)>);

impl Pairs {
    /// Takes NUL out of what was sent: no keyboard types it, and for the data
    /// file a text ends there.
    #[must_use]
    pub fn typed(mut pairs: Vec<(String, String)>) -> Self {
        for (_, value) in &mut pairs {
            value.retain(|c| c != '\0');
        }
        Self(pairs)
    }

    /// Says what was typed in a box. Returns no text when the box is missing.
    /// Of several, the first.
    #[must_use]
    pub fn get(&self, name: &str) -> &str {
        self.0
            .iter()
            .find(|(n, _)| n == name)
            .map_or("", |(_, value)| value)
    }

    /// Returns the box with what was typed.
    #[must_use]
    pub fn typed_in(&self, name: &str) -> TypedText {
        TypedText::new(self.get(name))
    }

    /// Returns the same without blanks around it.
    #[must_use]
    pub fn trimmed(&self, name: &str) -> &str {
        self.get(name).trim()
    }

    /// Returns the same as text of several lines. Browsers count a line's end
    /// once and send it as two characters.
    #[must_use]
    pub fn text(&self, name: &str) -> String {
        self.trimmed(name).replace("\r\n", "\n")
    }

    /// Returns the id of what a page showed, as its form carries it. Returns
    /// `None` when it showed nothing, which is sent as 0. What is no number is
    /// an id that nothing has.
    #[must_use]
    pub fn seen(&self, name: &str) -> Option<i64> {
        let id = self.get(name).parse().unwrap_or(-1);
        (id != 0).then_some(id)
    }

    /// Returns what was ticked of a group of boxes: those of `marker` are
    /// called `marker.1`, `marker.2` and so on, and this gives `1`, `2`.
    pub fn ticked<'a>(&'a self, group: &'a str) -> impl Iterator<Item = &'a str> {
        let names = self.0.iter().map(|(name, _)| name.as_str());
        names.filter_map(move |name| name.strip_prefix(group)?.strip_prefix('.'))
    }
}

/// What stands in a box, as typed, and what is wrong with it.
#[derive(Clone, Debug, Default)]
pub struct TypedText {
    pub text: String,
    /// What is said beside it; `None` where nothing is wrong, or nobody looked.
    pub wrong: Option<Cow<'static, str>>,
}

impl TypedText {
    /// Returns a box in which this stands.
    pub fn new(text: impl Into<String>) -> Self {
        Self {
            text: text.into(),
            wrong: None,
        }
    }

    /// Reads the box, without blanks around. Returns `None` where it cannot be
    /// taken; why then stands beside it.
    pub fn check<'t, T, W: Into<Cow<'static, str>>>(
        &'t mut self,
        read: impl FnOnce(&'t str) -> Result<T, W>,
    ) -> Option<T> {
        match read(self.text.trim()) {
            Ok(value) => Some(value),
            Err(why) => {
                self.wrong = Some(why.into());
                None
            }
        }
    }

    /// Says what is wrong with the box.
    pub fn refuse(&mut self, why: impl Into<Cow<'static, str>>) {
        self.wrong = Some(why.into());
    }
}

impl<S: Send + Sync> FromRequest<S> for Pairs {
    type Rejection = AppError;

    async fn from_request(request: Request, state: &S) -> Result<Self, AppError> {
        let form = axum::Form::<Vec<(String, String)>>::from_request(request, state).await;
        form.map(|axum::Form(pairs)| Self::typed(pairs))
            .map_err(|refusal| {
                use axum::response::IntoResponse as _;
                match refusal.into_response().status() {
                    StatusCode::PAYLOAD_TOO_LARGE => AppError::TooLarge,
                    _ => AppError::Pupil(StatusCode::BAD_REQUEST, Say::problem_other_form),
                }
            })
    }
}
