//! The bank of the department's own comments.

use crate::acts::{AddComment, RetireComment};
use crate::db::comment::{self, Comment};
use crate::error::{AppError, Reply};
use crate::ids::CommentId;
use crate::layout::{Layout, Page, go};
use crate::session::{SignedIn, StaffForm};
use crate::state::AppState;
use crate::words::refusal;

/// Longest comment, in characters.
const LONGEST: usize = 500;

#[derive(askama::Template)]
#[template(path = "marking/comments.html")]
struct CommentsPage {
    layout: Layout,
    comments: Vec<Comment>,
    typed: String,
    wrong: Option<&'static str>,
}

pub(super) async fn get(state: AppState, by: SignedIn) -> Reply {
    page(&state, &by, String::new(), None).await?.reply()
}

async fn page(
    state: &AppState,
    by: &SignedIn,
    typed: String,
    wrong: Option<&'static str>,
) -> Result<Page<CommentsPage>, AppError> {
    let comments = comment::list(&mut state.reader(by).await?).await?;
    Ok(Page(CommentsPage {
        layout: by.layout.clone(),
        comments,
        typed,
        wrong,
    }))
}

/// Adds a comment.
pub(super) async fn post(state: AppState, form: StaffForm) -> Reply {
    let body = form.pairs.trimmed("comment").replace("\r\n", "\n");
    let wrong = match body.chars().count() {
        0 => Some(refusal::COMMENT_FIRST),
        n if n > LONGEST => Some(refusal::AT_MOST_500),
        _ => None,
    };
    if wrong.is_some() {
        let page = page(&state, &form.by, body, wrong).await?;
        return page.refused();
    }
    state.act(&form.by, AddComment { body }).await?;
    go("/comments")
}

/// Offers a comment no more, or again.
pub(super) async fn retire(state: AppState, form: StaffForm) -> Reply {
    let unknown = AppError::NotFound(refusal::NO_COMMENT);
    let id = form.pairs.get("id").parse().map(CommentId);
    let id = id.map_err(|_| unknown)?;
    let act = RetireComment {
        comment: id,
        is_retired: form.pairs.get("retired") == "yes",
    };
    state.act(&form.by, act).await?;
    go("/comments")
}
