//! A new round: which scheme, then what it is about.

use std::collections::{HashMap, HashSet};

use axum::extract::Query;
use axum::response::IntoResponse;
use serde::Deserialize;

use crate::acts::{MakeRound, NotMade};
use crate::clock::long_date;
use crate::db::round::{self, ClassSetOfRound, NewRound};
use crate::db::scheme::{self, Scheme};
use crate::db::staff::{self, Staff};
use crate::error::{AppError, Reply};
use crate::form::Pairs;
use crate::ids::{ClassSetId, SchemeId, StaffId};
use crate::layout::{Layout, Page, go};
use crate::secret;
use crate::session::{SignedIn, StaffForm};
use crate::state::AppState;

/// Widest tolerance that can be typed, in marks.
const WIDEST: i64 = 50;

const NO_CLASS_SET: &str = "Choose at least one class set.";
const NO_MARKER: &str = "Choose at least one marker.";

/// Which scheme is asked for.
#[derive(Debug, Deserialize)]
pub(super) struct Asked {
    scheme: Option<i64>,
}

/// What was typed, as typed.
#[derive(Debug)]
struct Typed {
    name: String,
    class_sets: HashSet<String>,
    markers: HashSet<String>,
    tolerance_total: String,
    tolerance_point: String,
    seed: String,
}

/// What is wrong with each box.
#[derive(Debug, Default)]
struct Wrong {
    name: Option<&'static str>,
    class_sets: Option<&'static str>,
    markers: Option<&'static str>,
    tolerance_total: Option<&'static str>,
    tolerance_point: Option<&'static str>,
    seed: Option<&'static str>,
}

impl Wrong {
    fn is_any(&self) -> bool {
        let all = [
            self.name,
            self.class_sets,
            self.markers,
            self.tolerance_total,
            self.tolerance_point,
            self.seed,
        ];
        all.iter().any(Option::is_some)
    }
}

#[derive(askama::Template)]
#[template(path = "moderation/choose_scheme.html")]
struct ChoosePage {
    layout: Layout,
    schemes: Vec<SchemeLine>,
}

struct SchemeLine {
    scheme: Scheme,
    practical: &'static str,
    marked: i64,
}

#[derive(askama::Template)]
#[template(path = "moderation/create.html")]
struct CreatePage {
    layout: Layout,
    scheme: Scheme,
    class_sets: Vec<ClassSetLine>,
    staff: Vec<Staff>,
    typed: Typed,
    wrong: Wrong,
}

struct ClassSetLine {
    class_set: ClassSetOfRound,
    id: String,
    date: String,
}

/// The choice of a scheme; with one, the form.
pub(super) async fn get(state: AppState, by: SignedIn, Query(asked): Query<Asked>) -> Reply {
    let Some(scheme) = asked.scheme else {
        return choose(&state, by).await;
    };
    let form = Form::load(&state, &by, SchemeId(scheme)).await?;
    let typed = form.usual();
    let page = form.page(by.layout, typed, Wrong::default());
    page.reply()
}

/// Makes the round and leads to its page.
pub(super) async fn post(state: AppState, Query(asked): Query<Asked>, form: StaffForm) -> Reply {
    let scheme = asked
        .scheme
        .ok_or(AppError::BadRequest("Choose the scheme first."))?;
    let scheme = SchemeId(scheme);
    let typed = read(&form.pairs);
    let offered = Form::load(&state, &form.by, scheme).await?;
    let wrong = match offered.check(&typed) {
        Ok(new) => match state.act(&form.by, MakeRound(new)).await? {
            Ok(id) => return go(format!("/moderation/{id}")),
            Err(NotMade::ClassSets) => Wrong {
                class_sets: Some(NO_CLASS_SET),
                ..Wrong::default()
            },
            Err(NotMade::Markers) => Wrong {
                markers: Some(NO_MARKER),
                ..Wrong::default()
            },
        },
        Err(wrong) => wrong,
    };
    // What can be chosen may be something else by now.
    let offered = Form::load(&state, &form.by, scheme).await?;
    let page = offered.page(form.by.layout, typed, wrong);
    page.refused()
}

