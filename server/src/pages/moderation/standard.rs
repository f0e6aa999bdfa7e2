//! The standard: everyone's marks of the anchors, point by point, and what was
//! ruled on each.

use axum::extract::Path;
use axum::http::StatusCode;
use axum::response::IntoResponse;

use crate::acts::{NotRuled, WriteRuling};
use crate::db::round::{self, Round, Step};
use crate::error::{AppError, Reply};
use crate::ids::RoundId;
use crate::layout::{Layout, Page, go};
use crate::report::moderation::may_see::{self, Hidden};
use crate::report::moderation::standard::{Standard, StandardPoint};
use crate::session::{SignedIn, StaffForm};
use crate::state::AppState;
use crate::words::moderation;
use crate::words::number;
use crate::words::refusal;
use crate::words::time::When;

const LONG: &str = refusal::AT_MOST_2000;
const NEWER: &str = moderation::RULING_MET;

/// A ruling that could not be taken.
struct Refused {
    key: i64,
    text: String,
    reason: &'static str,
}

#[derive(askama::Template)]
#[template(path = "moderation/standard.html")]
struct StandardPage {
    layout: Layout,
    round: Round,
    standard: Standard,
    when: When,
    refused: Option<Refused>,
}

impl StandardPage {
    /// The points on which markers differ, or the others.
    fn points(&self, are_differing: bool) -> Vec<&StandardPoint> {
        let points = self.standard.points.iter();
        points
            .filter(|point| (point.apart() > 0) == are_differing)
            .collect()
    }

    fn refused(&self, point: &StandardPoint) -> Option<&Refused> {
        let refused = self.refused.as_ref();
        refused.filter(|refused| refused.key == point.point.key)
    }

    /// What is in the box: the ruling, or what could not be taken.
    fn text<'a>(&'a self, point: &'a StandardPoint) -> &'a str {
        let stands = point.ruling.as_ref();
        let stands = stands.map_or("", |ruling| ruling.body.as_str());
        self.refused(point).map_or(stands, |refused| &refused.text)
    }
}

/// The page.
pub(super) async fn get(state: AppState, by: SignedIn, Path(id): Path<RoundId>) -> Reply {
    page(&state, by, id, None).await?.reply()
}

/// The page, perhaps with a ruling that could not be taken.
async fn page(
    state: &AppState,
    by: SignedIn,
    id: RoundId,
    refused: Option<Refused>,
) -> Result<Page<StandardPage>, AppError> {
    let mut db = state.reader(&by).await?;
    let round = round::get(&mut db, id).await?;
    let standard = may_see::standard(&mut db, &round, by.staff_id, by.is_head()).await?;
    drop(db);
    Ok(Page(StandardPage {
        layout: by.layout,
        round,
        standard: standard.map_err(hidden)?,
        when: state.when(),
        refused,
    }))
}

/// Keeps a ruling; a blank one takes the one before away. Where another ruling
/// has come since the page was opened, both are shown and nothing is kept.
pub(super) async fn post(state: AppState, Path(id): Path<RoundId>, form: StaffForm) -> Reply {
    let key: i64 = form.pairs.get("point").parse().unwrap_or(0);
    let text = form.pairs.text("ruling");
    let act = WriteRuling {
        round: id,
        key,
        body: text.clone(),
        // A form without it has seen none.
        seen: form.pairs.get("seen").parse().ok().filter(|id| *id != 0),
    };
    let (status, reason) = match state.act(&form.by, act).await? {
        Ok(()) => return go(format!("/moderation/{id}/standard#point-{key}")),
        Err(NotRuled::Hidden(why)) => return Err(hidden(why)),
        Err(NotRuled::Closed) => {
            return Err(AppError::Forbidden(moderation::ROUND_CLOSED_TO_RULINGS));
        }
        Err(NotRuled::NoSuchPoint) => {
            return Err(AppError::NotFound(refusal::NO_MARKING_POINT));
        }
        Err(NotRuled::Long) => (StatusCode::UNPROCESSABLE_ENTITY, LONG),
        Err(NotRuled::Newer) => (StatusCode::CONFLICT, NEWER),
    };
    let refused = Refused { key, text, reason };
    let page = page(&state, form.by, id, Some(refused)).await?;
    Ok((status, page).into_response())
}

/// Says why somebody does not see the standard.
fn hidden(why: Hidden) -> AppError {
    match why {
        Hidden::NotShown => AppError::NotFound(moderation::ANCHORS_NOT_SHOWN),
        Hidden::NotTheirs => AppError::Forbidden(moderation::STANDARD_FOR_MARKERS),
        Hidden::Blind => AppError::Forbidden(moderation::ANCHORS_BLIND),
    }
}
