//! A new scheme from an old one, and schemes that are no more offered.

use analysis::method::Method;
use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};

use super::{find, list};
use crate::db::event::{self, NewEvent};
use crate::db::scheme::{self, NewPoint, NewVersion};
use crate::error::AppError;
use crate::ids::SchemeId;
use crate::session::StaffForm;
use crate::state::AppState;

/// Longest name, in characters.
const LONGEST: usize = 80;

/// Makes a scheme with the points of another.
pub(super) async fn post(
    State(state): State<AppState>,
    Path(id): Path<SchemeId>,
    form: StaffForm,
) -> Result<Response, AppError> {
    let mut db = state.reader(&form.by).await?;
    let from = find(&mut db, id).await?;
    let points = scheme::list_points(&mut db, from.version_id).await?;
    let schemes = scheme::list(&mut db).await?;
    drop(db);
    let name = form.pairs.trimmed("name").to_owned();
    let is_taken = schemes
        .iter()
        .any(|scheme| scheme.method == from.method && scheme.name == name);
    let fault = match name.chars().count() {
        0 => Some("Give the new scheme a name."),
        n if n > LONGEST => Some("Use at most 80 characters."),
        _ if is_taken => Some("There is a scheme of this name already. Choose another."),
        _ => None,
    };
    if let Some(fault) = fault {
        let page = list::page(&state, form.by.layout, Some((name, fault))).await?;
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
    }
    let method = Method::from_code(&from.method)
        .ok_or_else(|| AppError::internal("a scheme of an unknown method"))?;
    let points: Vec<NewPoint> = points
        .into_iter()
        .map(|point| NewPoint {
            key: None,
            point: point.point,
        })
        .collect();
    let (now, by) = (state.clock.now(), form.by.staff_id);
    let write = state.store.writer().run(move |db| {
        Box::pin(async move {
            let scheme_id = scheme::insert(db, method, &name).await?;
            let new = NewVersion {
                scheme_id,
                points,
                staff_id: Some(by),
                made_at: now,
            };
            scheme::insert_version(db, &new).await?;
            let done = NewEvent {
                at: now,
                what: "scheme_made",
                staff_id: Some(by),
                class_set_id: None,
                detail: &name,
            };
            event::insert(db, &done).await?;
            Ok(scheme_id)
        })
    });
    let made: SchemeId = write.await?;
    Ok(Redirect::to(&format!("/schemes/{made}/edit")).into_response())
}

/// Offers a scheme no more for new class sets, or again.
pub(super) async fn retire(
    State(state): State<AppState>,
    Path(id): Path<SchemeId>,
    form: StaffForm,
) -> Result<Redirect, AppError> {
    let mut db = state.reader(&form.by).await?;
    let scheme = find(&mut db, id).await?;
    let schemes = scheme::list(&mut db).await?;
    drop(db);
    let is_retired = form.pairs.get("retired") == "yes";
    let mut others = schemes.iter().filter(|one| one.id != scheme.id);
    let has_other = others.any(|one| one.method == scheme.method && !one.is_retired);
    if is_retired && !has_other {
        return Err(AppError::BadRequest(
            "This is the only scheme that is offered for its method. Offer another one first.",
        ));
    }
    let (now, by) = (state.clock.now(), form.by.staff_id);
    let write = state.store.writer().run(move |db| {
        Box::pin(async move {
            scheme::update_retired(db, scheme.id, is_retired).await?;
            let done = NewEvent {
                at: now,
                what: if is_retired {
                    "scheme_retired"
                } else {
                    "scheme_offered"
                },
                staff_id: Some(by),
                class_set_id: None,
                detail: &scheme.name,
            };
            event::insert(db, &done).await
        })
    });
    write.await?;
    Ok(Redirect::to("/schemes"))
}
