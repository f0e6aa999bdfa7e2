//! One version of a scheme, to read.

use axum::extract::Path;

use super::find;
use crate::db::scheme::{self, MarkingPoint, Scheme, Version};
use crate::ids::SchemeId;
use crate::web::error::{AppError, Reply};
use crate::web::layout::{Layout, Page};
use crate::web::session::SignedIn;
use crate::web::state::AppState;
use crate::words::check;
use crate::words::refusal;
use crate::words::time::time_or_day;

#[derive(askama::Template)]
#[template(path = "scheme/show.html")]
struct ShowPage {
    layout: Layout,
    scheme: Scheme,
    version: Version,
    points: Vec<PointLine>,
    most: u32,
    versions: Vec<VersionLine>,
}

struct PointLine {
    point: MarkingPoint,
    /// How it is judged, in words.
    judged: String,
}

struct VersionLine {
    number: i64,
    words: String,
    is_shown: bool,
}

/// Shows the newest version.
pub(super) async fn get(state: AppState, by: SignedIn, Path(id): Path<SchemeId>) -> Reply {
    page(&state, &by, id, None).await
}

/// Shows an earlier version.
pub(super) async fn version(
    state: AppState,
    by: SignedIn,
    Path((id, number)): Path<(SchemeId, i64)>,
) -> Reply {
    page(&state, &by, id, Some(number)).await
}

async fn page(state: &AppState, by: &SignedIn, id: SchemeId, number: Option<i64>) -> Reply {
    let mut db = state.reader(by).await?;
    let scheme = find(&mut db, id).await?;
    let versions = scheme::list_versions(&mut db, scheme.id).await?;
    let shown = versions
        .iter()
        .find(|version| version.number == number.unwrap_or(scheme.number));
    let shown = shown
        .cloned()
        .ok_or(AppError::NotFound(refusal::NO_VERSION))?;
    let points = scheme::list_points(&mut db, shown.id).await?;
    drop(db);
    let now = state.clock.now();
    let versions = versions.iter().map(|version| VersionLine {
        number: version.number,
        words: {
            let when = time_or_day(&state.zone, version.made_at, now);
            check::made(version.by.as_deref().map(|by| (by, when.as_str())))
        },
        is_shown: version.number == shown.number,
    });
    let page = ShowPage {
        layout: by.layout.clone(),
        most: points.iter().map(|point| point.point.marks).sum(),
        versions: versions.collect(),
        points: points.into_iter().map(line).collect(),
        version: shown,
        scheme,
    };
    Page(page).reply()
}

fn line(point: MarkingPoint) -> PointLine {
    PointLine {
        judged: check::judged(point.point.judged),
        point,
    }
}
