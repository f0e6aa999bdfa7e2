//! The page of files.

use axum::extract::Path;

use crate::acts::event::{self as happened, IMPORTED};
use crate::db::class_set::{self, ClassSet};
use crate::db::event::{self, Event};
use crate::ids::ClassSetId;
use crate::web::error::{AppError, Reply};
use crate::web::layout::{Layout, Page};
use crate::web::session::SignedIn;
use crate::web::state::AppState;
use crate::words::file;
use crate::words::time::time_or_day;

#[derive(askama::Template)]
#[template(path = "files/show.html")]
pub(super) struct FilesPage {
    layout: Layout,
    class_set: ClassSet,
    files: &'static [Download],
    /// What is wrong with the file that was chosen.
    wrong: Option<&'static str>,
    /// Files taken in so far, newest first: by whom, when, and what.
    taken_in: Vec<[String; 3]>,
}

struct Download {
    /// The last part of its address.
    name: &'static str,
    title: &'static str,
    /// What it holds, in a sentence.
    holds: &'static str,
}

const DOWNLOADS: [Download; 6] = [
    Download {
        name: "workbook.xlsx",
        title: "Everything in one workbook",
        holds: file::WORKBOOK_HOLDS,
    },
    Download {
        name: "readings.csv",
        title: "Readings and working",
        holds: file::READINGS_HOLD,
    },
    Download {
        name: "groups.csv",
        title: "Groups",
        holds: file::GROUPS_HOLD,
    },
    Download {
        name: "flags.csv",
        title: "Slips and remarks",
        holds: file::FLAGS_HOLD,
    },
    Download {
        name: "marks.csv",
        title: "Marks",
        holds: file::MARKS_HOLD,
    },
    Download {
        name: "register.csv",
        title: "Register",
        holds: file::REGISTER_HOLDS,
    },
];

/// Shows the page.
pub(super) async fn get(state: AppState, by: SignedIn, Path(id): Path<ClassSetId>) -> Reply {
    page(&state, &by, id, None).await?.reply()
}

/// Returns the page, perhaps with a file that could not be taken.
pub(super) async fn page(
    state: &AppState,
    by: &SignedIn,
    id: ClassSetId,
    wrong: Option<&'static str>,
) -> Result<Page<FilesPage>, AppError> {
    let mut db = state.reader(by).await?;
    let class_set = class_set::get(&mut db, id).await?;
    let taken_in = event::list_of_class_set(&mut db, id, IMPORTED).await?;
    drop(db);
    let now = state.clock.now();
    let line = |event: Event| {
        let when = time_or_day(&state.zone, event.at, now);
        let groups = happened::taken_in(&event.detail);
        let groups = groups.map_or(event.detail, |groups| file::taken_in(&groups));
        [event.by.unwrap_or_default(), when, groups]
    };
    Ok(Page(FilesPage {
        layout: by.layout.clone(),
        class_set,
        files: &DOWNLOADS,
        wrong,
        taken_in: taken_in.into_iter().map(line).collect(),
    }))
}
