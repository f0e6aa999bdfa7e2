//! A new round: which scheme, then what it is about.

use std::collections::HashMap;

use axum::extract::Query;
use serde::Deserialize;

use crate::acts::{MakeRound, NotMade};
use crate::db::round::{self, ClassSetOfRound, NewRound};
use crate::db::scheme::{self, Scheme};
use crate::db::staff::{self, Staff};
use crate::ids::SchemeId;
use crate::secret;
use crate::web::error::{AppError, Reply};
use crate::web::form::{Pairs, TypedText};
use crate::web::layout::{Layout, Page, go};
use crate::web::session::{SignedIn, StaffForm};
use crate::web::state::AppState;
use crate::words::moderation;
use crate::words::refusal;

/// Widest tolerance that can be typed, in marks.
const WIDEST: i64 = 50;

const NO_CLASS_SET: &str = moderation::ONE_CLASS_SET;
const NO_MARKER: &str = moderation::ONE_MARKER_AT_LEAST;

/// Which scheme is asked for.
#[derive(Debug, Deserialize)]
pub(super) struct RoundQuery {
    scheme: Option<i64>,
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
    offered: Offered,
    typed: RoundTyped,
}

/// The form as typed.
#[derive(Debug)]
struct RoundTyped {
    name: TypedText,
    class_sets: Ticked,
    markers: Ticked,
    tolerance_total: TypedText,
    tolerance_point: TypedText,
    seed: TypedText,
}

/// What is ticked of a group of boxes, by id, and what is wrong with that.
#[derive(Debug)]
struct Ticked {
    ids: Vec<String>,
    wrong: Option<&'static str>,
}

impl Ticked {
    fn of(ids: impl IntoIterator<Item = impl ToString>) -> Self {
        let ids = ids.into_iter().map(|id| id.to_string());
        Self {
            ids: ids.collect(),
            wrong: None,
        }
    }

    fn has(&self, id: &impl ToString) -> bool {
        self.ids.contains(&id.to_string())
    }

    /// Those that are offered and ticked. Returns `None` when nothing is.
    fn check<Id: ToString>(
        &mut self,
        offered: impl Iterator<Item = Id>,
        none: &'static str,
    ) -> Option<Vec<Id>> {
        let chosen: Vec<Id> = offered.filter(|id| self.has(id)).collect();
        self.wrong = chosen.is_empty().then_some(none);
        (!chosen.is_empty()).then_some(chosen)
    }
}

/// Shows the choice of a scheme; with one, the form.
pub(super) async fn get(state: AppState, by: SignedIn, Query(asked): Query<RoundQuery>) -> Reply {
    let Some(scheme) = asked.scheme else {
        return choose(&state, by).await;
    };
    let offered = Offered::load(&state, &by, SchemeId(scheme)).await?;
    let page = CreatePage {
        layout: by.layout,
        typed: RoundTyped::usual(&offered),
        offered,
    };
    Page(page).reply()
}

/// Makes the round and leads to its page.
pub(super) async fn post(
    state: AppState,
    Query(asked): Query<RoundQuery>,
    form: StaffForm,
) -> Reply {
    let scheme = asked
        .scheme
        .ok_or(AppError::BadRequest(moderation::SCHEME_FIRST))?;
    let scheme = SchemeId(scheme);
    let mut typed = RoundTyped::read(&form.pairs);
    let offered = Offered::load(&state, &form.by, scheme).await?;
    if let Some(new) = typed.check(&offered) {
        match state.act(&form.by, MakeRound(new)).await? {
            Ok(id) => return go(format!("/moderation/{id}")),
            Err(NotMade::ClassSets) => typed.class_sets.wrong = Some(NO_CLASS_SET),
            Err(NotMade::Markers) => typed.markers.wrong = Some(NO_MARKER),
        }
    }
    // What can be chosen may be something else by now.
    let page = CreatePage {
        offered: Offered::load(&state, &form.by, scheme).await?,
        layout: form.by.layout,
        typed,
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
struct Offered {
    scheme: Scheme,
    class_sets: Vec<ClassSetOfRound>,
    staff: Vec<Staff>,
}

impl Offered {
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
}

impl RoundTyped {
    /// Returns the form before anything is typed: every class set that is
    /// marked, every colleague, the usual tolerances, a seed that nobody
    /// chose.
    fn usual(offered: &Offered) -> Self {
        let marked = offered
            .class_sets
            .iter()
            .filter(|set| set.scheme_id.is_some());
        Self {
            name: TypedText::default(),
            class_sets: Ticked::of(marked.map(|set| set.id)),
            markers: Ticked::of(offered.staff.iter().map(|person| person.id)),
            tolerance_total: TypedText::new("2"),
            tolerance_point: TypedText::new("1"),
            seed: TypedText::new(secret::seed()),
        }
    }

    fn read(pairs: &Pairs) -> Self {
        Self {
            name: pairs.typed_in("name"),
            class_sets: Ticked::of(pairs.ticked("class_set")),
            markers: Ticked::of(pairs.ticked("marker")),
            tolerance_total: pairs.typed_in("tolerance_total"),
            tolerance_point: pairs.typed_in("tolerance_point"),
            seed: pairs.typed_in("seed"),
        }
    }

    /// Returns the round that the boxes stand for. Returns `None` when one
    /// cannot be taken.
    fn check(&mut self, offered: &Offered) -> Option<NewRound> {
        let name = self.name.check(|text| {
            let name = text.split_whitespace().collect::<Vec<_>>().join(" ");
            match name.chars().count() {
                0 => Err(moderation::NAME_OF_ROUND),
                1..=80 => Ok(name),
                _ => Err(refusal::AT_MOST_80),
            }
        });
        let class_sets = offered.class_sets.iter().map(|set| set.id);
        let class_sets = self.class_sets.check(class_sets, NO_CLASS_SET);
        let markers = offered.staff.iter().map(|person| person.id);
        let markers = self.markers.check(markers, NO_MARKER);
        let tolerance_total = self.tolerance_total.check(marks);
        let tolerance_point = self.tolerance_point.check(marks);
        let seed = self.seed.check(|seed| match seed.chars().count() {
            1..=40 => Ok(seed.to_owned()),
            _ => Err(moderation::SEED),
        });
        Some(NewRound {
            name: name?,
            scheme: offered.scheme.id,
            tolerance_total: tolerance_total?,
            tolerance_point: tolerance_point?,
            seed: seed?,
            class_sets: class_sets?,
            markers: markers?,
        })
    }
}

fn marks(text: &str) -> Result<i64, &'static str> {
    let marks = text
        .parse()
        .ok()
        .filter(|marks| (0..=WIDEST).contains(marks));
    marks.ok_or(moderation::HOW_MANY_MARKS)
}
