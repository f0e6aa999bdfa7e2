//! Who is asking: staff by their session, pupils by their browser's token.

use axum::extract::{FromRequest, FromRequestParts, Request};
use axum::http::HeaderMap;
use axum::http::request::Parts;
use axum_extra::extract::CookieJar;
use axum_extra::extract::cookie::{Cookie, SameSite};

use crate::acts::{Actor, KeepSeen, Staff};
use crate::db::door::SEEN_EVERY;
use crate::db::staff::Role;
use crate::ids::{DepartmentId, StaffId};
use crate::secret::sha256;
use crate::web::error::AppError;
use crate::web::form::Pairs;
use crate::web::layout::Layout;
use crate::web::state::AppState;
use crate::words::refusal;

/// Cookie of a staff session.
pub const STAFF_COOKIE: &str = "sid";
/// Cookie of a pupils' browser.
pub const VISIT_COOKIE: &str = "visit";

/// Returns a cookie as all of ours are: gone when the browser closes. Not
/// `Secure`, since the school's own network speaks plain HTTP and browsers
/// would drop it there.
#[must_use]
pub fn cookie(name: &'static str, value: String) -> Cookie<'static> {
    Cookie::build((name, value))
        .http_only(true)
        .same_site(SameSite::Lax)
        .path("/")
        .build()
}

/// Somebody who is signed in, as the check before the route found them: only
/// a route for staff has one.
#[derive(Clone, Debug)]
pub struct SignedIn {
    /// Whose pages they see.
    pub department: DepartmentId,
    pub staff_id: StaffId,
    /// What they may do.
    pub role: Role,
    /// The frame of their pages.
    pub layout: Layout,
}

impl SignedIn {
    /// Says whether they are a head of department.
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
        Err(AppError::Forbidden(refusal::OLD_FORM))
    }
}

impl Actor for SignedIn {
    type By = Staff;

    fn acting(&self) -> (DepartmentId, Staff) {
        let by = Staff {
            id: self.staff_id,
            is_head: self.is_head(),
        };
        (self.department, by)
    }
}

/// Returns the token that forms of a session carry. It follows from the
/// session's own token, which no page ever shows.
#[must_use]
pub fn form_token(session: &str) -> String {
    sha256(&format!("form {session}"))
}

/// Looks up whose live session the browser carries. That it is in use is
/// written down beside the request.
///
/// # Errors
/// When the data file fails.
pub(crate) async fn find(
    state: &AppState,
    headers: &HeaderMap,
) -> Result<Option<SignedIn>, AppError> {
    let jar = CookieJar::from_headers(headers);
    let Some(session) = jar.get(STAFF_COOKIE).map(Cookie::value) else {
        return Ok(None);
    };
    let (hash, now) = (sha256(session), state.clock.now());
    let found = state.store.door().await?.find_session(&hash, now).await?;
    Ok(found.map(|found| {
        let by = SignedIn {
            department: found.department_id,
            staff_id: found.staff_id,
            role: found.role,
            layout: Layout::for_staff(found.name, form_token(session)),
        };
        if now - found.seen_at > SEEN_EVERY {
            keep_seen(state.clone(), &by, hash);
        }
        by
    }))
}

/// Writes down that a session is in use. Nobody waits for it: a page that only
/// reads is shown while the writer is busy, and the next page tries again.
fn keep_seen(state: AppState, by: &SignedIn, token_hash: String) {
    let by = by.acting();
    tokio::spawn(async move {
        if let Err(error) = state.act(&by, KeepSeen { token_hash }).await {
            tracing::warn!(%error, "when a session was last in use was not kept");
        }
    });
}

impl<S: Send + Sync> FromRequestParts<S> for SignedIn {
    type Rejection = AppError;

    async fn from_request_parts(parts: &mut Parts, _: &S) -> Result<Self, AppError> {
        let found = parts.extensions.get().cloned();
        found.ok_or_else(|| AppError::internal("nobody signs in for this route"))
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

impl<S: Send + Sync> FromRequest<S> for StaffForm {
    type Rejection = AppError;

    async fn from_request(request: Request, state: &S) -> Result<Self, AppError> {
        let (mut parts, body) = request.into_parts();
        let by = SignedIn::from_request_parts(&mut parts, state).await?;
        let pairs = Pairs::from_request(Request::from_parts(parts, body), state).await?;
        by.expect_token(&pairs)?;
        Ok(Self { by, pairs })
    }
}
