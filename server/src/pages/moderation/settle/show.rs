//! The page of settling: what is open first.

use axum::extract::Path;

use super::view::{Decision, Frame, SheetView};
use super::{Form, Refused, again, find};
use crate::clock::long_date;
use crate::db::round::{self, Round, Step};
use crate::db::ruling;
use crate::db::scheme::MarkingPoint;
use crate::db::settlement::{Again, Settlement};
use crate::error::{AppError, Reply};
use crate::ids::{ClassSetId, RoundId, SettlementId};
use crate::layout::{Layout, Page};
use crate::report::moderation::ruling::by_key;
use crate::report::moderation::settling::Settling;
use crate::session::SignedIn;
use crate::state::AppState;

#[derive(askama::Template)]
#[template(path = "moderation/settle.html")]
pub(super) struct SettlePage {
    layout: Layout,
    round: Round,
    is_head: bool,
    is_closed: bool,
    open: Vec<SheetView>,
    settled: Vec<SheetView>,
    within: Vec<SheetView>,
    unfinished: Vec<SheetView>,
    again: Vec<AgainView>,
    /// Whether something that is to be marked again is not yet.
    is_pending: bool,
    form: AgainForm,
}

impl SettlePage {
    /// Whether a form of a sheet within the tolerance came back.
    fn has_refused_within(&self) -> bool {
        self.within.iter().any(SheetView::is_refused)
    }
}

/// Something that is marked again for a whole class.
struct AgainView {
    id: SettlementId,
    class_set: ClassSetId,
    class: String,
    /// The point as its form sends it.
    sent: String,
    point: String,
    /// Where it is marked.
    href: String,
    done: i64,
    of: i64,
    decision: Decision,
}

/// The form that has a class marked again.
struct AgainForm {
    class_sets: Vec<(ClassSetId, String)>,
    points: Vec<MarkingPoint>,
    class_set: String,
    key: String,
    reason: String,
    wrong: Option<&'static str>,
}

/// The page.
pub(super) async fn get(state: AppState, by: SignedIn, Path(id): Path<RoundId>) -> Reply {
    page(&state, by, id, None).await?.reply()
}

/// The page, perhaps with a form that could not be taken.
pub(super) async fn page(
    state: &AppState,
    by: SignedIn,
    id: RoundId,
    refused: Option<Refused>,
) -> Result<Page<SettlePage>, AppError> {
    let mut db = state.reader(&by).await?;
    let (round, settling) = find(&mut db, &by, id).await?;
    let class_sets = round::list_class_sets(&mut db, id).await?;
    let rulings = ruling::list_standing(&mut db, round.scheme_id).await?;
    drop(db);
    let points = all_points(&settling);
    let now = state.clock.now();
    let when = |at| state.zone.time_or_day(at, now);
    let class_sets: Vec<(ClassSetId, String)> = class_sets
        .iter()
        .map(|set| {
            let called = format!("{}, {}", set.class_name, long_date(&set.held_on));
            (set.id, called)
        })
        .collect();
    let frame = Frame {
        rulings: &by_key(rulings, &when),
        refused: refused.as_ref(),
        when: &when,
        reader: by.staff_id,
        is_head: by.is_head(),
        is_closed: round.step == Some(Step::Closed),
        round: &round,
    };
    let (is_head, is_closed) = (frame.is_head, frame.is_closed);
    let sheets = settling.sheets.iter();
    let (open, rest): (Vec<_>, Vec<_>) = sheets
        .map(|sheet| frame.sheet(&settling, sheet))
        .partition(|sheet| sheet.is_open);
    let (settled, rest): (Vec<_>, Vec<_>) = rest.into_iter().partition(|sheet| sheet.is_beyond);
    let (within, unfinished) = rest.into_iter().partition(|sheet| sheet.is_complete);
    let again = settling.again.iter();
    let again = again.filter_map(|(one, done)| again_view(one, *done, &class_sets, &points, &when));
    Ok(Page(SettlePage {
        layout: by.layout,
        is_head,
        is_closed,
        open,
        settled,
        within,
        unfinished,
        again: again.collect(),
        is_pending: settling.is_again_pending(),
        form: again_form(class_sets.clone(), points.clone(), refused),
        round,
    }))
}

/// The points of every version that a sheet of the round is marked with, each
/// once, in their order.
fn all_points(settling: &Settling) -> Vec<MarkingPoint> {
    let mut points: Vec<MarkingPoint> = settling.points.values().flatten().cloned().collect();
    points.sort_by_key(|point| (point.key, std::cmp::Reverse(point.id)));
    points.dedup_by_key(|point| point.key);
    points.sort_by_key(|point| (point.number, point.key));
    points
}

fn again_view(
    one: &Settlement,
    done: Again,
    class_sets: &[(ClassSetId, String)],
    points: &[MarkingPoint],
    when: &dyn Fn(i64) -> String,
) -> Option<AgainView> {
    let (class_set, class) = class_sets
        .iter()
        .find(|(id, _)| Some(*id) == one.class_set_id)?;
    let point = points.iter().find(|point| Some(point.key) == one.point_key);
    let marking = format!("/class-sets/{class_set}/marking");
    Some(AgainView {
        id: one.id,
        class: class.clone(),
        sent: one
            .point_key
            .map_or_else(|| again::ALL.to_owned(), |key| key.to_string()),
        point: match (one.point_key, point) {
            (None, _) => "every point".to_owned(),
            (Some(_), Some(point)) => format!("point {}, {}", point.number, point.point.title),
            (Some(_), None) => "a point that is no longer in the scheme".to_owned(),
        },
        href: match one.point_key {
            Some(key) => format!("{marking}/points/{key}"),
            None => marking,
        },
        class_set: *class_set,
        done: done.done,
        of: done.of,
        decision: Decision::of(one, when),
    })
}

fn again_form(
    class_sets: Vec<(ClassSetId, String)>,
    points: Vec<MarkingPoint>,
    refused: Option<Refused>,
) -> AgainForm {
    let mut form = AgainForm {
        class_sets,
        points,
        class_set: String::new(),
        key: String::new(),
        reason: String::new(),
        wrong: None,
    };
    if let Some(refused) = refused
        && let Form::Again { class_set } = refused.form
    {
        form.class_set = class_set;
        form.key = refused.chosen;
        form.reason = refused.reason;
        form.wrong = Some(refused.sentence);
    }
    form
}
