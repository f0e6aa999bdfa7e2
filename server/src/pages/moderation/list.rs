//! The rounds, newest first.

use std::collections::HashMap;

use super::to_do::{ToDo, to_do};
use crate::db::round::{self, Round};
use crate::db::round_sheet::{self, Progress};
use crate::error::Reply;
use crate::ids::RoundId;
use crate::layout::{Layout, Page};
use crate::report::moderation::settling::list_to_mark_again;
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
    to_do: Vec<ToDo>,
}

pub(super) async fn get(state: AppState, by: SignedIn) -> Reply {
    let mut db = state.reader(&by).await?;
    let rounds = round::list(&mut db).await?;
    let mut progress: HashMap<RoundId, Vec<Progress>> = HashMap::new();
    for line in round_sheet::list_progress_of_all(&mut db).await? {
        progress.entry(line.round_id).or_default().push(line);
    }
    let again = list_to_mark_again(&mut db, by.staff_id).await?;
    let with_marker = round_sheet::list_shown_with_marker(&mut db, by.staff_id).await?;
    drop(db);
    let line = |round: Round| {
        let is_marker = with_marker.contains(&round.id);
        let progress = progress.get(&round.id).map_or(&[][..], Vec::as_slice);
        Line {
            to_do: to_do(&round, &by, progress, is_marker, &again),
            round,
        }
    };
    let lines = rounds.into_iter().map(line).collect();
    let page = ListPage {
        is_head: by.is_head(),
        layout: by.layout,
        lines,
    };
    Page(page).reply()
}
