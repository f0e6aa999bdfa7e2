//! The bank of the department's own comments.

use crate::acts::{AddComment, RetireComment};
use crate::db::comment::{self, Comment};
use crate::ids::CommentId;
use crate::web::error::{AppError, Reply};
use crate::web::form::TypedText;
use crate::web::layout::{Layout, Page, go};
use crate::web::session::{SignedIn, StaffForm};
use crate::web::state::AppState;
use crate::words::refusal;

/// Longest comment, in characters.
const LONGEST: usize = 500;

#[derive(askama::Template)]
#[template(path = "marking/comments.html")]
struct CommentsPage {
    layout: Layout,
    comments: Vec<Comment>,
    typed: TypedText,
}

pub(super) async fn get(state: AppState, by: SignedIn) -> Reply {
    page(&state, &by, TypedText::default()).await?.reply()
}

async fn page(
    state: &AppState,
    by: &SignedIn,
    typed: TypedText,
) -> Result<Page<CommentsPage>, AppError> {
    let comments = comment::list(&mut state.reader(by).await?).await?;
    Ok(Page(CommentsPage {
        layout: by.layout.clone(),
        comments,
        typed,
    }))
}

/// Adds a comment.
pub(super) async fn post(state: AppState, form: StaffForm) -> Reply {
    let mut typed = TypedText::new(form.pairs.text("comment"));
    let body = typed.check(|text| match text.chars().count() {
        0 => Err(refusal::COMMENT_FIRST),
        1..=LONGEST => Ok(text.to_owned()),
        _ => Err(refusal::AT_MOST_500),
    });
    let Some(body) = body else {
        return page(&state, &form.by, typed).await?.refused();
    };
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
