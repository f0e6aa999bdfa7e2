//! Which bench an address names, and whether this browser may use it.

use axum::extract::{FromRef, FromRequestParts, Path};
use axum::http::request::Parts;
use axum_extra::extract::CookieJar;

use crate::clock::Clock;
use crate::db::bench::{self, Bench};
use crate::db::class_set::{self, ClassSet};
use crate::db::{Store, visit};
use crate::error::AppError;
use crate::ids::VisitId;
use crate::secret::sha256;
use crate::session::VISIT_COOKIE;

/// No class set has this code.
pub(super) const NO_SUCH_CODE: AppError = AppError::NotFound(
    "There is no class with this code. Check the five letters with your teacher.",
);

/// A bench that exists, and this browser's visit to it.
#[derive(Clone, Debug)]
pub(crate) struct AtBench {
    /// Its class set.
    pub(crate) class_set: ClassSet,
    /// The bench.
    pub(crate) bench: Bench,
    /// The visit; `None` where this browser has not given the number.
    pub(crate) visit: Option<VisitId>,
}

/// A bench whose number this browser has given: only a route for the bench has
/// one.
#[derive(Clone, Debug)]
pub(crate) struct OwnBench(pub(crate) AtBench, pub(crate) VisitId);

impl<S: Send + Sync> FromRequestParts<S> for OwnBench {
    type Rejection = AppError;

    async fn from_request_parts(parts: &mut Parts, _: &S) -> Result<Self, AppError> {
        let found = parts.extensions.get().cloned();
        found.ok_or_else(|| AppError::internal("nobody gives a number for this route"))
    }
}

impl AtBench {
    /// Address of the bench's sheet.
    #[must_use]
    pub(crate) fn url(&self) -> String {
        format!("/c/{}/{}", self.class_set.join_code, self.bench.label)
    }

    /// Where a browser goes first that has no visit: to the question for the
    /// number, or to the benches where this one has none yet.
    #[must_use]
    pub(crate) fn way_in(&self) -> String {
        if self.bench.come_back_hash.is_some() {
            format!("{}/come-back", self.url())
        } else {
            format!("/c/{}", self.class_set.join_code)
        }
    }

    /// Looks a bench up for the browser that carries these cookies.
    pub(crate) async fn find(
        store: &Store,
        now: i64,
        code: &str,
        label: &str,
        cookies: &CookieJar,
    ) -> Result<Self, AppError> {
        let mut db = store.reader().await?;
        let class_set = class_set::find_by_code(&mut db, &code.to_uppercase())
            .await?
            .ok_or(NO_SUCH_CODE)?;
        let bench = bench::find(&mut db, class_set.id, label).await?;
        let bench = bench.ok_or(AppError::NotFound(
            "There is no bench with this letter in your class.",
        ))?;
        let visit = match cookies.get(VISIT_COOKIE) {
            Some(token) => visit::find(&mut db, &sha256(token.value()), bench.id, now).await?,
            None => None,
        };
        Ok(Self {
            class_set,
            bench,
            visit,
        })
    }
}

impl<S> FromRequestParts<S> for AtBench
where
    S: Send + Sync,
    Store: FromRef<S>,
    Clock: FromRef<S>,
{
    type Rejection = AppError;

    async fn from_request_parts(parts: &mut Parts, state: &S) -> Result<Self, AppError> {
        let Path((code, label)) = Path::<(String, String)>::from_request_parts(parts, state)
            .await
            .map_err(|_| NO_SUCH_CODE)?;
        let cookies = CookieJar::from_headers(&parts.headers);
        let now = Clock::from_ref(state).now();
        Self::find(&Store::from_ref(state), now, &code, &label, &cookies).await
    }
}
