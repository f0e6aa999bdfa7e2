//! The form that makes the next version of a scheme.

use analysis::method::Method;
use axum::extract::Path;
use axum::http::StatusCode;
use axum::response::IntoResponse;

use super::form::{MOST_POINTS, TypedPoint, check, choices, read, typed};
use super::{find, no_such};
use crate::acts::{NotSaved, SaveScheme};
use crate::db::scheme::{self, Scheme};
use crate::ids::SchemeId;
use crate::web::error::{AppError, Reply};
use crate::web::form::TypedText;
use crate::web::layout::{Layout, Page, go};
use crate::web::session::{SignedIn, StaffForm};
use crate::web::state::AppState;
use crate::words::refusal;

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
    /// Lists what is wrong: the box, which point, and why.
    fn complaints(&self) -> Vec<(String, usize, &str)> {
        let points = self.points.iter().enumerate();
        let all = points.flat_map(|(at, point)| {
            let wrong = point.wrong();
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
        .filter_map(|p| p.marks.text.trim().parse::<u32>().ok());
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

async fn newest(state: &AppState, by: &SignedIn, id: SchemeId) -> Result<Scheme, AppError> {
    find(&mut state.reader(by).await?, id).await
}

/// Shows the form, with the newest version in it.
pub(super) async fn get(state: AppState, by: SignedIn, Path(id): Path<SchemeId>) -> Reply {
    let mut db = state.reader(&by).await?;
    let scheme = find(&mut db, id).await?;
    let points = scheme::list_points(&mut db, scheme.version_id).await?;
    drop(db);
    let base = scheme.number;
    Ok(page(by.layout, scheme, typed(&points), base, None, false)?.into_response())
}

/// Moves, adds or takes away a point, or saves what is typed as the next
/// version.
pub(super) async fn post(state: AppState, Path(id): Path<SchemeId>, form: StaffForm) -> Reply {
    let scheme = newest(&state, &form.by, id).await?;
    let mut points = read(&form.pairs);
    let base = form.pairs.get("base").parse().unwrap_or(0);
    let layout = form.by.layout.clone();
    let button = form.pairs.get("act");
    if button != "save" {
        arrange(&mut points, button);
        return page(layout, scheme, points, base, None, true)?.reply();
    }
    let Some(new) = check(&mut points, method(&scheme)?) else {
        let page = page(layout, scheme, points, base, None, true)?;
        return page.refused();
    };
    let act = SaveScheme {
        scheme: id,
        base,
        points: new,
    };
    match state.act(&form.by, act).await.map_err(no_such)? {
        Ok(()) => go(format!("/schemes/{id}")),
        Err(NotSaved::NoPoints) => {
            let page = page(layout, scheme, points, base, Some(NO_POINTS), true)?;
            page.refused()
        }
        Err(NotSaved::Met) => {
            // What was typed stays; pressing again saves it after the newer one.
            let scheme = newest(&state, &form.by, id).await?;
            let newer = scheme.number;
            let page = page(layout, scheme, points, newer, Some(MET), true)?;
            Ok((StatusCode::CONFLICT, page).into_response())
        }
    }
}

const NO_POINTS: &str = refusal::NO_POINT;

const MET: &str = refusal::SCHEME_MET;

/// What a button other than *save* does to the list.
fn arrange(points: &mut Vec<TypedPoint>, button: &str) {
    let (what, at) = button.split_once('.').unwrap_or((button, ""));
    let at = at.parse::<usize>().ok().filter(|at| *at < points.len());
    match (what, at) {
        ("add", _) if points.len() < MOST_POINTS => points.push(TypedPoint {
            marks: TypedText::new("1"),
            judged: TypedText::new("eye"),
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
