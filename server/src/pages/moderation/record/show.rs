//! The record on one page, to be printed and filed.

use axum::extract::Path;

use super::find;
use super::view::{
    AgreementView, Column, DecisionView, SheetView, called_set, called_sheet, columns, decisions,
    marked_since, people, points, sheet,
};
use crate::db::moderation_record::Entry;
use crate::error::{AppError, Reply};
use crate::ids::RoundId;
use crate::layout::{Layout, Page};
use crate::report::moderation::record::Record;
use crate::report::number;
use crate::secret::sha256;
use crate::session::SignedIn;
use crate::state::AppState;

/// A later entry that could not be taken.
pub(super) struct Refused {
    pub(super) text: String,
    pub(super) sentence: &'static str,
}

#[derive(askama::Template)]
#[template(path = "moderation/record.html")]
pub(super) struct RecordPage {
    layout: Layout,
    id: RoundId,
    record: Record,
    closed_by: String,
    closed: String,
    /// Tells two copies apart that do not say the same.
    fingerprint: String,
    class_sets: Vec<String>,
    steps: Vec<Line>,
    anchors: Vec<AnchorView>,
    columns: Vec<Column>,
    sheets: Vec<SheetView>,
    people: Vec<AgreementView>,
    points: Vec<AgreementView>,
    rulings: Vec<Line>,
    decisions: Vec<DecisionView>,
    marked_since: Vec<String>,
    again: Vec<AgainView>,
    entries: Vec<Line>,
    text: String,
    wrong: Option<&'static str>,
}

/// Something that somebody did or wrote.
struct Line {
    what: String,
    text: String,
    by: String,
    when: String,
}

struct AnchorView {
    called: String,
    totals: Vec<String>,
    differing: Vec<(String, Vec<String>)>,
}

struct AgainView {
    class: String,
    point: String,
    done: i64,
    of: i64,
}

/// The page.
pub(super) async fn get(state: AppState, by: SignedIn, Path(id): Path<RoundId>) -> Reply {
    page(&state, by, id, None).await?.reply()
}

/// The page, perhaps with an entry that could not be taken.
pub(super) async fn page(
    state: &AppState,
    by: SignedIn,
    id: RoundId,
    refused: Option<Refused>,
) -> Result<Page<RecordPage>, AppError> {
    let mut db = state.reader(&by).await?;
    let found = find(&mut db, &by, id).await?;
    drop(db);
    // Always with the day: the page is filed.
    let when = |at| state.zone.stamp(at);
    let record = found.record;
    let columns = columns(&record);
    Ok(Page(RecordPage {
        layout: by.layout,
        id,
        closed_by: found.stored.by,
        closed: when(found.stored.closed_at),
        fingerprint: sha256(&found.stored.body)[..16].to_owned(),
        class_sets: record
            .class_sets
            .iter()
            .map(|set| called_set(&record, set.id))
            .collect(),
        steps: steps(&record, &when),
        anchors: anchors(&record),
        sheets: record
            .sheets
            .iter()
            .map(|line| sheet(line, &columns))
            .collect(),
        columns,
        people: people(&record),
        points: points(&record),
        rulings: rulings(&record, &when),
        decisions: decisions(&record, &when),
        marked_since: marked_since(&record, &when),
        again: again(&record),
        entries: found
            .entries
            .into_iter()
            .map(|one| entry(one, &when))
            .collect(),
        wrong: refused.as_ref().map(|refused| refused.sentence),
        text: refused.map(|refused| refused.text).unwrap_or_default(),
        record,
    }))
}

fn steps(record: &Record, when: &dyn Fn(i64) -> String) -> Vec<Line> {
    let steps = record.steps.iter();
    steps
        .map(|step| Line {
            what: step.what.clone(),
            text: String::new(),
            by: step.by.clone(),
            when: when(step.at),
        })
        .collect()
}

fn rulings(record: &Record, when: &dyn Fn(i64) -> String) -> Vec<Line> {
    let rulings = record.rulings.iter();
    rulings
        .map(|ruling| Line {
            what: ruling.title.clone(),
            text: match ruling.body.as_str() {
                "" => "The ruling before was taken away.".to_owned(),
                body => body.to_owned(),
            },
            by: ruling.by.clone(),
            when: when(ruling.at),
        })
        .collect()
}

fn entry(entry: Entry, when: &dyn Fn(i64) -> String) -> Line {
    Line {
        what: String::new(),
        text: entry.body,
        by: entry.by,
        when: when(entry.at),
    }
}

fn anchors(record: &Record) -> Vec<AnchorView> {
    let anchors = record.anchors.iter();
    anchors
        .map(|anchor| AnchorView {
            called: called_sheet(&anchor.sheet),
            totals: anchor.totals.iter().copied().map(number::marks).collect(),
            differing: anchor
                .differing
                .iter()
                .map(|point| {
                    (
                        point.title.clone(),
                        point.marks.iter().copied().map(number::marks).collect(),
                    )
                })
                .collect(),
        })
        .collect()
}

fn again(record: &Record) -> Vec<AgainView> {
    let again = record.again.iter();
    again
        .map(|line| AgainView {
            class: called_set(record, line.class_set),
            point: match &line.point {
                Some(point) => format!("point {point}"),
                None => "every point".to_owned(),
            },
            done: line.done,
            of: line.of,
        })
        .collect()
}
