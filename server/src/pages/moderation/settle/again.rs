//! Having a point marked again for a whole class, or all of the class; and
//! taking that back.

use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};

use super::{Form, Refused, find, reason, show};
use crate::db::round::{self, Round};
use crate::db::settlement::{About, Kind, NewSettlement};
use crate::error::AppError;
use crate::form::Pairs;
use crate::ids::{ClassSetId, RoundId, SettlementId};
use crate::report::moderation::settle::{Outcome, settle};
use crate::report::moderation::settling::{Settling, newest};
use crate::session::StaffForm;
use crate::state::AppState;

/// As which a form sends every point.
pub(super) const ALL: &str = "all";

/// Decides that a class is marked again, or with `back` that it is not after
/// all.
pub(super) async fn post(
    State(state): State<AppState>,
    Path(id): Path<RoundId>,
    form: StaffForm,
) -> Result<Response, AppError> {
    let mut db = state.reader(&form.by).await?;
    let (round, settling) = find(&mut db, &form.by, id).await?;
    let class_sets = round::list_class_sets(&mut db, id).await?;
    drop(db);
    let class_sets: Vec<ClassSetId> = class_sets.iter().map(|set| set.id).collect();
    match read(&form.pairs, &settling, &class_sets) {
        Err(sentence) => {
            let refused = Refused {
                form: Form::Again {
                    class_set: form.pairs.get("class_set").to_owned(),
                },
                chosen: form.pairs.get("point").to_owned(),
                reason: form.pairs.get("reason").to_owned(),
                sentence,
            };
            let page = show::page(&state, form.by, id, Some(refused)).await?;
            Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response())
        }
        Ok((class_set, point_key, kind, reason)) => {
            let seen = newest(&settling.settlements, About::Class(class_set), point_key);
            let seen = seen.map(|one| one.id);
            // A decision that is taken back is the one that was on the page.
            let on_page = form.pairs.get("seen");
            if kind == Kind::NotAgain && on_page != seen.map_or(0, |id| id.0).to_string() {
                return Ok(Redirect::to(&format!("/moderation/{id}/settle#again")).into_response());
            }
            let new = NewSettlement {
                round_id: id,
                about: About::Class(class_set),
                point_key,
                kind,
                agreed: None,
                reason,
                staff_id: form.by.staff_id,
                at: state.clock.now(),
            };
            keep(&state, round, new, seen).await?;
            Ok(Redirect::to(&format!("/moderation/{id}/settle#again")).into_response())
        }
    }
}

/// Where somebody was faster, their decision stays: it is on the page.
async fn keep(
    state: &AppState,
    round: Round,
    new: NewSettlement,
    seen: Option<SettlementId>,
) -> Result<(), AppError> {
    let write = state
        .store
        .writer()
        .run(move |db| Box::pin(async move { settle(db, &round, &new, seen, &[]).await }));
    match write.await? {
        Outcome::NotNow => Err(AppError::Forbidden(
            "The round is closed: its record does not change.",
        )),
        Outcome::Settled | Outcome::Met => Ok(()),
    }
}

/// The class, the point (`None`: all of them), what is decided and why; the
/// error says what is wrong with the form.
fn read(
    pairs: &Pairs,
    settling: &Settling,
    class_sets: &[ClassSetId],
) -> Result<(ClassSetId, Option<i64>, Kind, String), &'static str> {
    let class_set = pairs.get("class_set").parse().ok().map(ClassSetId);
    let class_set = class_set
        .filter(|id| class_sets.contains(id))
        .ok_or("Choose the class.")?;
    let point = match pairs.get("point") {
        ALL => None,
        typed => {
            let mut points = settling.points.values().flatten();
            let key = typed.parse().ok();
            let point = points.find(|point| Some(point.key) == key);
            Some(point.ok_or("Choose a point, or all of them.")?.key)
        }
    };
    let kind = match pairs.get("back") {
        "yes" => Kind::NotAgain,
        _ => Kind::Again,
    };
    Ok((class_set, point, kind, reason(pairs.get("reason"))?))
}
