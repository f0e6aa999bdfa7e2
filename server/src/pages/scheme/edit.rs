//! The form that makes the next version of a scheme.

use analysis::method::Method;
use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};

use super::find;
use super::form::{MOST_POINTS, TypedPoint, check, choices, read, typed};
use crate::db::event::{self, NewEvent};
use crate::db::scheme::{self, MarkingPoint, NewPoint, NewVersion, Scheme};
use crate::error::AppError;
use crate::ids::SchemeId;
use crate::layout::{Layout, Page};
use crate::session::{SignedIn, StaffForm};
use crate::state::AppState;

#[derive(askama::Template)]
#[template(path = "scheme/edit.html")]
struct EditPage {
    layout: Layout,
    scheme: Scheme,
    points: Vec<TypedPoint>,
    choices: Vec<(String, String)>,
    /// The version that what is typed started from.
    base: i64,
    /// Something to know before anything else.
    notice: Option<&'static str>,
    is_unsaved: bool,
    total: u32,
}

impl EditPage {
    /// What is wrong: the box, which point, and why.
    fn complaints(&self) -> Vec<(String, usize, &'static str)> {
        let points = self.points.iter().enumerate();
        let all = points.flat_map(|(at, point)| {
            let wrong = point.wrong.all().into_iter();
            wrong.map(move |(name, why)| (format!("p{at}.{name}"), at + 1, why))
        });
        all.collect()
    }
}

fn page(
    layout: Layout,
    scheme: Scheme,
    points: Vec<TypedPoint>,
    base: i64,
    notice: Option<&'static str>,
    is_unsaved: bool,
) -> Result<Page<EditPage>, AppError> {
    let method = method(&scheme)?;
    let marks = points
        .iter()
        .filter_map(|p| p.marks.trim().parse::<u32>().ok());
    Ok(Page(EditPage {
        layout,
        total: marks.fold(0, u32::saturating_add),
        choices: choices(method),
        scheme,
        points,
        base,
        notice,
        is_unsaved,
    }))
}

fn method(scheme: &Scheme) -> Result<Method, AppError> {
    Method::from_code(&scheme.method)
        .ok_or_else(|| AppError::internal("a scheme of an unknown method"))
}

async fn present(state: &AppState, id: SchemeId) -> Result<(Scheme, Vec<MarkingPoint>), AppError> {
    let mut db = state.store.reader(crate::ids::DEPARTMENT).await?;
    let scheme = find(&mut db, id).await?;
    let points = scheme::list_points(&mut db, scheme.version_id).await?;
    Ok((scheme, points))
}

/// The form, with the newest version in it.
pub(super) async fn get(
    State(state): State<AppState>,
    by: SignedIn,
    Path(id): Path<SchemeId>,
) -> Result<Response, AppError> {
    let (scheme, points) = present(&state, id).await?;
    let base = scheme.number;
    Ok(page(by.layout, scheme, typed(&points), base, None, false)?.into_response())
}

/// Moves, adds or takes away a point, or saves what is typed as the next
/// version.
pub(super) async fn post(
    State(state): State<AppState>,
    Path(id): Path<SchemeId>,
    form: StaffForm,
) -> Result<Response, AppError> {
    let (scheme, present) = present(&state, id).await?;
    let mut points = read(&form.pairs);
    let base = form.pairs.get("base").parse().unwrap_or(0);
    let layout = form.by.layout.clone();
    let act = form.pairs.get("act");
    if act != "save" {
        arrange(&mut points, act);
        return Ok(page(layout, scheme, points, base, None, true)?.into_response());
    }
    let method = method(&scheme)?;
    let Some(new) = check(&mut points, method, &present) else {
        let notice = points
            .is_empty()
            .then_some("A scheme has one point or more: add one.");
        let page = page(layout, scheme, points, base, notice, true)?;
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
    };
    if is_same(&new, &present) || save(&state, &form, &scheme, base, new).await? {
        return Ok(Redirect::to(&format!("/schemes/{id}")).into_response());
    }
    // What was typed stays; pressing again saves it after the newer one.
    let (scheme, _) = self::present(&state, id).await?;
    let newer = scheme.number;
    let page = page(layout, scheme, points, newer, Some(MET), true)?;
    Ok((StatusCode::CONFLICT, page).into_response())
}

const MET: &str = "A colleague has saved a newer version while you were writing. What you have typed is still here, and nothing is saved. Look at the newer version first; then save again to put yours after it.";

/// What a button other than *save* does to the list.
fn arrange(points: &mut Vec<TypedPoint>, act: &str) {
    let (what, at) = act.split_once('.').unwrap_or((act, ""));
    let at = at.parse::<usize>().ok().filter(|at| *at < points.len());
    match (what, at) {
        ("add", _) if points.len() < MOST_POINTS => points.push(TypedPoint {
            marks: "1".to_owned(),
            judged: "eye".to_owned(),
            ..TypedPoint::default()
        }),
        ("up", Some(at)) if at > 0 => points.swap(at - 1, at),
        ("down", Some(at)) if at + 1 < points.len() => points.swap(at, at + 1),
        ("remove", Some(at)) => {
            points.remove(at);
        }
        _ => {}
    }
}

fn is_same(new: &[NewPoint], present: &[MarkingPoint]) -> bool {
    let pairs = new.iter().zip(present);
    new.len() == present.len()
        && pairs
            .into_iter()
            .all(|(new, old)| new.key == Some(old.key) && new.point == old.point)
}

/// Saves the next version; false where somebody saved one since `base`, which
/// only the writer knows.
async fn save(
    state: &AppState,
    form: &StaffForm,
    scheme: &Scheme,
    base: i64,
    points: Vec<NewPoint>,
) -> Result<bool, AppError> {
    let (now, by) = (state.clock.now(), form.by.staff_id);
    let (name, number) = (scheme.name.clone(), base + 1);
    let new = NewVersion {
        scheme_id: scheme.id,
        points,
        staff_id: Some(by),
        made_at: now,
    };
    let write = state.store.writer().run(move |db| {
        Box::pin(async move {
            let versions = scheme::list_versions(db, new.scheme_id).await?;
            if versions.first().is_some_and(|newest| newest.number != base) {
                return Ok(false);
            }
            scheme::insert_version(db, &new).await?;
            let done = NewEvent {
                at: now,
                what: "scheme_saved",
                staff_id: Some(by),
                class_set_id: None,
                detail: &format!("{name}, version {number}"),
            };
            event::insert(db, &done).await?;
            Ok(true)
        })
    });
    Ok(write.await?)
}
