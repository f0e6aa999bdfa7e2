//! The standard: everyone's marks of the anchors, point by point, and what was
//! ruled on each.

use axum::extract::Path;

use super::called_in_round;
use crate::db::round::{self, Marker, Round, Step};
use crate::db::ruling::Ruling;
use crate::db::scheme::MarkingPoint;
use crate::error::{AppError, Reply};
use crate::ids::RoundId;
use crate::layout::{Layout, Page};
use crate::report::moderation::may_see::{self, Hidden};
use crate::report::moderation::standard::{StandardLine, StandardPoint};
use crate::report::number;
use crate::session::SignedIn;
use crate::state::AppState;

/// A ruling that could not be taken.
pub(super) struct Refused {
    pub(super) key: i64,
    pub(super) text: String,
    pub(super) reason: &'static str,
}

#[derive(askama::Template)]
#[template(path = "moderation/standard.html")]
pub(super) struct StandardPage {
    layout: Layout,
    round: Round,
    markers: Vec<Marker>,
    totals: Vec<(String, Vec<String>)>,
    differing: Vec<PointLine>,
    agreeing: Vec<PointLine>,
}

struct PointLine {
    point: MarkingPoint,
    apart: i64,
    is_beyond_tolerance: bool,
    rows: Vec<Row>,
    ruling: Option<Ruling>,
    ruled: String,
    /// What is in the box: the ruling, or what could not be taken.
    text: String,
    wrong: Option<&'static str>,
}

struct Row {
    anchor: String,
    marks: Vec<String>,
    apart: i64,
    notes: Vec<(String, String)>,
}

/// The page.
pub(super) async fn get(state: AppState, by: SignedIn, Path(id): Path<RoundId>) -> Reply {
    page(&state, by, id, None).await?.reply()
}

/// The page, perhaps with a ruling that could not be taken.
pub(super) async fn page(
    state: &AppState,
    by: SignedIn,
    id: RoundId,
    refused: Option<Refused>,
) -> Result<Page<StandardPage>, AppError> {
    let mut db = state.reader(&by).await?;
    let round = round::get(&mut db, id).await?;
    let standard = may_see::standard(&mut db, &round, by.staff_id, by.is_head()).await?;
    drop(db);
    let standard = standard.map_err(hidden)?;
    let anchors: Vec<String> = standard.anchors.iter().map(called_in_round).collect();
    let now = state.clock.now();
    let when = |at| state.zone.time_or_day(at, now);
    let lines = standard.points.iter().map(|point| {
        let refused = refused.as_ref().filter(|r| r.key == point.point.key);
        line(point, &round, &anchors, refused, &when)
    });
    let (differing, agreeing) = lines.partition(|line| line.apart > 0);
    let totals = anchors.iter().zip(&standard.totals);
    Ok(Page(StandardPage {
        layout: by.layout,
        totals: totals
            .map(|(anchor, totals)| {
                (
                    anchor.clone(),
                    totals.iter().copied().map(number::marks).collect(),
                )
            })
            .collect(),
        markers: standard.markers,
        differing,
        agreeing,
        round,
    }))
}

/// Says why somebody does not see the standard.
pub(super) fn hidden(why: Hidden) -> AppError {
    match why {
        Hidden::NotShown => {
            AppError::NotFound("Everyone’s marks of the anchors are not shown yet.")
        }
        Hidden::NotTheirs => AppError::Forbidden(
            "The markers’ marks are for the markers of the round. What was ruled stands beside each marking point.",
        ),
        Hidden::Blind => AppError::Forbidden(
            "You are marking one of these anchors once more, without seeing other marks of it. This page opens when those are shown.",
        ),
    }
}

fn line(
    point: &StandardPoint,
    round: &Round,
    anchors: &[String],
    refused: Option<&Refused>,
    when: &dyn Fn(i64) -> String,
) -> PointLine {
    let apart = point.apart();
    let ruling = point.ruling.clone();
    let stands = ruling.as_ref().map_or("", |ruling| ruling.body.as_str());
    PointLine {
        apart,
        is_beyond_tolerance: apart > round.tolerance_point,
        rows: anchors
            .iter()
            .zip(&point.lines)
            .map(|(anchor, line)| row(anchor, line))
            .collect(),
        ruled: ruling
            .as_ref()
            .map_or_else(String::new, |ruling| when(ruling.at)),
        text: refused.map_or(stands, |r| r.text.as_str()).to_owned(),
        wrong: refused.map(|r| r.reason),
        ruling,
        point: point.point.clone(),
    }
}

fn row(anchor: &str, line: &StandardLine) -> Row {
    let given = line.marks.iter().map(|mark| {
        let awarded = mark.as_ref().and_then(|mark| mark.awarded);
        number::marks(awarded)
    });
    let notes = line
        .marks
        .iter()
        .flatten()
        .filter(|mark| !mark.note.is_empty());
    Row {
        anchor: anchor.to_owned(),
        marks: given.collect(),
        apart: line.apart(),
        notes: notes
            .map(|mark| (mark.by.clone(), mark.note.clone()))
            .collect(),
    }
}
