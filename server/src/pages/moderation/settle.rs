//! Settling what first and second markers differ on: what is open first.

use axum::extract::Path;

use super::settle_points::PointView;
use crate::db::round::{self, ClassSetOfRound, Round, Step};
use crate::db::ruling::{self, Ruling};
use crate::db::settlement::{About, ToMarkAgain};
use crate::ids::{RoundId, RoundSheetId};
use crate::report::moderation::may_see::{self, Hidden, Reader};
use crate::report::moderation::settling::{Settling, SettlingSheet, newest, tolerance};
use crate::web::error::{AppError, Reply};
use crate::web::layout::{Layout, Page};
use crate::web::session::SignedIn;
use crate::web::state::AppState;
use crate::words::moderation;
use crate::words::number;
use crate::words::time::When;

/// No mark of the point was chosen.
pub(super) const CHOOSE: &str = moderation::WHICH_MARK_HOLDS;

/// A page of marks for somebody who has still to mark these classes blind.
pub(super) const BLIND: AppError = AppError::Forbidden(moderation::BLIND_ELSEWHERE);

/// A form of the page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Form {
    /// On one point of a sheet.
    Point(RoundSheetId, i64),
    Whole(RoundSheetId),
    /// On a whole class, which was chosen in it.
    Again {
        class_set: String,
    },
}

/// What a form gave that could not be taken.
pub(super) struct RefusedSettlement {
    pub(super) form: Form,
    /// The mark that was chosen, or the point of a class.
    pub(super) chosen: String,
    /// As typed.
    pub(super) reason: String,
    pub(super) sentence: &'static str,
}

#[derive(askama::Template)]
#[template(path = "moderation/settle.html")]
pub(super) struct SettlePage {
    layout: Layout,
    pub(super) round: Round,
    reader: Reader,
    settling: Settling,
    class_sets: Vec<ClassSetOfRound>,
    pub(super) rulings: Vec<Ruling>,
    pub(super) when: When,
    refused: Option<RefusedSettlement>,
}

/// Where a sheet stands on the page.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Part {
    Open,
    Settled,
    Within,
    Unfinished,
}

/// The form that has a class marked again, as it came back.
#[derive(Default)]
struct AgainForm<'a> {
    class_set: &'a str,
    point: &'a str,
    reason: &'a str,
    wrong: Option<&'static str>,
}

/// Shows the page.
pub(super) async fn get(state: AppState, by: SignedIn, Path(id): Path<RoundId>) -> Reply {
    page(&state, by, id, None).await?.reply()
}

/// Returns the page, perhaps with a form that could not be taken.
pub(super) async fn page(
    state: &AppState,
    by: SignedIn,
    id: RoundId,
    refused: Option<RefusedSettlement>,
) -> Result<Page<SettlePage>, AppError> {
    let reader = Reader {
        id: by.staff_id,
        is_head: by.is_head(),
    };
    let mut db = state.reader(&by).await?;
    let round = round::get(&mut db, id).await?;
    let settling = may_see::settling(&mut db, &round, reader.id, reader.is_head).await?;
    let settling = settling.map_err(hidden)?;
    let class_sets = round::list_class_sets(&mut db, id).await?;
    let rulings = ruling::list_standing(&mut db, round.scheme_id).await?;
    drop(db);
    Ok(Page(SettlePage {
        layout: by.layout,
        round,
        reader,
        settling,
        class_sets,
        rulings,
        when: state.when(),
        refused,
    }))
}

/// Says why somebody does not see what there is to settle.
pub(super) fn hidden(why: Hidden) -> AppError {
    match why {
        Hidden::NotShown => AppError::NotFound(moderation::SECOND_NOT_SHOWN),
        Hidden::NotTheirs => AppError::Forbidden(moderation::NONE_OF_YOURS),
        Hidden::Blind => BLIND,
    }
}

impl SettlePage {
    fn is_closed(&self) -> bool {
        self.round.step == Some(Step::Closed)
    }

    fn sheets(&self, part: Part) -> Vec<&SettlingSheet> {
        let sheets = self.settling.sheets.iter();
        sheets.filter(|sheet| self.part(sheet) == part).collect()
    }

    fn part(&self, sheet: &SettlingSheet) -> Part {
        if !sheet.open.is_settled() {
            Part::Open
        } else if sheet.is_beyond(tolerance(&self.round)) {
            Part::Settled
        } else if sheet.is_complete() {
            Part::Within
        } else {
            Part::Unfinished
        }
    }

    /// Returns what came back of a form.
    pub(super) fn refused(&self, form: &Form) -> Option<&RefusedSettlement> {
        let refused = self.refused.as_ref();
        refused.filter(|refused| refused.form == *form)
    }

    /// Returns what came back of the form for a whole sheet.
    fn refused_whole(&self, sheet: &SettlingSheet) -> Option<&RefusedSettlement> {
        self.refused(&Form::Whole(sheet.pair.sheet.id))
    }

    /// Returns the form that has a class marked again.
    fn again_form(&self) -> AgainForm<'_> {
        match &self.refused {
            Some(refused) if let Form::Again { class_set } = &refused.form => AgainForm {
                class_set,
                point: &refused.chosen,
                reason: &refused.reason,
                wrong: Some(refused.sentence),
            },
            _ => AgainForm::default(),
        }
    }

    /// Says whether a form of a sheet within the tolerance came back.
    fn has_refused_within(&self) -> bool {
        let within = self.sheets(Part::Within);
        within.iter().any(|sheet| {
            let is_refused = |point: &PointView<'_>| point.refused.is_some();
            self.refused_whole(sheet).is_some() || self.points(sheet).iter().any(is_refused)
        })
    }

    /// Says whether the reader may settle a sheet.
    fn may_settle(&self, sheet: &SettlingSheet) -> bool {
        !self.is_closed() && self.reader.may_name(&sheet.pair)
    }

    /// Says whether the totals of a sheet are further apart than is allowed.
    fn is_beyond_total(&self, sheet: &SettlingSheet) -> bool {
        let difference = sheet.pair.difference();
        difference.is_some_and(|marks| marks.abs() > self.round.tolerance_total)
    }

    /// Returns the newest word on a point of a sheet, or on any; 0: none.
    pub(super) fn seen(&self, sheet: &SettlingSheet, key: Option<i64>) -> i64 {
        let about = About::Sheet(sheet.pair.sheet.id);
        newest(&self.settling.settlements, about, key).map_or(0, |word| word.id.0)
    }

    /// Says what is marked again of a class: its point, or all of them.
    fn again(&self, to_mark: &ToMarkAgain) -> String {
        let Some(key) = to_mark.point_key else {
            return moderation::point_called(None);
        };
        let mut points = self.settling.points.iter();
        let point = points.find(|point| point.key == key);
        point.map_or_else(
            || moderation::GONE_POINT.to_owned(),
            |point| {
                let (number, title) = (point.number, &point.point.title);
                moderation::point_called(Some(&format!("{number}, {title}")))
            },
        )
    }
}
