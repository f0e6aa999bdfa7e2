//! Showing a sheet to the teacher, as it is now or as it was.

use analysis::method::Method;
use axum::extract::Path;

use super::body::{Body, body};
use crate::db::annotation::Annotation;
use crate::db::decision::{FlagKey, Verdict};
use crate::db::revision::{Kind, Past};
use crate::ids::ClassSetId;
use crate::pages::note::TypedNote;
use crate::report::finding::FindingLine;
use crate::report::sheet::{SheetReport, load};
use crate::report::{self, Work, about, shared};
use crate::web::error::{AppError, Reply};
use crate::web::form::TypedText;
use crate::web::layout::{Layout, Page};
use crate::web::session::SignedIn;
use crate::web::state::AppState;
use crate::words::Say;
use crate::words::time::When;
use crate::words::{refusal, version};

/// No sheet is at this address.
pub(super) const NO_SUCH_BENCH: AppError = AppError::NotFound(refusal::NO_BENCH_OR_VERSION);

/// What came back of the page's forms.
#[derive(Debug, Default)]
pub(super) struct ReasonTyped {
    pub(super) note: TypedNote,
    /// A reason that could not be taken, with the name of its slip.
    pub(super) reason: Option<(String, TypedText)>,
}

#[derive(askama::Template)]
#[template(path = "sheet/show.html")]
pub(super) struct SheetPage {
    layout: Layout,
    report: SheetReport,
    method: Method,
    body: Option<Body>,
    when: When,
    typed: ReasonTyped,
}

impl SheetPage {
    /// Labels of the groups before and after.
    fn neighbours(&self) -> [Option<&String>; 2] {
        let (labels, own) = (&self.report.labels, &self.report.bench.label);
        let at = labels.iter().position(|label| label == own).unwrap_or(0);
        [at.checked_sub(1), Some(at + 1)].map(|at| labels.get(at?))
    }

    fn kit(&self) -> &str {
        report::kit(&self.report.bench, self.report.work.as_ref())
    }

    /// Says whose readings the group says that these are; blank for its own.
    fn shared(&self) -> &str {
        shared(self.report.work.as_ref())
    }

    /// Says how the sheet came to be as it is shown: how far the group is now,
    /// or what an earlier version was.
    fn state(&self) -> String {
        match &self.report.work {
            Some(work) if !self.report.is_newest() => {
                let is_handed_in = work.revision.kind == Kind::HandedIn;
                version::came(
                    is_handed_in,
                    &self.when.says(work.revision.written_at),
                    None,
                )
            }
            _ => report::state(&self.report.bench, &self.when, version::NOTHING_YET),
        }
    }

    /// Returns a version of the history; one that staff took in from a file
    /// says so.
    fn past(&self, past: &Past) -> String {
        let is_handed_in = past.kind == Kind::HandedIn;
        version::came(
            is_handed_in,
            &self.when.says(past.written_at),
            past.by.as_deref(),
        )
    }

    fn is_shown(&self, past: &Past) -> bool {
        let work = self.report.work.as_ref();
        work.is_some_and(|work| work.revision.version == past.version)
    }

    fn about(&self, note: &Annotation) -> String {
        about(Say::english(), note).unwrap_or_else(|| version::THE_SHEET.to_owned())
    }

    /// Figures that a note can be about: name and words.
    fn steps(&self) -> Vec<(&'static str, &'static str)> {
        let work = self.report.work.as_ref();
        work.map(Work::figures).unwrap_or_default()
    }

    /// Returns the box of the reason for a word on a slip.
    fn reason(&self, key: &FlagKey) -> TypedText {
        match &self.typed.reason {
            Some((name, typed)) if *name == key.name() => typed.clone(),
            _ => TypedText::default(),
        }
    }

    /// Says whether a reason that was refused belongs to one of these.
    fn is_refused_among(&self, findings: &[(String, FindingLine)]) -> bool {
        let mut findings = findings.iter();
        findings.any(|(_, finding)| self.reason(&finding.key).wrong.is_some())
    }
}

/// Shows the page.
pub(super) async fn get(
    state: AppState,
    by: SignedIn,
    Path((id, label)): Path<(ClassSetId, String)>,
) -> Reply {
    let report = find(&state, &by, id, &label, None).await?;
    page(&state, by.layout, report, ReasonTyped::default())?.reply()
}

/// Shows the page of an earlier version, to read only.
pub(super) async fn version(
    state: AppState,
    by: SignedIn,
    Path((id, label, version)): Path<(ClassSetId, String, i64)>,
) -> Reply {
    let report = find(&state, &by, id, &label, Some(version)).await?;
    page(&state, by.layout, report, ReasonTyped::default())?.reply()
}

pub(super) async fn find(
    state: &AppState,
    by: &SignedIn,
    id: ClassSetId,
    label: &str,
    version: Option<i64>,
) -> Result<SheetReport, AppError> {
    let mut db = state.reader(by).await?;
    let report = load(&mut db, id, label, version).await?;
    drop(db);
    let mut report = report.ok_or(NO_SUCH_BENCH)?;
    state.keep(by, report.to_keep.take());
    Ok(report)
}

/// Returns the page, perhaps with a form that could not be taken.
pub(super) fn page(
    state: &AppState,
    layout: Layout,
    report: SheetReport,
    typed: ReasonTyped,
) -> Result<Page<SheetPage>, AppError> {
    let method = report.class_set.method()?;
    let work = report.work.as_ref();
    Ok(Page(SheetPage {
        layout,
        method,
        body: work.map(|work| body(work, &report.class_set, method)),
        when: state.when(),
        report,
        typed,
    }))
}
