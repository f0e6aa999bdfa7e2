//! The list of kits, and adding one.

use axum::extract::State;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};

use crate::db::Store;
use crate::db::event::{self, NewEvent};
use crate::db::kit::{self, Kind, Kit};
use crate::error::AppError;
use crate::ids::StaffId;
use crate::layout::{Layout, Page};
use crate::session::{SignedIn, StaffForm};
use crate::state::AppState;

#[derive(askama::Template)]
#[template(path = "kit/list.html")]
struct ListPage {
    layout: Layout,
    kits: Vec<Kit>,
    /// Label as typed.
    label: String,
    /// Code of the kind as chosen.
    kind: String,
    /// What is wrong with the label.
    wrong_label: Option<&'static str>,
    /// What is wrong with the kind.
    wrong_kind: Option<&'static str>,
}

/// The list, with a form to add one.
pub(super) async fn get(State(store): State<Store>, by: SignedIn) -> Result<Response, AppError> {
    let kits = kit::list(&mut store.reader(by.department).await?).await?;
    let (label, kind) = (String::new(), Kind::Tank.code().to_owned());
    Ok(Page(ListPage {
        layout: by.layout,
        kits,
        label,
        kind,
        wrong_label: None,
        wrong_kind: None,
    })
    .into_response())
}

/// Adds a kit.
pub(super) async fn post(
    State(state): State<AppState>,
    form: StaffForm,
) -> Result<Response, AppError> {
    let store = &state.store;
    let label = form.pairs.trimmed("label").to_owned();
    let kind = Kind::from_code(form.pairs.get("kind"));
    let mut wrong_label = match label.chars().count() {
        0 => Some("Type what is written on the kit, for instance Tank 3."),
        1..=40 => None,
        _ => Some("Use at most 40 characters."),
    };
    if let (None, Some(kind)) = (wrong_label, kind) {
        if add(&state, label.clone(), kind, form.by.staff_id).await? {
            return Ok(Redirect::to("/kits").into_response());
        }
        wrong_label = Some("There is a kit with this label already.");
    }
    let wrong_kind = kind.is_none().then_some("Choose what kind of kit it is.");
    let kits = kit::list(&mut store.reader(crate::ids::DEPARTMENT).await?).await?;
    let kind = form.pairs.get("kind").to_owned();
    let page = ListPage {
        layout: form.by.layout,
        kits,
        label,
        kind,
        wrong_label,
        wrong_kind,
    };
    Ok((StatusCode::UNPROCESSABLE_ENTITY, Page(page)).into_response())
}

/// Adds a kit; false where the label is taken.
async fn add(state: &AppState, label: String, kind: Kind, by: StaffId) -> Result<bool, AppError> {
    let at = state.clock.now();
    let added = state.store.writer().run(move |db| {
        Box::pin(async move {
            let added = kit::insert(db, &label, kind).await?.is_some();
            if added {
                let what = NewEvent {
                    at,
                    what: "kit_added",
                    staff_id: Some(by),
                    class_set_id: None,
                    detail: &label,
                };
                event::insert(db, &what).await?;
            }
            Ok(added)
        })
    });
    Ok(added.await?)
}
