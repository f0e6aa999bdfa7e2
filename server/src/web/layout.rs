//! What every page needs, and how a page becomes a response.

use axum::http::StatusCode;
use axum::response::{Html, IntoResponse, Redirect, Response};

use crate::db::staff::StaffName;
use crate::web::assets;
use crate::web::error::Reply;
use crate::words::Say;

/// What the frame around every page shows.
#[derive(Clone, Debug)]
pub struct Layout {
    /// The language of the frame.
    pub say: Say,
    /// Address of the style sheet.
    pub css_url: &'static str,
    /// Address of the script.
    pub script_url: &'static str,
    /// Who is signed in; `None` on pupils' pages.
    pub staff: Option<StaffName>,
    /// Token that every form of a signed-in person carries; blank otherwise.
    pub token: String,
}

impl Layout {
    /// Returns the frame of a page for anybody, in this language.
    #[must_use]
    pub fn public(say: Say) -> Self {
        Self {
            say,
            css_url: assets::css_url(),
            script_url: assets::script_url(),
            staff: None,
            token: String::new(),
        }
    }

    /// Returns the frame of a page for somebody who is signed in. Staff's
    /// pages are in English.
    #[must_use]
    pub fn for_staff(name: StaffName, token: String) -> Self {
        Self {
            staff: Some(name),
            token,
            ..Self::public(Say::english())
        }
    }
}

/// A template as a response.
#[derive(Debug)]
pub struct Page<T>(pub T);

impl<T: askama::Template> Page<T> {
    /// Answers with it.
    pub(crate) fn reply(self) -> Reply {
        Ok(self.into_response())
    }

    /// Answers with it that a form could not be taken.
    pub(crate) fn refused(self) -> Reply {
        Ok((StatusCode::UNPROCESSABLE_ENTITY, self).into_response())
    }
}

/// Sends the browser on to another address.
pub(crate) fn go(to: impl AsRef<str>) -> Reply {
    Ok(Redirect::to(to.as_ref()).into_response())
}

impl<T: askama::Template> IntoResponse for Page<T> {
    fn into_response(self) -> Response {
        match self.0.render() {
            Ok(text) => Html(text).into_response(),
            Err(error) => {
                tracing::error!(%error, "a template failed");
                StatusCode::INTERNAL_SERVER_ERROR.into_response()
            }
        }
    }
}
