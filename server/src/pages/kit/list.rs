//! The list of kits, and adding one.

use axum::http::StatusCode;
use axum::response::IntoResponse;

use crate::acts::{ListKit, Taken};
use crate::db::kit::{self, Kind, Kit};
use crate::error::Reply;
use crate::layout::{Layout, Page, go};
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
pub(super) async fn get(state: AppState, by: SignedIn) -> Reply {
    let kits = kit::list(&mut state.reader(&by).await?).await?;
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
pub(super) async fn post(state: AppState, form: StaffForm) -> Reply {
    let label = form.pairs.trimmed("label").to_owned();
    let kind = Kind::from_code(form.pairs.get("kind"));
    let mut wrong_label = match label.chars().count() {
        0 => Some("Type what is written on the kit, for instance Tank 3."),
        1..=40 => None,
        _ => Some("Use at most 40 characters."),
    };
    if let (None, Some(kind)) = (wrong_label, kind) {
        let label = label.clone();
        match state.act(&form.by, ListKit { label, kind }).await? {
            Ok(_) => return go("/kits"),
            Err(Taken) => wrong_label = Some("There is a kit with this label already."),
        }
    }
    let wrong_kind = kind.is_none().then_some("Choose what kind of kit it is.");
    let kits = kit::list(&mut state.reader(&form.by).await?).await?;
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
