//! The rounds, newest first.

use std::collections::HashMap;

use super::to_do::to_do;
use crate::db::round::{self, Round};
use crate::db::round_sheet::{self, Progress};
use crate::ids::RoundId;
use crate::report::moderation::settling::list_to_mark_again;
use crate::table::{Cell, PageTable, Table};
use crate::web::error::Reply;
use crate::web::layout::{Layout, Page};
use crate::web::session::SignedIn;
use crate::web::state::AppState;

#[derive(askama::Template)]
#[template(path = "moderation/list.html")]
struct ListPage {
    layout: Layout,
    is_head: bool,
    rounds: PageTable,
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
    let to_do = |round: &Round| {
        let is_marker = with_marker.contains(&round.id);
        let progress = progress.get(&round.id).map_or(&[][..], Vec::as_slice);
        Cell::drawn(&to_do(round, &by, progress, is_marker, &again))
    };
    let rounds = Table::of(&rounds)
        .text("Round", |round| {
            Cell::from(&round.name).link(format!("/moderation/{}", round.id))
        })
        .text("Mark scheme", |round| &round.scheme_name)
        .text("Where it stands", Round::stands)
        .text("What you have to do", to_do)
        .on_page("Moderation rounds", "Newest round first");
    let page = ListPage {
        is_head: by.is_head(),
        layout: by.layout,
        rounds,
    };
    Page(page).reply()
}
