//! A new class set: four boxes and a tick.

use analysis::method::Method;
use axum::extract::State;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use jiff::civil::Date;

use crate::db::class_set::{self, NewClassSet};
use crate::db::event::{self, NewEvent};
use crate::db::{Store, class};
use crate::error::AppError;
use crate::form::Pairs;
use crate::ids::ClassSetId;
use crate::layout::{Layout, Page};
use crate::session::{SignedIn, StaffForm};
use crate::state::AppState;

/// Most groups of one class set.
const MOST_GROUPS: u8 = 20;

/// What was typed, as typed.
#[derive(Debug)]
struct Typed {
    class: String,
    method: String,
    date: String,
    groups: String,
    /// Whether the practical is sat as an exam.
    is_exam: bool,
}

/// What is wrong with each box.
#[derive(Debug, Default)]
struct Wrong {
    class: Option<&'static str>,
    method: Option<&'static str>,
    date: Option<&'static str>,
    groups: Option<&'static str>,
}

#[derive(askama::Template)]
#[template(path = "class_set/create.html")]
struct CreatePage {
    layout: Layout,
    typed: Typed,
    wrong: Wrong,
    /// Names of classes used before.
    class_names: Vec<String>,
    methods: [Method; 2],
}

async fn page(
    store: &Store,
    layout: Layout,
    typed: Typed,
    wrong: Wrong,
) -> Result<Page<CreatePage>, AppError> {
    let class_names = class::list_names(&mut store.reader(crate::ids::DEPARTMENT).await?).await?;
    Ok(Page(CreatePage {
        layout,
        typed,
        wrong,
        class_names,
        methods: Method::ALL,
    }))
}

/// The form, with what most lessons need in it.
pub(super) async fn get(State(state): State<AppState>, by: SignedIn) -> Result<Response, AppError> {
    let typed = Typed {
        class: String::new(),
        method: Method::RippleTank.code().to_owned(),
        date: state.zone.date(state.clock.now()).to_string(),
        groups: "10".to_owned(),
        is_exam: false,
    };
    Ok(page(&state.store, by.layout, typed, Wrong::default())
        .await?
        .into_response())
}

/// Makes the class set and leads to its page.
pub(super) async fn post(
    State(state): State<AppState>,
    form: StaffForm,
) -> Result<Response, AppError> {
    let typed = read(&form.pairs);
    match check(&typed) {
        Ok((class_name, method, held_on, groups)) => {
            let (created_by, made_at) = (form.by.staff_id, state.clock.now());
            let new = NewClassSet {
                class_name,
                method,
                held_on,
                groups,
                is_live: !typed.is_exam,
                created_by,
                made_at,
            };
            let id = make(&state.store, new).await?;
            Ok(Redirect::to(&format!("/class-sets/{id}")).into_response())
        }
        Err(wrong) => {
            let page = page(&state.store, form.by.layout, typed, wrong).await?;
            Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response())
        }
    }
}

async fn make(store: &Store, new: NewClassSet) -> Result<ClassSetId, AppError> {
    let made = store.writer().run(move |db| {
        Box::pin(async move {
            let id = class_set::insert(db, &new).await?;
            let what = NewEvent {
                at: new.made_at,
                what: "set_made",
                staff_id: Some(new.created_by),
                class_set_id: Some(id),
                detail: if new.is_live { "" } else { "live pages off" },
            };
            event::insert(db, &what).await?;
            Ok(id)
        })
    });
    Ok(made.await?)
}

fn read(pairs: &Pairs) -> Typed {
    let text = |name| pairs.get(name).to_owned();
    Typed {
        class: text("class"),
        method: text("method"),
        date: text("date"),
        groups: text("groups"),
        is_exam: pairs.get("exam") == "yes",
    }
}

fn check(typed: &Typed) -> Result<(String, Method, Date, u8), Wrong> {
    let class = typed.class.split_whitespace().collect::<Vec<_>>().join(" ");
    let method = Method::from_code(&typed.method);
    let date = typed
        .date
        .trim()
        .parse::<Date>()
        .ok()
        .filter(|d| (2000..2100).contains(&d.year()));
    let groups = typed
        .groups
        .trim()
        .parse()
        .ok()
        .filter(|n| (1..=MOST_GROUPS).contains(n));
    let class_fault = match class.chars().count() {
        0 => Some("Type the name of the class, for instance 10B/Ph2."),
        1..=40 => None,
        _ => Some("Use at most 40 characters."),
    };
    match (class_fault, method, date, groups) {
        (None, Some(method), Some(date), Some(groups)) => Ok((class, method, date, groups)),
        _ => Err(Wrong {
            class: class_fault,
            method: method.is_none().then_some("Choose the practical."),
            date: date.is_none().then_some(
                "Type the date of the lesson as year-month-day, for instance 2026-11-24.",
            ),
            groups: groups
                .is_none()
                .then_some("Type a whole number of groups, from 1 to 20."),
        }),
    }
}
