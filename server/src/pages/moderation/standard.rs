//! The standard: everyone's marks of the anchors, point by point, and what was
//! ruled on each.

use axum::extract::Path;
use axum::http::StatusCode;
use axum::response::IntoResponse;

use crate::acts::{NotRuled, WriteRuling};
use crate::db::round::{self, Round, Step};
use crate::db::round_sheet::RoundSheet;
use crate::ids::RoundId;
use crate::report::moderation::may_see::{self, Hidden};
use crate::report::moderation::standard::{Standard, StandardLine, StandardPoint, apart};
use crate::table::{Cell, Columns, PageTable, Table};
use crate::web::error::{AppError, Reply};
use crate::web::form::TypedText;
use crate::web::layout::{Layout, Page, go};
use crate::web::session::{SignedIn, StaffForm};
use crate::web::state::AppState;
use crate::words::moderation;
use crate::words::number;
use crate::words::refusal;
use crate::words::time::When;

const LONG: &str = refusal::AT_MOST_2000;
const NEWER: &str = moderation::RULING_MET;

/// A ruling that could not be taken, with the key of its point.
type RefusedReason = (i64, TypedText);

/// An anchor, and what each marker gave it.
type SheetAndMarks<'a> = (&'a RoundSheet, Vec<Option<i64>>);

#[derive(askama::Template)]
#[template(path = "moderation/standard.html")]
struct StandardPage {
    layout: Layout,
    round: Round,
    standard: Standard,
    when: When,
    refused: Option<RefusedReason>,
}

impl StandardPage {
    /// Returns the points on which markers differ, or the others.
    fn points(&self, are_differing: bool) -> Vec<&StandardPoint> {
        let points = self.standard.points.iter();
        points
            .filter(|point| (point.apart() > 0) == are_differing)
            .collect()
    }

    /// Returns the box of a point: the ruling, or what could not be taken.
    fn typed(&self, point: &StandardPoint) -> TypedText {
        match &self.refused {
            Some((key, typed)) if *key == point.point.key => typed.clone(),
            _ => {
                let stands = point.ruling.as_ref();
                TypedText::new(stands.map_or("", |ruling| &ruling.body))
            }
        }
    }

    /// Begins a table with a column for each marker: what each gave of an
    /// anchor.
    fn by_marker<'t>(&self, lines: &'t [SheetAndMarks<'t>]) -> Columns<'t, SheetAndMarks<'t>> {
        let mut table = Table::of(lines).text("Anchor", |(anchor, _)| anchor.called());
        for (at, marker) in self.standard.markers.iter().enumerate() {
            table = table.figure(&marker.name, |(_, marks)| number::marks(marks[at]));
        }
        table
    }

    fn totals(&self) -> PageTable {
        let anchors = self.standard.anchors.iter();
        let lines: Vec<_> = anchors.zip(self.standard.totals.iter().cloned()).collect();
        self.by_marker(&lines).on_page(
            "Totals of the anchors",
            "All marks of each anchor; a dash where a marker has not finished",
        )
    }

    fn marks(&self, point: &StandardPoint) -> PageTable {
        let awarded = point.lines.iter().map(StandardLine::awarded);
        let lines: Vec<_> = self.standard.anchors.iter().zip(awarded).collect();
        self.by_marker(&lines)
            .figure("Apart", |(_, marks)| match apart(marks) {
                0 => Cell::from(0),
                apart => Cell::from(apart).strong(),
            })
            .on_page(
                format!("Marks on point {}", point.point.number),
                "Marks on this point",
            )
    }
}

/// Shows the page.
pub(super) async fn get(state: AppState, by: SignedIn, Path(id): Path<RoundId>) -> Reply {
    page(&state, by, id, None).await?.reply()
}

/// Returns the page, perhaps with a ruling that could not be taken.
async fn page(
    state: &AppState,
    by: SignedIn,
    id: RoundId,
    refused: Option<RefusedReason>,
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
    let mut typed = TypedText::new(form.pairs.text("ruling"));
    let act = WriteRuling {
        round: id,
        key,
        body: typed.text.clone(),
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
    typed.refuse(reason);
    let page = page(&state, form.by, id, Some((key, typed))).await?;
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
