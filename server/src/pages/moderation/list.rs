//! The rounds, newest first.

use axum::extract::State;
use axum::response::{IntoResponse, Response};

use super::stands;
use super::to_do::{ToDo, to_do};
use crate::db::round::{self, Round};
use crate::db::round_sheet;
use crate::error::AppError;
use crate::layout::{Layout, Page};
use crate::report::moderation::settling::list_to_mark_again;
use crate::report::moderation::workload::being_marked;
use crate::session::SignedIn;
use crate::state::AppState;

#[derive(askama::Template)]
#[template(path = "moderation/list.html")]
struct ListPage {
    layout: Layout,
    is_head: bool,
    lines: Vec<Line>,
}

struct Line {
    round: Round,
    stands: &'static str,
    to_do: Vec<ToDo>,
}

/// The list.
pub(super) async fn get(State(state): State<AppState>, by: SignedIn) -> Result<Response, AppError> {
    let mut db = state.reader(&by).await?;
    let mut lines = Vec::new();
    for round in round::list(&mut db).await? {
        let progress = match being_marked(round.step) {
            Some(_) => round_sheet::list_progress(&mut db, Some(round.id), None).await?,
            None => Vec::new(),
        };
        let again = list_to_mark_again(&mut db, &round, by.staff_id).await?;
        let is_marker = round_sheet::has_marker(&mut db, round.id, by.staff_id).await?;
        lines.push(Line {
            stands: stands(round.step),
            to_do: to_do(&round, &by, &progress, is_marker, &again),
            round,
        });
    }
    drop(db);
    Ok(Page(ListPage {
        is_head: by.is_head(),
        layout: by.layout,
        lines,
    })
    .into_response())
}
