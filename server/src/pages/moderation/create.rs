//! A new round: which scheme, then what it is about.

use std::collections::{BTreeMap, HashMap};

use axum::extract::Query;
use serde::Deserialize;

use crate::acts::{MakeRound, NotMade};
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
use crate::words::moderation;
use crate::words::refusal;

/// Widest tolerance that can be typed, in marks.
const WIDEST: i64 = 50;

const NO_CLASS_SET: &str = moderation::ONE_CLASS_SET;
const NO_MARKER: &str = moderation::ONE_MARKER_AT_LEAST;

/// Which scheme is asked for.
#[derive(Debug, Deserialize)]
pub(super) struct Asked {
    scheme: Option<i64>,
}

/// What is wrong, by the name of the box.
type Wrong = BTreeMap<&'static str, &'static str>;

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
    form: Form,
    typed: Pairs,
    wrong: Wrong,
}

impl CreatePage {
    /// Whether a class set or a marker is ticked.
    fn is_ticked(&self, group: &str, id: i64) -> bool {
        !self.typed.get(&format!("{group}.{id}")).is_empty()
    }
}

/// The choice of a scheme; with one, the form.
pub(super) async fn get(state: AppState, by: SignedIn, Query(asked): Query<Asked>) -> Reply {
    let Some(scheme) = asked.scheme else {
        return choose(&state, by).await;
    };
    let form = Form::load(&state, &by, SchemeId(scheme)).await?;
    let page = CreatePage {
        layout: by.layout,
        typed: form.usual(),
        form,
        wrong: Wrong::new(),
    };
    Page(page).reply()
}

/// Makes the round and leads to its page.
pub(super) async fn post(state: AppState, Query(asked): Query<Asked>, form: StaffForm) -> Reply {
    let scheme = asked
        .scheme
        .ok_or(AppError::BadRequest(moderation::SCHEME_FIRST))?;
    let scheme = SchemeId(scheme);
    let typed = form.pairs;
    let offered = Form::load(&state, &form.by, scheme).await?;
    let wrong = match offered.check(&typed) {
        Ok(new) => match state.act(&form.by, MakeRound(new)).await? {
            Ok(id) => return go(format!("/moderation/{id}")),
            Err(NotMade::ClassSets) => Wrong::from([("class_sets", NO_CLASS_SET)]),
            Err(NotMade::Markers) => Wrong::from([("markers", NO_MARKER)]),
        },
        Err(wrong) => wrong,
    };
    // What can be chosen may be something else by now.
    let page = CreatePage {
        form: Form::load(&state, &form.by, scheme).await?,
        layout: form.by.layout,
        typed,
        wrong,
    };
    Page(page).refused()
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
    Page(ChoosePage { layout, schemes }).reply()
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
            scheme: scheme.ok_or(AppError::NotFound(refusal::NO_SCHEME))?,
            class_sets: round::list_possible_class_sets(&mut db, id).await?,
            staff: staff::list(&mut db).await?,
        })
    }

    /// The form before anything is typed: every class set that is marked,
    /// every colleague, the usual tolerances, a seed that nobody chose.
    fn usual(&self) -> Pairs {
        let marked = self.class_sets.iter().filter(|set| set.scheme_id.is_some());
        let class_sets = marked.map(|set| format!("class_set.{}", set.id));
        let markers = self.staff.iter().map(|one| format!("marker.{}", one.id));
        let ticked = class_sets
            .chain(markers)
            .map(|name| (name, "on".to_owned()));
        let boxes = [
            ("tolerance_total", "2".to_owned()),
            ("tolerance_point", "1".to_owned()),
            ("seed", secret::seed()),
        ];
        let boxes = boxes.map(|(name, text)| (name.to_owned(), text));
        Pairs(boxes.into_iter().chain(ticked).collect())
    }

    fn check(&self, typed: &Pairs) -> Result<NewRound, Wrong> {
        let name = typed.get("name").split_whitespace();
        let name = name.collect::<Vec<_>>().join(" ");
        let seed = typed.trimmed("seed");
        let total = marks(typed.trimmed("tolerance_total"));
        let point = marks(typed.trimmed("tolerance_point"));
        let ticked = |group: &str, id: String| typed.ticked(group).any(|ticked| ticked == id);
        let class_sets = self.class_sets.iter().map(|set| set.id);
        let class_sets: Vec<ClassSetId> = class_sets
            .filter(|id| ticked("class_set", id.to_string()))
            .collect();
        let markers = self.staff.iter().map(|person| person.id);
        let markers: Vec<StaffId> = markers
            .filter(|id| ticked("marker", id.to_string()))
            .collect();
        let whole = moderation::HOW_MANY_MARKS;
        let checks = [
            ("name", name.is_empty(), moderation::NAME_OF_ROUND),
            ("name", name.chars().count() > 80, refusal::AT_MOST_80),
            ("class_sets", class_sets.is_empty(), NO_CLASS_SET),
            ("markers", markers.is_empty(), NO_MARKER),
            ("tolerance_total", total.is_none(), whole),
            ("tolerance_point", point.is_none(), whole),
            (
                "seed",
                !(1..=40).contains(&seed.chars().count()),
                moderation::SEED,
            ),
        ];
        let wrong = checks.into_iter().filter(|(_, is_wrong, _)| *is_wrong);
        let wrong: Wrong = wrong.map(|(name, _, sentence)| (name, sentence)).collect();
        match (total, point) {
            (Some(tolerance_total), Some(tolerance_point)) if wrong.is_empty() => Ok(NewRound {
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
    let marks = text.parse().ok()?;
    (0..=WIDEST).contains(&marks).then_some(marks)
}
