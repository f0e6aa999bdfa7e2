//! Deciding which mark holds: on a point of a sheet, or that all first marks
//! of the sheet do.

use axum::extract::{Path, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};

use super::{Form, Refused, find, reason, show};
use crate::db::round::{Round, Step};
use crate::db::settlement::{About, Kind, NewSettlement};
use crate::error::AppError;
use crate::form::Pairs;
use crate::ids::{RoundId, RoundSheetId, SettlementId};
use crate::report::moderation::settle::{Outcome, Standing, settle};
use crate::report::moderation::settling::{Settling, SettlingSheet, newest};
use crate::session::StaffForm;
use crate::state::AppState;

/// Somebody else was there first.
const MET: &str = "Somebody has marked or settled this point while this page was open. Nothing was settled: look at what is here now.";
/// No mark of the point was chosen.
pub(super) const CHOOSE: &str = "Choose the mark that holds.";
/// The round is over.
const CLOSED: AppError = AppError::Forbidden(
    "The round is closed: its record does not change. What is decided later is written to the record as a later entry.",
);

/// Settles one point, or a whole sheet where the form names no point.
pub(super) async fn post(
    State(state): State<AppState>,
    Path(id): Path<RoundId>,
    form: StaffForm,
) -> Result<Response, AppError> {
    let mut db = state.reader(&form.by).await?;
    let (round, settling) = find(&mut db, &form.by, id).await?;
    drop(db);
    if round.step == Some(Step::Closed) {
        return Err(CLOSED);
    }
    let sheet: i64 = form.pairs.get("sheet").parse().unwrap_or(0);
    let mut sheets = settling.sheets.iter();
    let sheet = sheets
        .find(|one| one.pair.sheet.id == RoundSheetId(sheet))
        .ok_or(AppError::NotFound(
            "There is no such sheet of yours in this round.",
        ))?;
    if !form.by.is_head() && !sheet.pair.is_by(form.by.staff_id) {
        return Err(AppError::Forbidden(
            "Only the two who marked a sheet settle it.",
        ));
    }
    let which = named(&form.pairs, sheet);
    let read = read(&form.pairs, &settling, sheet, &which);
    let sentence = match read {
        Err(sentence) => sentence,
        Ok(decided) => {
            let new = decided.settlement(&round, sheet, &form, state.clock.now());
            let (seen, standings) = (decided.seen, decided.standings);
            let write = state.store.writer().run(move |db| {
                Box::pin(async move { settle(db, &round, &new, seen, &standings).await })
            });
            match write.await? {
                Outcome::Settled => {
                    let to = format!("/moderation/{id}/settle#sheet-{}", sheet.pair.sheet.id);
                    return Ok(Redirect::to(&to).into_response());
                }
                Outcome::NotNow => return Err(CLOSED),
                Outcome::Met => MET,
            }
        }
    };
    let status = match sentence {
        MET => StatusCode::CONFLICT,
        _ => StatusCode::UNPROCESSABLE_ENTITY,
    };
    let refused = Refused {
        form: which,
        chosen: form.pairs.get("marks").to_owned(),
        reason: form.pairs.get("reason").to_owned(),
        sentence,
    };
    let page = show::page(&state, form.by, id, Some(refused)).await?;
    Ok((status, page).into_response())
}

/// What a form decides.
struct Decided {
    key: Option<i64>,
    kind: Kind,
    agreed: Option<i64>,
    reason: String,
    seen: Option<SettlementId>,
    standings: Vec<Standing>,
}

impl Decided {
    fn settlement(
        &self,
        round: &Round,
        sheet: &SettlingSheet,
        form: &StaffForm,
        now: i64,
    ) -> NewSettlement {
        NewSettlement {
            round_id: round.id,
            about: About::Sheet(sheet.pair.sheet.id),
            point_key: self.key,
            kind: self.kind,
            agreed: self.agreed,
            reason: self.reason.clone(),
            staff_id: form.by.staff_id,
            at: now,
        }
    }
}

/// The form that was sent.
fn named(pairs: &Pairs, sheet: &SettlingSheet) -> Form {
    let id = sheet.pair.sheet.id;
    match pairs.get("point").parse() {
        Ok(key) => Form::Point(id, key),
        Err(_) => Form::Whole(id),
    }
}

/// What a form decides; the error says what is wrong with it.
fn read(
    pairs: &Pairs,
    settling: &Settling,
    sheet: &SettlingSheet,
    form: &Form,
) -> Result<Decided, &'static str> {
    let key = match form {
        Form::Point(_, key) => Some(*key),
        _ => None,
    };
    let about = About::Sheet(sheet.pair.sheet.id);
    let seen = newest(&settling.settlements, about, key).map(|one| one.id);
    if pairs.get("seen") != seen.map_or(0, |id| id.0).to_string() {
        return Err(MET);
    }
    let Some(key) = key else {
        return whole(pairs, settling, sheet, seen);
    };
    let points = settling.points_of(sheet);
    let at = points.iter().position(|point| point.key == key);
    let (at, first) = at
        .and_then(|at| Some((at, sheet.points[at].twice.first?)))
        .ok_or("There is no such marking point with a first mark.")?;
    let point = &points[at];
    let newest = sheet.points[at].now.as_ref().map(|mark| mark.id);
    if pairs.get("newest") != newest.map_or(0, |id| id.0).to_string() {
        return Err(MET);
    }
    let most = i64::from(point.point.marks);
    let chosen = pairs.get("marks").parse().ok();
    let marks = chosen
        .filter(|marks| (0..=most).contains(marks))
        .ok_or(CHOOSE)?;
    let is_first = marks == first;
    Ok(Decided {
        key: Some(key),
        kind: if is_first {
            Kind::FirstStands
        } else {
            Kind::Agreed
        },
        agreed: (!is_first).then_some(marks),
        reason: reason(pairs.get("reason"))?,
        seen,
        standings: vec![Standing::on(sheet, at, point, marks)],
    })
}

/// That all first marks of a sheet stand: those of points that were decided on
/// by themselves aside, and of points that are marked again.
fn whole(
    pairs: &Pairs,
    settling: &Settling,
    sheet: &SettlingSheet,
    seen: Option<SettlementId>,
) -> Result<Decided, &'static str> {
    if pairs.get("newest") != newest_of(sheet).to_string() {
        return Err(MET);
    }
    let points = settling.points_of(sheet).iter().enumerate();
    let standings = points.filter_map(|(at, point)| {
        let twice = sheet.points[at].twice;
        let first = twice.first.filter(|_| twice.word.is_none())?;
        Some(Standing::on(sheet, at, point, first))
    });
    Ok(Decided {
        key: None,
        kind: Kind::FirstStands,
        agreed: None,
        reason: reason(pairs.get("reason"))?,
        seen,
        standings: standings.collect(),
    })
}

/// The newest mark on any point of a sheet; 0: none.
pub(super) fn newest_of(sheet: &SettlingSheet) -> i64 {
    let marks = sheet.points.iter().filter_map(|point| point.now.as_ref());
    marks.map(|mark| mark.id.0).max().unwrap_or(0)
}
