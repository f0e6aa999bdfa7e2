//! Marks that a form gives, checked and written down: nothing is awarded over
//! what somebody else did meanwhile.

use crate::db::mark::{self, NewMark};
use crate::db::{Error, Writing, class_set};
use crate::error::AppError;
use crate::form::Pairs;
use crate::ids::{MarkId, StaffId};
use crate::report::marking::MarkingReport;
use crate::state::AppState;

/// Longest reason, in characters.
const LONGEST_REASON: usize = 1000;

/// Somebody else was there first.
pub(super) const MET: &str = "This point was marked by somebody else, or the sheet was stored again, while this page was open. Nothing was awarded: look at what is here now.";

/// A mark on one point of one sheet.
#[derive(Clone, Debug)]
pub(super) struct Given {
    /// Index of the sheet.
    pub(super) sheet: usize,
    /// Index of the point.
    pub(super) point: usize,
    /// `None` takes an earlier mark back.
    pub(super) marks: Option<i64>,
    pub(super) reason: String,
}

/// What a form gave that cannot be taken.
#[derive(Clone, Debug, Default)]
pub(super) struct Refused {
    /// Label of the bench.
    pub(super) label: String,
    /// Key of the point.
    pub(super) key: i64,
    /// Why.
    pub(super) sentence: &'static str,
    /// The reason as typed.
    pub(super) reason: String,
    /// The marks that were chosen.
    pub(super) marks: String,
}

/// Reads one award; the error says what is wrong with it.
pub(super) fn read(
    report: &MarkingReport,
    sheet: usize,
    point: usize,
    pairs: &Pairs,
) -> Result<Given, &'static str> {
    let standing = &report.sheets[sheet].points[point];
    let work = report.class.groups[sheet].work.as_ref();
    let revision = work.map_or(0, |work| work.revision.id.0);
    let newest = standing.newest.map_or(0, |id| id.0);
    let is_as_seen =
        pairs.get("revision") == revision.to_string() && pairs.get("newest") == newest.to_string();
    if !is_as_seen {
        return Err(MET);
    }
    let most = i64::from(report.points[point].point.marks);
    let typed = pairs.get("marks");
    let marks = match typed {
        "none" => None,
        _ => Some(
            typed
                .parse()
                .ok()
                .filter(|marks| (0..=most).contains(marks))
                .ok_or("Choose one of the marks that the point has.")?,
        ),
    };
    let reason = pairs.trimmed("reason").replace("\r\n", "\n");
    if reason.chars().count() > LONGEST_REASON {
        return Err("Use at most 1000 characters for the reason.");
    }
    let is_against = standing.suggestion.as_ref().is_some_and(|suggestion| {
        suggestion.is_shown && marks.is_some_and(|m| m != i64::from(suggestion.marks))
    });
    if is_against && reason.is_empty() {
        return Err(
            "Their own figures show otherwise: say why, then choose the mark again. It stays on record.",
        );
    }
    Ok(Given {
        sheet,
        point,
        marks,
        reason,
    })
}

/// Writes marks down as one act, and the scheme's version that they are of
/// where none was chosen. False where somebody else marked one of the points
/// meanwhile: then none is written.
pub(super) async fn store(
    state: &AppState,
    report: &MarkingReport,
    given: &[Given],
    staff_id: StaffId,
) -> Result<bool, AppError> {
    let (act, now) = (uuid::Uuid::new_v4(), state.clock.now());
    let new = given.iter().map(|one| {
        let group = &report.class.groups[one.sheet];
        let standing = &report.sheets[one.sheet].points[one.point];
        let suggestion = standing.suggestion.as_ref();
        let new = NewMark {
            sheet_id: group.bench.sheet_id,
            marking_point_id: report.points[one.point].id,
            revision_id: group.work.as_ref().map(|work| work.revision.id),
            awarded: one.marks,
            suggested: suggestion.map(|s| i64::from(s.marks)),
            reason: one.reason.clone(),
            act: act.hyphenated().to_string(),
            undoes: None,
            staff_id,
            marked_at: now,
        };
        (standing.newest, new)
    });
    let new: Vec<(Option<MarkId>, NewMark)> = new.collect();
    let class_set = &report.class.class_set;
    let choose = class_set.scheme_version_id.is_none();
    let (id, version) = (class_set.id, report.version.id);
    let write = state.store.writer().run(move |db| {
        Box::pin(async move {
            if !insert_all(db, &new).await? {
                return Ok(false);
            }
            if choose {
                class_set::update_scheme(db, id, version).await?;
            }
            Ok(true)
        })
    });
    Ok(write.await?)
}

/// Adds marks where each point still stands as it was seen.
async fn insert_all(db: &mut Writing, new: &[(Option<MarkId>, NewMark)]) -> Result<bool, Error> {
    for (seen, mark) in new {
        if mark::find_newest(db, mark.sheet_id, mark.marking_point_id).await? != *seen {
            return Ok(false);
        }
    }
    for (_, mark) in new {
        mark::insert(db, mark).await?;
    }
    Ok(true)
}
