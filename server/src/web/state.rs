//! What every handler may ask for.

use std::convert::Infallible;
use std::sync::Arc;

use axum::extract::FromRequestParts;
use axum::http::request::Parts;

use crate::acts::{self, Act, Actor, By, Told, keep_derived};
use crate::changes::Changes;
use crate::clock::{Clock, Zone};
use crate::db::derived::Derived;
use crate::db::{Connection, Error, Store};
use crate::rate::Rates;
use crate::report::year::NewestRows;
use crate::web::password::Passwords;
use crate::words::Say;
use crate::words::time::When;

/// The state of the application, cheap to clone.
#[derive(Clone, Debug)]
pub struct AppState {
    /// The data file.
    pub store: Store,
    /// What time it is.
    pub clock: Clock,
    /// The school's time zone.
    pub zone: Zone,
    /// Password hashing, a few at a time.
    pub passwords: Passwords,
    /// How often passwords and numbers may be tried.
    pub rates: Arc<Rates>,
    /// What tells open pages of a lesson that something has changed.
    pub changes: Changes,
    /// What tells whether anything of a year has changed.
    pub newest_rows: Arc<NewestRows>,
    /// Address that pupils type, if the configuration gives one.
    pub pupils_address: PupilsAddress,
    /// The language of pupils' pages.
    pub say: Say,
}

/// Address that pupils type, without a last slash; `None`: as in the request.
#[derive(Clone, Debug)]
pub struct PupilsAddress(pub Option<String>);

impl AppState {
    /// Returns a state on an open data file, with pupils' pages in English.
    #[must_use]
    pub fn new(store: Store, clock: Clock, zone: Zone, pupils_address: Option<String>) -> Self {
        Self {
            say: Say::english(),
            store,
            changes: Changes::new(clock.now()),
            newest_rows: Arc::default(),
            clock,
            zone,
            passwords: Passwords::default(),
            rates: Arc::new(Rates::default()),
            pupils_address: PupilsAddress(pupils_address),
        }
    }

    /// Performs an act now, and returns what came of it once that is on disk.
    ///
    /// # Errors
    /// As of the act; when too many writes wait, or writing has stopped.
    pub async fn act<A: Act<B>, B: By>(
        &self,
        actor: &impl Actor<By = B>,
        act: A,
    ) -> Result<Told<A, B>, Error> {
        acts::perform(&self.store, &self.changes, self.clock.now(), actor, act).await
    }

    /// Returns how a page that is made now writes times.
    #[must_use]
    pub fn when(&self) -> When {
        When {
            zone: self.zone.clone(),
            now: self.clock.now(),
        }
    }

    /// Keeps what was made when somebody looked. Nobody waits for it.
    pub fn keep(&self, whose: &impl Actor, made: impl IntoIterator<Item = Derived>) {
        keep_derived(&self.store, self.clock.now(), whose.acting().0, made);
    }

    /// Returns a connection that reads what belongs to somebody's department.
    /// Never hold two.
    ///
    /// # Errors
    /// When none comes free within five seconds.
    pub async fn reader(&self, whose: &impl Actor) -> Result<Connection, Error> {
        self.store.reader(whose.acting().0).await
    }
}

/// A handler asks for all of it by its name alone.
impl FromRequestParts<Self> for AppState {
    type Rejection = Infallible;

    async fn from_request_parts(_: &mut Parts, state: &Self) -> Result<Self, Infallible> {
        Ok(state.clone())
    }
}
