//! The stream that tells an open page that something has changed. It carries
//! nothing else: the page asks for its part again.

use std::convert::Infallible;
use std::time::Duration;

use axum::extract::{Path, Query};
use axum::http::{HeaderMap, StatusCode};
use axum::response::IntoResponse;
use axum::response::sse::{Event, KeepAlive, Sse};
use axum_extra::extract::CookieJar;
use futures_util::stream::{Stream, unfold};

use crate::changes::Listener;
use crate::clock::Clock;
use crate::db::{Store, class_set};
use crate::ids::ClassSetId;
use crate::secret::sha256;
use crate::web::error::{AppError, Reply};
use crate::web::session::{STAFF_COOKIE, SignedIn};
use crate::web::state::AppState;

/// A comment is sent when nothing else was for so long, so that nobody on the
/// way takes the connection for dead.
const KEEP_ALIVE: Duration = Duration::from_secs(15);
/// A stream looks so often, at least, whether its session is still live.
const CHECK_SESSION: Duration = Duration::from_secs(15);
/// A page that lost its stream tries again after so long.
const RETRY: Duration = Duration::from_secs(3);

/// What the address asks for.
#[derive(Debug, serde::Deserialize)]
pub(super) struct ChangesQuery {
    /// Count of changes that the page was made after.
    since: Option<i64>,
}

/// Shows the stream. It ends with the session, and when the program is to
/// stop.
pub(super) async fn get(
    state: AppState,
    by: SignedIn,
    Path(id): Path<ClassSetId>,
    Query(asked): Query<ChangesQuery>,
    headers: HeaderMap,
    cookies: CookieJar,
) -> Reply {
    let class_set = class_set::get(&mut state.reader(&by).await?, id).await?;
    if !class_set.is_live {
        // Tells a browser not to try again.
        return Ok(StatusCode::NO_CONTENT.into_response());
    }
    // After a lost connection a browser says by itself what it heard last.
    let seen = last_heard(&headers).or(asked.since);
    let listener = state.changes.listen(class_set.id, seen);
    let session = cookies.get(STAFF_COOKIE).map(|c| sha256(c.value()));
    let open = Open {
        listener: listener.ok_or(AppError::Busy)?,
        store: state.store,
        clock: state.clock,
        session: session.unwrap_or_default(),
    };
    let keep_alive = KeepAlive::new().interval(KEEP_ALIVE);
    Ok(Sse::new(events(open))
        .keep_alive(keep_alive)
        .into_response())
}

fn last_heard(headers: &HeaderMap) -> Option<i64> {
    headers.get("last-event-id")?.to_str().ok()?.parse().ok()
}

/// A stream that is open.
struct Open {
    listener: Listener,
    store: Store,
    clock: Clock,
    /// Hash of its session's token.
    session: String,
}

fn events(open: Open) -> impl Stream<Item = Result<Event, Infallible>> {
    unfold(open, async |mut open| {
        let count = open.next().await?.to_string();
        // Browsers pass over an event without data.
        let event = Event::default().event("changed").id(&count).data(count);
        Some((Ok(event.retry(RETRY)), open))
    })
}

impl Open {
    /// Waits for the next change; the count then. Returns `None` when it is
    /// over.
    async fn next(&mut self) -> Option<i64> {
        loop {
            let heard = tokio::time::timeout(CHECK_SESSION, self.listener.next()).await;
            if let Ok(None) = heard {
                return None;
            }
            if !self.is_signed_in().await {
                return None;
            }
            if let Ok(count) = heard {
                return count;
            }
        }
    }

    async fn is_signed_in(&self) -> bool {
        let Ok(mut door) = self.store.door().await else {
            return false;
        };
        let found = door.find_session(&self.session, self.clock.now()).await;
        matches!(found, Ok(Some(_)))
    }
}
