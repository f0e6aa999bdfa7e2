//! The comparison of a round: what first and second marks say of the markers
//! and of the marking points.
//!
//! Comparing people is for the head of department. Whoever else marked in the
//! round sees the whole, the points and their own lines; sheets that they did
//! not mark have no name there, since a name leads to who marked it.

mod csv;
pub(super) mod figures;
mod view;

use axum::extract::Path;
use axum::http::StatusCode;
use axum::response::IntoResponse;

use self::figures::Figure;
use self::view::{Card, PointLine, SheetLine, View};
use super::closed;
use crate::access::Access::Staff;
use crate::access::Routes;
use crate::chart::Graph;
use crate::db::Connection;
use crate::db::round::{self, Round, Step};
use crate::db::round_sheet;
use crate::error::{AppError, Reply};
use crate::ids::{RoundId, StaffId};
use crate::layout::{Layout, Page};
use crate::report::moderation::comparison::{self, Compared};
use crate::report::moderation::pairs::Pair;
use crate::session::SignedIn;
use crate::state::AppState;

pub(super) fn routes() -> Routes {
    Routes::default()
        .get("/moderation/{round}/comparison", Staff, get)
        .get("/moderation/{round}/comparison.csv", Staff, csv::get)
}

#[derive(askama::Template)]
#[template(path = "moderation/comparison.html")]
struct ComparisonPage {
    layout: Layout,
    round: Round,
    is_head: bool,
    /// The whole sample; `None` where no sheet has both totals.
    whole: Option<Card>,
    coefficients: Vec<Figure>,
    first_markers: Vec<Card>,
    second_markers: Vec<Card>,
    points: Vec<PointLine>,
    plot: Option<Graph>,
    sheets: Vec<SheetLine>,
    /// Sheets that are not in the totals, and sheets that several marked
    /// first.
    incomplete: Vec<String>,
    shared: Vec<String>,
}

/// Who reads a comparison.
#[derive(Clone, Copy)]
struct Reader {
    id: StaffId,
    is_head: bool,
}

impl Reader {
    /// Whether they may see the lines of a person.
    fn may_see(self, person: i64) -> bool {
        self.is_head || self.id.0 == person
    }

    /// Whether they may see which sheet it is.
    fn may_name(self, pair: &Pair) -> bool {
        self.is_head || pair.is_by(self.id)
    }
}

/// The page.
pub(super) async fn get(state: AppState, by: SignedIn, Path(id): Path<RoundId>) -> Reply {
    open(&state, by, id, |layout, round, reader, compared| {
        let view = View::of(&compared, &round, reader);
        let page = ComparisonPage {
            layout,
            is_head: reader.is_head,
            whole: view.whole(),
            coefficients: view.coefficients(),
            first_markers: view.first_markers(),
            second_markers: view.second_markers(),
            points: view.points(),
            plot: view.plot(),
            sheets: view.sheets(),
            incomplete: view.called(&compared.comparison.incomplete),
            shared: view.called(&compared.comparison.shared),
            round,
        };
        Page(page).reply()
    })
    .await
}

/// Answers with what `draw` makes of the comparison of a round, or that it is
/// closed to whoever asks.
async fn open(
    state: &AppState,
    by: SignedIn,
    id: RoundId,
    draw: impl FnOnce(Layout, Round, Reader, Compared) -> Reply,
) -> Reply {
    let mut db = state.reader(&by).await?;
    let round = round::get(&mut db, id).await?;
    let found = find(&mut db, &by, &round).await?;
    drop(db);
    match found {
        Found::Open(reader, compared) => draw(by.layout, round, reader, *compared),
        Found::Closed(closing) => {
            let page = closed::page(by.layout, closing);
            Ok((StatusCode::FORBIDDEN, page).into_response())
        }
    }
}

/// What a request for a comparison comes to.
enum Found {
    Open(Reader, Box<Compared>),
    /// To be marked blind once more, in another round.
    Closed(round_sheet::Closing),
}

/// The comparison of a round, for those who may see it.
async fn find(db: &mut Connection, by: &SignedIn, round: &Round) -> Result<Found, AppError> {
    let steps = round::list_steps(db, round.id).await?;
    if !steps.iter().any(|taken| taken.step == Step::Shown) {
        return Err(AppError::NotFound(
            "The second marks of this round are still blind. They are compared with the first when they are shown.",
        ));
    }
    let compared = Box::new(comparison::load(db, round).await?);
    let shut = round_sheet::list_closed(db, by.staff_id).await?;
    let mut sheets = compared.pairs.sheets.iter();
    if let Some(closing) = sheets.find_map(|pair| shut.class_set(pair.sheet.class_set_id)) {
        return Ok(Found::Closed(closing.clone()));
    }
    let reader = Reader {
        id: by.staff_id,
        is_head: by.is_head(),
    };
    let markers = round::list_markers(db, round.id).await?;
    let is_marker = markers.iter().any(|marker| marker.id == reader.id);
    if !(reader.is_head || is_marker || compared.has_marks_of(reader.id)) {
        return Err(AppError::Forbidden(
            "The comparison is for those who marked in this round. What was ruled stands beside each marking point.",
        ));
    }
    Ok(Found::Open(reader, compared))
}
