//! My class sets, newest lesson first.

use axum::response::IntoResponse;

use crate::clock::long_date;
use crate::db::class_set::{self, Listed};
use crate::error::{AppError, Reply};
use crate::layout::{Layout, Page};
use crate::session::SignedIn;
use crate::state::AppState;

#[derive(askama::Template)]
#[template(path = "class_set/list.html")]
struct ListPage {
    layout: Layout,
    lines: Vec<Line>,
}

struct Line {
    listed: Listed,
    date: String,
    practical: &'static str,
}

/// The list.
pub(super) async fn get(state: AppState, by: SignedIn) -> Reply {
    let listed = class_set::list(&mut state.reader(&by).await?).await?;
    let lines = listed.into_iter().map(|listed| {
        let practical = crate::words::title(listed.class_set.method()?);
        Ok(Line {
            date: long_date(&listed.class_set.held_on),
            practical,
            listed,
        })
    });
    let lines = lines.collect::<Result<_, AppError>>()?;
    Ok(Page(ListPage {
        layout: by.layout,
        lines,
    })
    .into_response())
}