async fn choose(state: &AppState, by: SignedIn) -> Reply {
    let mut db = state.reader(&by).await?;
    let schemes = scheme::list(&mut db).await?;
    let marked: HashMap<SchemeId, i64> = round::count_marked(&mut db).await?.into_iter().collect();
    drop(db);
    let schemes = schemes.into_iter().map(|scheme| {
        let method = analysis::method::Method::from_code(&scheme.method);
        SchemeLine {
            practical: method.map_or("", crate::words::title),
            marked: marked.get(&scheme.id).copied().unwrap_or(0),
            scheme,
        }
    });
    let schemes = schemes.collect();
    let layout = by.layout;
    Ok(Page(ChoosePage { layout, schemes }).into_response())
}

/// What the form offers.
struct Form {
    scheme: Scheme,
    class_sets: Vec<ClassSetOfRound>,
    staff: Vec<Staff>,
}

impl Form {
    async fn load(state: &AppState, by: &SignedIn, id: SchemeId) -> Result<Self, AppError> {
        let mut db = state.reader(by).await?;
        let schemes = scheme::list(&mut db).await?;
        let scheme = schemes.into_iter().find(|scheme| scheme.id == id);
        Ok(Self {
            scheme: scheme.ok_or(AppError::NotFound("There is no such scheme."))?,
            class_sets: round::list_possible_class_sets(&mut db, id).await?,
            staff: staff::list(&mut db).await?,
        })
    }

    /// The form before anything is typed: every class set that is marked,
    /// every colleague, the usual tolerances, a seed that nobody chose.
    fn usual(&self) -> Typed {
        let marked = self.class_sets.iter().filter(|set| set.scheme_id.is_some());
        Typed {
            name: String::new(),
            class_sets: marked.map(|set| set.id.to_string()).collect(),
            markers: self
                .staff
                .iter()
                .map(|person| person.id.to_string())
                .collect(),
            tolerance_total: "2".to_owned(),
            tolerance_point: "1".to_owned(),
            seed: secret::seed(),
        }
    }

    fn page(self, layout: Layout, typed: Typed, wrong: Wrong) -> Page<CreatePage> {
        let class_sets = self.class_sets.into_iter().map(|class_set| ClassSetLine {
            id: class_set.id.to_string(),
            date: long_date(&class_set.held_on),
            class_set,
        });
        Page(CreatePage {
            layout,
            class_sets: class_sets.collect(),
            scheme: self.scheme,
            staff: self.staff,
            typed,
            wrong,
        })
    }

    fn check(&self, typed: &Typed) -> Result<NewRound, Wrong> {
        let name = typed.name.split_whitespace().collect::<Vec<_>>().join(" ");
        let seed = typed.seed.trim();
        let (total, point) = (marks(&typed.tolerance_total), marks(&typed.tolerance_point));
        let class_sets: Vec<ClassSetId> = self
            .class_sets
            .iter()
            .map(|set| set.id)
            .filter(|id| typed.class_sets.contains(&id.to_string()))
            .collect();
        let markers: Vec<StaffId> = self
            .staff
            .iter()
            .map(|person| person.id)
            .filter(|id| typed.markers.contains(&id.to_string()))
            .collect();
        let whole = "Type a whole number of marks, from 0 to 50.";
        let wrong = Wrong {
            name: match name.chars().count() {
                0 => Some("Type what to call it, for instance Autumn ripple tank."),
                1..=80 => None,
                _ => Some("Use at most 80 characters."),
            },
            class_sets: class_sets.is_empty().then_some(NO_CLASS_SET),
            markers: markers.is_empty().then_some(NO_MARKER),
            tolerance_total: total.is_none().then_some(whole),
            tolerance_point: point.is_none().then_some(whole),
            seed: (!(1..=40).contains(&seed.chars().count()))
                .then_some("Type the seed, at most 40 characters."),
        };
        match (total, point) {
            (Some(tolerance_total), Some(tolerance_point)) if !wrong.is_any() => Ok(NewRound {
                name,
                scheme: self.scheme.id,
                tolerance_total,
                tolerance_point,
                seed: seed.to_owned(),
                class_sets,
                markers,
            }),
            _ => Err(wrong),
        }
    }
}

fn marks(text: &str) -> Option<i64> {
    let marks = text.trim().parse().ok()?;
    (0..=WIDEST).contains(&marks).then_some(marks)
}

fn read(pairs: &Pairs) -> Typed {
    let text = |name| pairs.get(name).to_owned();
    Typed {
        name: text("name"),
        class_sets: pairs.ticked("class_set").map(str::to_owned).collect(),
        markers: pairs.ticked("marker").map(str::to_owned).collect(),
        tolerance_total: text("tolerance_total"),
        tolerance_point: text("tolerance_point"),
        seed: text("seed"),
    }
}
