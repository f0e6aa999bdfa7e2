//! Which bench an address names, and whether this browser may use it.

use axum::extract::{FromRequestParts, Path};
use axum::http::StatusCode;
use axum::http::request::Parts;
use axum_extra::extract::CookieJar;

use crate::acts::Actor;
use crate::db::bench::{self, Bench};
use crate::db::class_set::{self, ClassSet};
use crate::db::{Connection, Store, visit};
use crate::ids::{DepartmentId, VisitId};
use crate::secret::sha256;
use crate::web::error::AppError;
use crate::web::session::VISIT_COOKIE;
use crate::web::state::AppState;
use crate::words::Say;

/// No class set has this code.
pub(super) const NO_SUCH_CODE: AppError =
    AppError::Pupil(StatusCode::NOT_FOUND, Say::join_no_such_code);

/// A bench that exists, and this browser's visit to it.
#[derive(Clone, Debug)]
pub(crate) struct AtBench {
    /// The language of its pages.
    pub(crate) say: Say,
    pub(crate) department: DepartmentId,
    pub(crate) class_set: ClassSet,
    pub(crate) bench: Bench,
    /// The visit; `None` where this browser has not given the number.
    pub(crate) visit: Option<VisitId>,
}

/// A bench whose number this browser has given: only a route for the bench has
/// one.
#[derive(Clone, Debug)]
pub(crate) struct OwnBench(pub(crate) AtBench, pub(crate) VisitId);

impl Actor for OwnBench {
    type By = VisitId;

    fn acting(&self) -> (DepartmentId, VisitId) {
        (self.0.department, self.1)
    }
}

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

    /// Returns the address where a browser without a visit goes first: the
    /// question for the number, or the benches where this one has none yet.
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
        state: &AppState,
        code: &str,
        label: &str,
        cookies: &CookieJar,
    ) -> Result<Self, AppError> {
        let (mut db, class_set) = find_class_set(&state.store, code).await?;
        let bench = bench::find(&mut db, class_set.id, label).await?;
        let bench = bench.ok_or(AppError::Pupil(StatusCode::NOT_FOUND, Say::bench_no_such))?;
        let visit = match cookies.get(VISIT_COOKIE) {
            Some(token) => {
                visit::find(&mut db, &sha256(token.value()), bench.id, state.clock.now()).await?
            }
            None => None,
        };
        Ok(Self {
            say: state.say,
            department: db.department(),
            class_set,
            bench,
            visit,
        })
    }
}

/// Looks up the class set of a code, and a connection of its department.
pub(super) async fn find_class_set(
    store: &Store,
    code: &str,
) -> Result<(Connection, ClassSet), AppError> {
    let code = code.to_uppercase();
    let mut door = store.door().await?;
    let department = door.find_by_code(&code).await?.ok_or(NO_SUCH_CODE)?;
    let mut db = door.enter(department);
    let class_set = class_set::find_by_code(&mut db, &code).await?;
    Ok((db, class_set.ok_or(NO_SUCH_CODE)?))
}

impl FromRequestParts<AppState> for AtBench {
    type Rejection = AppError;

    async fn from_request_parts(parts: &mut Parts, state: &AppState) -> Result<Self, AppError> {
        let Path((code, label)) = Path::<(String, String)>::from_request_parts(parts, state)
            .await
            .map_err(|_| NO_SUCH_CODE)?;
        let cookies = CookieJar::from_headers(&parts.headers);
        Self::find(state, &code, &label, &cookies).await
    }
}
