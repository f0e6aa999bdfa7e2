//! The page of files.

use axum::extract::Path;

use crate::acts::event::{self as happened, IMPORTED};
use crate::db::class_set::{self, ClassSet};
use crate::db::event::{self, Event};
use crate::error::{AppError, Reply};
use crate::ids::ClassSetId;
use crate::layout::{Layout, Page};
use crate::session::SignedIn;
use crate::state::AppState;
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
        holds: "For a spreadsheet: a sheet for each of the files below.",
    },
    Download {
        name: "readings.csv",
        title: "Readings and working",
        holds: "A line for each row of a group’s table, to the letter as it was typed. This file can be taken in again.",
    },
    Download {
        name: "groups.csv",
        title: "Groups",
        holds: "A line for each group: its speed as recomputed, what was expected, and how it stands in the class.",
    },
    Download {
        name: "flags.csv",
        title: "Slips and remarks",
        holds: "A line for each thing to say of a sheet, before anybody confirmed or dismissed it. Not for pupils: it has what is only inferred, and questions.",
    },
    Download {
        name: "marks.csv",
        title: "Marks",
        holds: "A line for each group and marking point: what is awarded, by whom and why, and what is suggested; and each group’s total.",
    },
    Download {
        name: "register.csv",
        title: "Register",
        holds: "A line for each group and each absentee.",
    },
];

/// The page.
pub(super) async fn get(state: AppState, by: SignedIn, Path(id): Path<ClassSetId>) -> Reply {
    page(&state, &by, id, None).await?.reply()
}

/// The page, perhaps with a file that could not be taken.
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
