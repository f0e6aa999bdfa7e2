//! Who may use which route.
//!
//! A route cannot be added without its [`Access`], and what is listed is what
//! is held: the same value goes to the list and to the check before the
//! handler. Here alone is looked up who asks; a handler takes what was found
//! ([`SignedIn`], `OwnBench`). What hangs on more than the route (whose round,
//! whose sheet) is for the page to say.

use axum::Router;
use axum::extract::{DefaultBodyLimit, FromRequestParts as _, Request, State};
use axum::handler::Handler;
use axum::http::Method;
use axum::http::request::Parts;
use axum::response::{IntoResponse, Redirect, Response};
use axum::routing::{MethodFilter, on};

use super::bench_sheet::not_kept::stranger;
use super::front::{AtBench, OwnBench};
use super::moderation::closed;
use crate::web::error::AppError;
use crate::web::session::{self, SignedIn};
use crate::web::state::AppState;

/// Who may use a route.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Access {
    /// Anybody.
    Anyone,
    /// A browser that has given the number of bench `{label}` of class
    /// `{code}`. Others are sent to choose a bench or to type its number; what
    /// they sent is given back to them.
    Bench,
    /// Whoever is signed in. Others are sent to sign in.
    Staff,
    /// Staff, but nobody who has still to mark a sheet of class set `{id}`
    /// blind: pages that show first marks, or anything that was made while
    /// they were given.
    NotBlind,
    /// A head of department. Their colleagues are told these words.
    Head(&'static str),
}

/// A route, and who may use it.
#[derive(Clone, Debug)]
pub struct Route {
    /// GET or POST.
    pub method: Method,
    /// The path, with its parameters in braces.
    pub path: &'static str,
    /// Who may use it.
    pub access: Access,
}

/// Routes that are guarded, and the list of them.
#[derive(Debug, Default)]
pub struct Routes {
    list: Vec<Route>,
    router: Router<AppState>,
}

impl Routes {
    /// Adds a page.
    pub(crate) fn get<H, T>(self, path: &'static str, access: Access, handler: H) -> Self
    where
        H: Handler<T, AppState>,
        T: 'static,
    {
        self.add(Method::GET, MethodFilter::GET, path, access, handler)
    }

    /// Adds what takes a form.
    pub(crate) fn post<H, T>(self, path: &'static str, access: Access, handler: H) -> Self
    where
        H: Handler<T, AppState>,
        T: 'static,
    {
        self.add(Method::POST, MethodFilter::POST, path, access, handler)
    }

    fn add<H, T>(
        mut self,
        method: Method,
        filter: MethodFilter,
        path: &'static str,
        access: Access,
        handler: H,
    ) -> Self
    where
        H: Handler<T, AppState>,
        T: 'static,
    {
        let guarded = async move |State(state): State<AppState>, request: Request| {
            let admitted = admit(access, &state, request).await;
            match admitted {
                Ok(request) => handler.call(request, state).await,
                Err(TurnedAway(answer)) => *answer,
            }
        };
        self.list.push(Route {
            method,
            path,
            access,
        });
        self.router = self.router.route(path, on(filter, guarded));
        self
    }

    /// Adds the routes of another feature.
    #[must_use]
    pub(crate) fn with(mut self, others: Self) -> Self {
        self.list.extend(others.list);
        self.router = self.router.merge(others.router);
        self
    }

    /// Lets these routes take bodies of so many bytes.
    #[must_use]
    pub(crate) fn with_longest_body(mut self, most: usize) -> Self {
        self.router = self.router.route_layer(DefaultBodyLimit::max(most));
        self
    }

    /// Lists every route.
    #[must_use]
    pub fn list(&self) -> &[Route] {
        &self.list
    }

    /// Returns the router that holds them.
    pub(crate) fn into_router(self) -> Router<AppState> {
        self.router
    }
}

/// What a request gets that is not let through.
struct TurnedAway(Box<Response>);

impl<T: IntoResponse> From<T> for TurnedAway {
    fn from(answer: T) -> Self {
        Self(Box::new(answer.into_response()))
    }
}

/// Lets a request through, with what was found out about who asks.
async fn admit(access: Access, state: &AppState, request: Request) -> Result<Request, TurnedAway> {
    let (mut parts, body) = request.into_parts();
    match access {
        Access::Anyone => {}
        Access::Bench => {
            let at = AtBench::from_request_parts(&mut parts, state).await?;
            match at.visit {
                Some(visit) => _ = parts.extensions.insert(OwnBench(at, visit)),
                None if parts.method.is_safe() => return Err(Redirect::to(&at.way_in()).into()),
                None => return Err(stranger(&at, Request::from_parts(parts, body)).await.into()),
            }
        }
        Access::Staff => _ = signed_in(state, &mut parts).await?,
        Access::NotBlind => {
            let by = signed_in(state, &mut parts).await?;
            if let Some(closed) = closed::find(state, &by, &mut parts).await? {
                return Err(closed.into());
            }
        }
        Access::Head(told) => {
            if !signed_in(state, &mut parts).await?.is_head() {
                return Err(AppError::Forbidden(told).into());
            }
        }
    }
    Ok(Request::from_parts(parts, body))
}

/// Returns who is signed in: looked up here and nowhere else, once a request.
async fn signed_in(state: &AppState, parts: &mut Parts) -> Result<SignedIn, TurnedAway> {
    let found = session::find(state, &parts.headers).await?;
    let by = found.ok_or_else(|| Redirect::to("/staff/sign-in"))?;
    parts.extensions.insert(by.clone());
    Ok(by)
}
