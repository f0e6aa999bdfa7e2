//! Who is asking: staff by their session, pupils by their browser's token.

use axum::extract::{FromRef, FromRequest, FromRequestParts, Request};
use axum::http::request::Parts;
use axum::response::{IntoResponse, Redirect, Response};
use axum_extra::extract::CookieJar;
use axum_extra::extract::cookie::{Cookie, SameSite};

use crate::clock::Clock;
use crate::db::{Store, sign_in, staff::Role};
use crate::error::AppError;
use crate::form::Pairs;
use crate::ids::StaffId;
use crate::layout::Layout;
use crate::secret::sha256;

/// Cookie of a staff session.
pub const STAFF_COOKIE: &str = "sid";
/// Cookie of a pupils' browser.
pub const VISIT_COOKIE: &str = "visit";

/// A cookie as all of ours are: gone when the browser closes. Not `Secure`,
/// since the school's own network speaks plain HTTP and browsers would drop it
/// there.
#[must_use]
pub fn cookie(name: &'static str, value: String) -> Cookie<'static> {
    Cookie::build((name, value))
        .http_only(true)
        .same_site(SameSite::Lax)
        .path("/")
        .build()
}

/// Somebody who is signed in. Without one the browser is sent to sign in.
#[derive(Clone, Debug)]
pub struct SignedIn {
    /// Who.
    pub staff_id: StaffId,
    /// What they may do.
    pub role: Role,
    /// The frame of their pages.
    pub layout: Layout,
}

impl SignedIn {
    /// Whether they are a head of department.
    #[must_use]
    pub fn is_head(&self) -> bool {
        self.role == Role::Head
    }

    /// Checks that a form carries the token of this session.
    ///
    /// # Errors
    /// Forbidden where it carries another or none.
    pub fn expect_token(&self, form: &Pairs) -> Result<(), AppError> {
        if form.get("token") == self.layout.token {
            return Ok(());
        }
        Err(AppError::Forbidden(
            "This form is from an earlier session. Open the page again and try once more.",
        ))
    }
}

/// Why nobody is signed in.
#[derive(Debug)]
pub enum NotSignedIn {
    /// No live session: sign in first.
    SignInFirst,
    /// The session could not be looked up.
    Failed(AppError),
}

impl IntoResponse for NotSignedIn {
    fn into_response(self) -> Response {
        match self {
            Self::SignInFirst => Redirect::to("/staff/sign-in").into_response(),
            Self::Failed(error) => error.into_response(),
        }
    }
}

impl From<crate::db::Error> for NotSignedIn {
    fn from(error: crate::db::Error) -> Self {
        Self::Failed(error.into())
    }
}

impl From<AppError> for NotSignedIn {
    fn from(error: AppError) -> Self {
        Self::Failed(error)
    }
}

/// The token that forms of a session carry. It follows from the session's own
/// token, which no page ever shows.
#[must_use]
pub fn form_token(session: &str) -> String {
    sha256(&format!("form {session}"))
}

impl<S> FromRequestParts<S> for SignedIn
where
    S: Send + Sync,
    Store: FromRef<S>,
    Clock: FromRef<S>,
{
    type Rejection = NotSignedIn;

    async fn from_request_parts(parts: &mut Parts, state: &S) -> Result<Self, NotSignedIn> {
        let jar = CookieJar::from_headers(&parts.headers);
        let session = jar
            .get(STAFF_COOKIE)
            .ok_or(NotSignedIn::SignInFirst)?
            .value()
            .to_owned();
        let (store, now) = (Store::from_ref(state), Clock::from_ref(state).now());
        let hash = sha256(&session);
        let found =
            sign_in::find(&mut store.reader(crate::ids::DEPARTMENT).await?, &hash, now).await?;
        let found = found.ok_or(NotSignedIn::SignInFirst)?;
        if now - found.seen_at > sign_in::SEEN_EVERY {
            store
                .writer()
                .run(move |db| Box::pin(async move { sign_in::update_seen(db, &hash, now).await }))
                .await?;
        }
        let layout = Layout::for_staff(found.name, form_token(&session));
        Ok(Self {
            staff_id: found.staff_id,
            role: found.role,
            layout,
        })
    }
}

/// A form sent by somebody who is signed in, with the token of their session
/// in it. Handlers that change something take this and nothing less.
#[derive(Debug)]
pub struct StaffForm {
    /// Who sends it.
    pub by: SignedIn,
    /// What was typed.
    pub pairs: Pairs,
}

impl<S> FromRequest<S> for StaffForm
where
    S: Send + Sync,
    Store: FromRef<S>,
    Clock: FromRef<S>,
{
    type Rejection = NotSignedIn;

    async fn from_request(request: Request, state: &S) -> Result<Self, NotSignedIn> {
        let (mut parts, body) = request.into_parts();
        let by = SignedIn::from_request_parts(&mut parts, state).await?;
        let pairs = Pairs::from_request(Request::from_parts(parts, body), state).await?;
        by.expect_token(&pairs)?;
        Ok(Self { by, pairs })
    }
}
