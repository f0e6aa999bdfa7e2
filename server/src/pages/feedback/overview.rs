//! Where the feedback of a class set stands, and releasing it.

use axum::extract::Path;

use crate::acts::ReleaseMarks;
use crate::db::class_set::{self, ClassSet};
use crate::db::release::{self, Release, Since};
use crate::ids::ClassSetId;
use crate::report::feedback::{self, FeedbackSheet};
use crate::table::{Cell, PageTable, Table};
use crate::web::error::{AppError, Reply};
use crate::web::layout::go;
use crate::web::layout::{Layout, Page};
use crate::web::session::SignedIn;
use crate::web::session::StaffForm;
use crate::web::state::AppState;
use crate::words::counted;
use crate::words::refusal;

#[derive(askama::Template)]
#[template(path = "feedback/overview.html")]
struct OverviewPage {
    layout: Layout,
    class_set: ClassSet,
    release: Option<Release>,
    released_when: String,
    since: Since,
    /// A line for each bench.
    benches: PageTable,
    complete: usize,
}

impl OverviewPage {
    fn is_out(&self) -> bool {
        self.release.as_ref().is_some_and(|release| release.is_out)
    }

    /// Says what is newer than the release, in words. Returns no text when
    /// nothing is.
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

fn benches(set: ClassSetId, sheets: &[FeedbackSheet]) -> PageTable {
    Table::of(sheets)
        .text("Bench", |sheet| &sheet.bench.label)
        .words("Marking", |sheet| {
            let label = &sheet.bench.label;
            let marking = format!("/class-sets/{set}/marking/sheets/{label}");
            match sheet.marks.points.len() - sheet.marks.marked() {
                0 => Cell::from("complete"),
                open => Cell::from(format!("{} to mark", counted(open, "point", "points")))
                    .link_called(marking, format!("Mark bench {label}")),
            }
        })
        .text("Feedback sheet", |sheet| {
            let label = &sheet.bench.label;
            let own = format!("/class-sets/{set}/feedback/sheets/{label}");
            Cell::from("Look at the feedback sheet")
                .link_called(own, format!("Feedback sheet of bench {label}"))
        })
        .on_page("Feedback sheets", "")
}

/// Shows the page.
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
    let page = OverviewPage {
        layout: by.layout,
        released_when: release
            .as_ref()
            .map_or_else(String::new, |r| state.when().says(r.at)),
        benches: benches(id, &feedback.sheets),
        complete: feedback
            .sheets
            .iter()
            .filter(|sheet| sheet.marks.is_complete())
            .count(),
        release,
        since,
        class_set,
    };
    Page(page).reply()
}

/// Releases what there is now, or takes back what is out.
pub(super) async fn post(state: AppState, Path(id): Path<ClassSetId>, form: StaffForm) -> Reply {
    let is_out = match form.pairs.get("release") {
        "out" => true,
        "back" => false,
        _ => {
            return Err(AppError::BadRequest(refusal::RELEASE_UNCHANGED));
        }
    };
    let act = ReleaseMarks {
        class_set: id,
        is_out,
    };
    state.act(&form.by, act).await?;
    go(format!("/class-sets/{id}/feedback"))
}
