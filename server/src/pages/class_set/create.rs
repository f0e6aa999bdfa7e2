//! A new class set: four boxes and a tick.

use analysis::method::Method;
use jiff::civil::Date;

use crate::acts::MakeClassSet;
use crate::db::class;
use crate::web::error::{AppError, Reply};
use crate::web::form::TypedText;
use crate::web::layout::{Layout, Page, go};
use crate::web::session::{SignedIn, StaffForm};
use crate::web::state::AppState;
use crate::words::refusal;

/// Most groups of one class set.
const MOST_GROUPS: u8 = 20;

#[derive(Debug)]
struct ClassSetTyped {
    class: TypedText,
    method: TypedText,
    date: TypedText,
    groups: TypedText,
    /// Whether the practical is sat as an exam.
    is_exam: bool,
}

#[derive(askama::Template)]
#[template(path = "class_set/create.html")]
struct CreatePage {
    layout: Layout,
    typed: ClassSetTyped,
    /// Names of classes used before.
    class_names: Vec<String>,
    methods: [Method; Method::ALL.len()],
}

async fn page(
    state: &AppState,
    by: &SignedIn,
    typed: ClassSetTyped,
) -> Result<Page<CreatePage>, AppError> {
    let class_names = class::list_names(&mut state.reader(by).await?).await?;
    Ok(Page(CreatePage {
        layout: by.layout.clone(),
        typed,
        class_names,
        methods: Method::ALL,
    }))
}

/// Shows the form, with what most lessons need in it.
pub(super) async fn get(state: AppState, by: SignedIn) -> Reply {
    let typed = ClassSetTyped {
        class: TypedText::default(),
        method: TypedText::new(Method::ALL[0].code()),
        date: TypedText::new(state.zone.date(state.clock.now()).to_string()),
        groups: TypedText::new("10"),
        is_exam: false,
    };
    page(&state, &by, typed).await?.reply()
}

/// Makes the class set and leads to its page.
pub(super) async fn post(state: AppState, form: StaffForm) -> Reply {
    let pairs = &form.pairs;
    let mut typed = ClassSetTyped {
        class: pairs.typed_in("class"),
        method: pairs.typed_in("method"),
        date: pairs.typed_in("date"),
        groups: pairs.typed_in("groups"),
        is_exam: pairs.get("exam") == "yes",
    };
    match check(&mut typed) {
        Some(act) => {
            let id = state.act(&form.by, act).await?;
            go(format!("/class-sets/{id}"))
        }
        None => page(&state, &form.by, typed).await?.refused(),
    }
}

fn check(typed: &mut ClassSetTyped) -> Option<MakeClassSet> {
    let class_name = typed.class.check(|text| {
        let name = text.split_whitespace().collect::<Vec<_>>().join(" ");
        match name.chars().count() {
            0 => Err(refusal::NAME_OF_CLASS),
            1..=40 => Ok(name),
            _ => Err(refusal::AT_MOST_40),
        }
    });
    let method = typed
        .method
        .check(|code| Method::from_code(code).ok_or(refusal::WHICH_PRACTICAL));
    let held_on = typed.date.check(|text| {
        let date = text.parse::<Date>().ok();
        let date = date.filter(|date| (2000..2100).contains(&date.year()));
        date.ok_or(refusal::DATE_OF_LESSON)
    });
    let groups = typed.groups.check(|text| {
        let groups = text.parse().ok();
        let groups = groups.filter(|n| (1..=MOST_GROUPS).contains(n));
        groups.ok_or(refusal::HOW_MANY_GROUPS)
    });
    Some(MakeClassSet {
        class_name: class_name?,
        method: method?,
        held_on: held_on?,
        groups: groups?,
        is_live: !typed.is_exam,
    })
}
