//! Where the feedback of a class set stands, and releasing it.

use axum::extract::Path;

use crate::db::class_set::{self, ClassSet};
use crate::db::release::{self, Release, Since};
use crate::error::Reply;
use crate::ids::ClassSetId;
use crate::layout::{Layout, Page};
use crate::report::feedback;
use crate::session::SignedIn;
use crate::state::AppState;
use crate::words::counted;
use crate::words::time::{long_date, time_or_day};

#[derive(askama::Template)]
#[template(path = "feedback/overview.html")]
struct OverviewPage {
    layout: Layout,
    class_set: ClassSet,
    date: String,
    release: Option<Release>,
    released_when: String,
    since: Since,
    /// Each bench, with how many of its points have no mark yet.
    benches: Vec<(String, usize)>,
    complete: usize,
}

impl OverviewPage {
    fn is_out(&self) -> bool {
        self.release.as_ref().is_some_and(|release| release.is_out)
    }

    /// What is newer than the release, in words; blank where nothing is.
    fn newer(&self) -> String {
        let newer = [
            (self.since.marks, "mark", "marks"),
            (self.since.notes, "note", "notes"),
            (self.since.revisions, "revision", "revisions"),
        ];
        let parts = newer.into_iter().filter(|(count, ..)| *count > 0);
        let parts: Vec<String> = parts
            .map(|(count, one, many)| counted(count, one, many))
            .collect();
        parts.join(", ")
    }
}

/// The page.
pub(super) async fn get(state: AppState, by: SignedIn, Path(id): Path<ClassSetId>) -> Reply {
    let mut db = state.reader(&by).await?;
    let class_set = class_set::get(&mut db, id).await?;
    let release = release::find_newest(&mut db, class_set.id).await?;
    let since = match &release {
        Some(release) if release.is_out => {
            release::count_since(&mut db, class_set.id, release).await?
        }
        _ => Since::default(),
    };
    let feedback = feedback::load(&mut db, &class_set, None).await?;
    drop(db);
    let now = state.clock.now();
    let benches = feedback.slips.iter().map(|slip| {
        let open = slip.marks.points.len() - slip.marks.marked();
        (slip.bench.label.clone(), open)
    });
    let page = OverviewPage {
        layout: by.layout,
        date: long_date(&class_set.held_on),
        released_when: release
            .as_ref()
            .map_or_else(String::new, |r| time_or_day(&state.zone, r.at, now)),
        benches: benches.collect(),
        complete: feedback
            .slips
            .iter()
            .filter(|slip| slip.marks.is_complete())
            .count(),
        release,
        since,
        class_set,
    };
    Page(page).reply()
}
