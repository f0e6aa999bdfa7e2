//! What the page of a sheet shows.

use analysis::method::Method;

use super::body::{Body, body};
use crate::clock::Zone;
use crate::db::annotation::Annotation;
use crate::db::class_set::ClassSet;
use crate::db::decision::Verdict;
use crate::db::revision;
use crate::layout::Layout;
use crate::report::finding::FindingLine;
use crate::report::sheet::SheetReport;
use crate::report::{Work, about, kit, progress, shared};
use crate::words::time::{long_date, time_or_day};
use crate::words::{Say, version};

/// Something typed into one of the page's forms that cannot be taken.
#[derive(Debug, Default)]
pub(super) struct Refused {
    /// Which form: a flag's number, or the note's.
    pub(super) form: String,
    /// Why, beside the box.
    pub(super) reason: &'static str,
    /// What was typed, given back.
    pub(super) text: String,
    /// Row and step chosen for a note, given back.
    pub(super) row: String,
    pub(super) step: String,
}

#[derive(askama::Template)]
#[template(path = "sheet/show.html")]
pub(super) struct SheetPage {
    layout: Layout,
    class_set: ClassSet,
    method: Method,
    date: String,
    label: String,
    before: Option<String>,
    after: Option<String>,
    kit: String,
    /// Whose readings the group says that these are; blank for its own.
    shared: String,
    /// How the newest revision came to be: `handed in at 10:42`.
    state: String,
    revision_id: i64,
    body: Option<Body>,
    notes: Vec<Note>,
    /// Choices for a note: name and words.
    steps: Vec<(&'static str, &'static str)>,
    history: Vec<PastLine>,
    /// Whether this is the sheet as it is now.
    is_newest: bool,
    refused: Refused,
}

/// A line of the history.
struct PastLine {
    version: i64,
    words: String,
    is_shown: bool,
}

struct Note {
    about: String,
    body: String,
    by: String,
    when: String,
}

impl SheetPage {
    pub(super) fn of(
        layout: Layout,
        report: SheetReport,
        zone: &Zone,
        now: i64,
        refused: Refused,
    ) -> Result<Self, crate::db::Error> {
        let when = |at| time_or_day(zone, at, now);
        let method = report.class_set.method()?;
        let at = report
            .labels
            .iter()
            .position(|label| *label == report.bench.label)
            .unwrap_or(0);
        let neighbour = |at: Option<usize>| at.and_then(|at| report.labels.get(at)).cloned();
        let history = history(&report, &when);
        Ok(Self {
            layout,
            method,
            date: long_date(&report.class_set.held_on),
            before: neighbour(at.checked_sub(1)),
            after: neighbour(Some(at + 1)),
            kit: kit(&report.bench, report.work.as_ref()).to_owned(),
            shared: shared(report.work.as_ref()).to_owned(),
            state: state(&report, &when),
            is_newest: report.is_newest(),
            revision_id: report.work.as_ref().map_or(0, |work| work.revision.id.0),
            body: report
                .work
                .as_ref()
                .map(|work| body(work, &report.class_set, method)),
            notes: report
                .annotations
                .iter()
                .map(|note| self::note(note, &when))
                .collect(),
            steps: report.work.as_ref().map(Work::figures).unwrap_or_default(),
            history,
            refused,
            label: report.bench.label,
            class_set: report.class_set,
        })
    }
}

impl SheetPage {
    /// Whether a reason that was refused belongs to one of these.
    fn is_refused_among(&self, findings: &[(String, FindingLine)]) -> bool {
        let mut findings = findings.iter();
        findings.any(|(_, finding)| finding.key.name() == self.refused.form)
    }
}

/// How the sheet came to be as it is shown: how far the group is now, or what
/// an earlier version was.
fn state(report: &SheetReport, when: &dyn Fn(i64) -> String) -> String {
    match &report.work {
        Some(work) if !report.is_newest() => {
            let shown = &work.revision;
            let is_handed_in = shown.kind == revision::Kind::HandedIn;
            version::came(is_handed_in, &when(shown.written_at), None)
        }
        _ => version::progress(progress(&report.bench, when), version::NOTHING_YET),
    }
}

fn history(report: &SheetReport, when: &dyn Fn(i64) -> String) -> Vec<PastLine> {
    let shown = report.work.as_ref().map(|work| work.revision.version);
    report
        .past
        .iter()
        .map(|past| PastLine {
            version: past.version,
            words: version::came(
                past.kind == revision::Kind::HandedIn,
                &when(past.written_at),
                past.by.as_deref(),
            ),
            is_shown: shown == Some(past.version),
        })
        .collect()
}

fn note(note: &Annotation, when: &dyn Fn(i64) -> String) -> Note {
    Note {
        about: about(Say::english(), note).unwrap_or_else(|| version::THE_SHEET.to_owned()),
        body: note.body.clone(),
        by: note.by.clone(),
        when: when(note.written_at),
    }
}
