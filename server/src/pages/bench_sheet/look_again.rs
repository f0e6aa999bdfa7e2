//! Looking again at one's own working before it is marked: one thing at a
//! time, as far as the teacher allows.
//!
//! It asks for the group's newest stored work and nothing else: what its
//! readings or the other groups suggest is the teacher's alone.

use analysis::field::Place;
use axum::http::StatusCode;
use axum::response::IntoResponse;

use crate::db::class_set::LookAgain;
use crate::db::{decision, release, revision};
use crate::pages::front::{AtBench, OwnBench};
use crate::report::Work;
use crate::report::look_again::{self, BoxToSee};
use crate::web::error::{AppError, Reply};
use crate::web::layout::{Layout, Page};
use crate::web::state::AppState;
use crate::words::Say;

#[derive(askama::Template)]
#[template(path = "bench_sheet/look_again.html")]
struct LookAgainPage {
    layout: Layout,
    code: String,
    label: String,
    told: Told,
}

impl LookAgainPage {
    fn is_found(&self) -> bool {
        matches!(self.told, Told::Found(_))
    }
}

/// What the group is told.
enum Told {
    /// That help is off, whatever the reason.
    Off,
    /// That nothing is stored on the sheet.
    NotBegun,
    /// That no figure is stored that it worked out.
    NoWorking,
    /// That no figure of theirs is to be looked at again.
    Nothing,
    Found(Found),
}

/// The one thing to look at again.
struct Found {
    /// To stand after *Look again at*.
    what: String,
    /// A question about the step, where the teacher lets it be explained.
    question: Option<String>,
    links: Vec<Link>,
}

/// A way to a box of the sheet.
struct Link {
    /// Id of the box.
    target: String,
    text: String,
}

/// Address of the page.
pub(super) fn url(at: &AtBench) -> String {
    format!("{}/look-again", at.url())
}

/// Says whether this group may be told anything: the class set helps, and its
/// marks are not out yet.
pub(super) async fn is_allowed(state: &AppState, at: &AtBench) -> Result<bool, AppError> {
    if !at.class_set.helps_pupils() {
        return Ok(false);
    }
    let mut db = state.store.reader(at.department).await?;
    Ok(release::find_out(&mut db, at.class_set.id).await?.is_none())
}

/// Shows the page.
pub(super) async fn get(state: AppState, OwnBench(at, _): OwnBench) -> Reply {
    let (status, told) = match is_allowed(&state, &at).await? {
        true => (StatusCode::OK, tell(&at, find(&state, &at).await?)),
        false => (StatusCode::NOT_FOUND, Told::Off),
    };
    let page = LookAgainPage {
        layout: Layout::public(at.say),
        code: at.class_set.join_code,
        label: at.bench.label,
        told,
    };
    Ok((status, Page(page)).into_response())
}

fn tell(at: &AtBench, work: Option<Work>) -> Told {
    let Some(work) = work else {
        return Told::NotBegun;
    };
    let explains = at.class_set.look_again == LookAgain::Explain;
    match look_again::first(at.say, &work) {
        Some(found) => Told::Found(Found {
            what: found.what,
            question: explains.then_some(found.question),
            links: found.boxes.iter().map(|to| link(at.say, to)).collect(),
        }),
        None if work.has_working() => Told::Nothing,
        None => Told::NoWorking,
    }
}

/// Returns the group's newest stored work, judged by itself.
async fn find(state: &AppState, at: &AtBench) -> Result<Option<Work>, AppError> {
    let mut db = state.store.reader(at.department).await?;
    let Some(newest) = revision::find_latest(&mut db, at.bench.sheet_id).await? else {
        return Ok(None);
    };
    let decisions = decision::list(&mut db, at.bench.sheet_id).await?;
    Ok(Work::of(newest, decisions))
}

fn link(say: Say, to: &BoxToSee) -> Link {
    let name = to.field.name();
    let (target, text) = match &to.row {
        _ if to.is_unit => (format!("unit.{name}"), say.again_go_unit()),
        Some((row, label)) => (format!("r{}.{name}", row + 1), say.again_go_row(label)),
        None if to.field.place() == Place::Sheet => (format!("w.{name}"), say.again_go_box()),
        None => ("part-3".to_owned(), say.again_go_working()),
    };
    Link { target, text }
}
