//! Leaving a bench, so that the next pupils at this computer do not meet it.

use axum::extract::State;
use axum::response::Redirect;

use super::AtBench;
use crate::db::{Store, visit};
use crate::error::AppError;

/// Ends this browser's visit.
///
/// # Errors
/// Not found for an unknown bench.
pub async fn post(State(store): State<Store>, at: AtBench) -> Result<Redirect, AppError> {
    if let Some(id) = at.visit {
        store
            .writer()
            .run(move |db| Box::pin(async move { visit::update_left(db, id).await }))
            .await?;
    }
    Ok(Redirect::to(&format!("/c/{}", at.class_set.join_code)))
}
