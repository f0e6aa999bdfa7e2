//! A form with a file in it, sent by somebody who is signed in.

use axum::extract::multipart::{Field, MultipartError};
use axum::extract::{FromRequest, FromRequestParts as _, Multipart, Request};
use axum::http::StatusCode;

use crate::web::error::AppError;
use crate::web::form::Pairs;
use crate::web::session::SignedIn;
use crate::web::state::AppState;
use crate::words::Say;

/// What was sent, with the token of the sender's session in it.
#[derive(Debug)]
pub(super) struct Upload {
    /// Who sends it.
    pub(super) by: SignedIn,
    /// What was typed.
    pub(super) pairs: Pairs,
    /// What is in the file; empty where none was chosen.
    pub(super) file: Vec<u8>,
}

impl FromRequest<AppState> for Upload {
    type Rejection = AppError;

    async fn from_request(request: Request, state: &AppState) -> Result<Self, AppError> {
        let (mut parts, body) = request.into_parts();
        let by = SignedIn::from_request_parts(&mut parts, state).await?;
        let form = Multipart::from_request(Request::from_parts(parts, body), state);
        let mut form = form.await.map_err(|_| NOT_OURS)?;
        let (mut pairs, mut file) = (Vec::new(), Vec::new());
        while let Some(field) = form.next_field().await.map_err(|e| refusal(&e))? {
            if field.name() == Some("file") {
                file = bytes(field).await?;
            } else {
                let name = field.name().unwrap_or_default().to_owned();
                let value = String::from_utf8(bytes(field).await?).map_err(|_| NOT_OURS)?;
                pairs.push((name, value));
            }
        }
        let pairs = Pairs::typed(pairs);
        by.expect_token(&pairs)?;
        Ok(Self { by, pairs, file })
    }
}

const NOT_OURS: AppError = AppError::Pupil(StatusCode::BAD_REQUEST, Say::problem_other_form);

async fn bytes(field: Field<'_>) -> Result<Vec<u8>, AppError> {
    let bytes = field.bytes().await.map_err(|e| refusal(&e))?;
    Ok(bytes.into())
}

fn refusal(error: &MultipartError) -> AppError {
    match error.status() {
        StatusCode::PAYLOAD_TOO_LARGE => AppError::TooLarge,
        _ => NOT_OURS,
    }
}
