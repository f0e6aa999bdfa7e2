//! A new class set: four boxes and a tick.

use analysis::method::Method;
use jiff::civil::Date;

use crate::acts::MakeClassSet;
use crate::db::class;
use crate::error::{AppError, Reply};
use crate::form::Pairs;
use crate::layout::{Layout, Page, go};
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
    state: &AppState,
    by: &SignedIn,
    typed: Typed,
    wrong: Wrong,
) -> Result<Page<CreatePage>, AppError> {
    let class_names = class::list_names(&mut state.reader(by).await?).await?;
    Ok(Page(CreatePage {
        layout: by.layout.clone(),
        typed,
        wrong,
        class_names,
        methods: Method::ALL,
    }))
}

/// The form, with what most lessons need in it.
pub(super) async fn get(state: AppState, by: SignedIn) -> Reply {
    let typed = Typed {
        class: String::new(),
        method: Method::ALL[0].code().to_owned(),
        date: state.zone.date(state.clock.now()).to_string(),
        groups: "10".to_owned(),
        is_exam: false,
    };
    page(&state, &by, typed, Wrong::default()).await?.reply()
}

/// Makes the class set and leads to its page.
pub(super) async fn post(state: AppState, form: StaffForm) -> Reply {
    let typed = read(&form.pairs);
    match check(&typed) {
        Ok(act) => {
            let id = state.act(&form.by, act).await?;
            go(format!("/class-sets/{id}"))
        }
        Err(wrong) => page(&state, &form.by, typed, wrong).await?.refused(),
    }
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

fn check(typed: &Typed) -> Result<MakeClassSet, Wrong> {
    let class_name = typed.class.split_whitespace().collect::<Vec<_>>().join(" ");
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
    let class_fault = match class_name.chars().count() {
        0 => Some("Type the name of the class, for instance 10B/Ph2."),
        1..=40 => None,
        _ => Some("Use at most 40 characters."),
    };
    match (class_fault, method, date, groups) {
        (None, Some(method), Some(held_on), Some(groups)) => Ok(MakeClassSet {
            class_name,
            method,
            held_on,
            groups,
            is_live: !typed.is_exam,
        }),
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
