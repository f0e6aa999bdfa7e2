//! What the page of a sheet shows.

use analysis::assess::{RowResult, Standing};
use analysis::field::{Field, Place, Role};
use analysis::figure::Figure;
use analysis::method::Method;
use analysis::sheet::{Cells, TypedSheet};
use analysis::slip::Kind;
use analysis::unit::Unit;
use analysis::working::{self, Comparison};

use crate::chart::{Graph, sheet_graph};
use crate::clock::{Zone, long_date};
use crate::db::annotation::Annotation;
use crate::db::class_set::ClassSet;
use crate::db::decision::Verdict;
use crate::db::revision;
use crate::layout::Layout;
use crate::report::Work;
use crate::report::flag::{self, FlagLine};
use crate::report::number::{against, decimals, decimals_of_smallest, fixed, speed_range};
use crate::report::sheet::SheetReport;

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

/// The page.
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

/// What there is to show once something is stored.
struct Body {
    /// Whether any row gives a speed.
    is_known: bool,
    speed: String,
    interval: String,
    expected: Option<String>,
    /// Whether a depth had to be assumed for that.
    depth_is_assumed: bool,
    /// The speed without the rows that do not belong, where there are any.
    without_odd_rows: Option<String>,
    mean: Option<String>,
    free_fit: Option<(String, String)>,
    readings: Table,
    whole: Vec<(&'static str, String)>,
    slips: Vec<FlagLine>,
    remarks: Vec<FlagLine>,
    working: Vec<WorkingLine>,
    recomputed: Vec<RowLine>,
    /// The unit of λ in it: that of the sheet's heading.
    wavelength_unit: &'static str,
    labels: Vec<String>,
    graph: Graph,
}

/// The table of readings as typed.
struct Table {
    headings: Vec<&'static str>,
    rows: Vec<(String, Vec<String>)>,
}

/// One figure, theirs beside ours.
struct WorkingLine {
    what: String,
    theirs: String,
    ours: String,
    arithmetic: String,
    is_wrong: bool,
    verdict: String,
}

/// A row recomputed.
struct RowLine {
    frequency: String,
    wavelength: String,
    reciprocal: String,
    speed: String,
    said: String,
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
        let when = |at| zone.time_or_day(at, now);
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
            kit: report
                .work
                .as_ref()
                .map(|w| w.revision.entry.kit.clone())
                .unwrap_or_default(),
            state: state(&report, &when),
            is_newest: report.is_newest(),
            revision_id: report.work.as_ref().map_or(0, |work| work.revision.id.0),
            body: report.work.as_ref().map(|work| body(work, method)),
            notes: report
                .annotations
                .iter()
                .map(|note| self::note(note, &when))
                .collect(),
            steps: steps(&report, method),
            history,
            refused,
            label: report.bench.label,
            class_set: report.class_set,
        })
    }
}

fn words(kind: revision::Kind, when: &str) -> String {
    match kind {
        revision::Kind::Saved => format!("Saved {when}"),
        revision::Kind::HandedIn => format!("Handed in {when}"),
    }
}

/// How the sheet came to be as it is shown.
fn state(report: &SheetReport, when: &dyn Fn(i64) -> String) -> String {
    let Some(work) = &report.work else {
        return "Nothing stored yet".to_owned();
    };
    let shown = &work.revision;
    match report.bench.handed_in_at {
        Some(at) if shown.kind == revision::Kind::Saved && at < shown.written_at => {
            format!("Handed in {}, changed {}", when(at), when(shown.written_at))
        }
        _ => words(shown.kind, &when(shown.written_at)),
    }
}

fn history(report: &SheetReport, when: &dyn Fn(i64) -> String) -> Vec<PastLine> {
    let shown = report.work.as_ref().map(|work| work.revision.version);
    report
        .past
        .iter()
        .map(|past| PastLine {
            version: past.version,
            words: words(past.kind, &when(past.written_at)),
            is_shown: shown == Some(past.version),
        })
        .collect()
}

fn body(work: &Work, method: Method) -> Body {
    let assessment = &work.assessment;
    let typed = &work.revision.entry.sheet;
    let places = decimals(assessment.speed.iter().map(|s| s.value));
    let speed = assessment.speed;
    Body {
        is_known: speed.is_some(),
        speed: fixed(speed.map(|s| s.value), places),
        interval: speed_range(speed.and_then(|s| s.interval), places),
        expected: speed.and_then(|s| s.expected).map(|expected| {
            let ratio = speed.map_or(1.0, |s| s.value / expected);
            format!(
                "{} m/s; the sheet is {} it",
                fixed(Some(expected), places),
                against(ratio)
            )
        }),
        depth_is_assumed: work.sheet.whole.get(Field::Depth).is_none(),
        without_odd_rows: assessment
            .speed_without_anomalies
            .map(|speed| fixed(Some(speed.value), places)),
        mean: assessment.mean_speed.map(|m| fixed(Some(m.value), places)),
        free_fit: assessment.free_fit.and_then(|line| {
            let intercept = line.intercept?.value;
            (line.df > 0).then(|| {
                (
                    fixed(Some(line.slope.value), places),
                    fixed(Some(intercept), 1),
                )
            })
        }),
        readings: readings(typed),
        whole: whole(method, &typed.whole),
        slips: flag::lines(work, Kind::Slip),
        remarks: flag::lines(work, Kind::Remark),
        working: assessment
            .comparisons
            .iter()
            .filter_map(|c| working_line(work, c))
            .collect(),
        recomputed: recomputed(&assessment.rows, wavelength_unit(method)),
        wavelength_unit: wavelength_unit(method).symbol(),
        graph: graph(work, method),
        labels: assessment
            .rows
            .iter()
            .map(|row| row.label.clone())
            .collect(),
    }
}

fn graph(work: &Work, method: Method) -> Graph {
    let expected = |f| method.expected_speed(&work.sheet, f);
    sheet_graph(
        "sheet-graph",
        "f against 1/λ",
        &work.assessment,
        Some(&expected),
    )
}

fn readings(typed: &TypedSheet) -> Table {
    let is_used = |field: &Field| typed.rows.iter().any(|row| row.cells.contains_key(field));
    let columns: Vec<_> = typed
        .method
        .fields()
        .filter(|f| f.place() == Place::Row && f.role() == Role::Reading)
        .filter(is_used)
        .collect();
    let row = |row: &analysis::sheet::TypedRow| {
        let cells = columns
            .iter()
            .map(|field| as_typed(&row.cells, *field))
            .collect();
        let label = if row.left_out {
            format!("{} (left out)", row.label)
        } else {
            row.label.clone()
        };
        (label, cells)
    };
    Table {
        headings: columns.iter().map(|field| field.label()).collect(),
        rows: typed.rows.iter().map(row).collect(),
    }
}

/// A box as typed, with its unit.
fn as_typed(cells: &Cells, field: Field) -> String {
    cells.get(&field).map_or_else(String::new, |cell| {
        let is_whole =
            Figure::parse(&cell.text).is_ok_and(|f| f.is_some_and(|f| f.unit().is_some()));
        if is_whole {
            return cell.text.trim().to_owned();
        }
        let fixed = field.fixed_unit().map_or("", Unit::symbol);
        let unit = if cell.unit.is_empty() {
            fixed
        } else {
            &cell.unit
        };
        format!("{} {unit}", cell.text.trim()).trim_end().to_owned()
    })
}

fn whole(method: Method, cells: &Cells) -> Vec<(&'static str, String)> {
    method
        .fields()
        .filter(|f| f.place() == Place::Sheet && f.role() == Role::Reading && cells.contains_key(f))
        .map(|field| (field.label(), as_typed(cells, field)))
        .collect()
}

/// Figures that were given, or that could have been for the whole sheet.
fn working_line(work: &Work, comparison: &Comparison) -> Option<WorkingLine> {
    if comparison.given.is_none() && comparison.row.is_some() {
        return None;
    }
    let label = comparison.field.label();
    let row = comparison.row.and_then(|row| work.assessment.rows.get(row));
    Some(WorkingLine {
        what: row.map_or_else(
            || label.to_owned(),
            |row| format!("Row {}: {label}", row.label),
        ),
        theirs: comparison
            .given
            .clone()
            .unwrap_or_else(|| "not given".to_owned()),
        ours: comparison.follows.clone().unwrap_or_else(|| "–".to_owned()),
        arithmetic: comparison.arithmetic.clone(),
        is_wrong: comparison.verdict == working::Verdict::Wrong,
        verdict: match comparison.verdict {
            working::Verdict::Right => comparison.read_in.map_or_else(
                || "agrees".to_owned(),
                |unit| format!("no unit; agrees if {} is meant", unit.symbol()),
            ),
            working::Verdict::Wrong => "does not agree".to_owned(),
            working::Verdict::Unjudged => String::new(),
        },
    })
}

fn wavelength_unit(method: Method) -> Unit {
    method
        .heading_unit(Field::Wavelength)
        .unwrap_or(Unit::Metre)
}

fn recomputed(rows: &[RowResult], unit: Unit) -> Vec<RowLine> {
    let column = |figure: &dyn Fn(&RowResult) -> Option<f64>| {
        decimals_of_smallest(rows.iter().filter_map(figure))
    };
    let wavelength = |row: &RowResult| row.wavelength.map(|m| m / unit.si());
    let (f, l) = (column(&|r| r.frequency), column(&wavelength));
    let (x, v) = (column(&|r| r.reciprocal), column(&|r| r.speed));
    let line = |row: &RowResult| RowLine {
        frequency: fixed(row.frequency, f),
        wavelength: fixed(wavelength(row), l),
        reciprocal: fixed(row.reciprocal, x),
        speed: fixed(row.speed, v),
        said: said(rows, row),
    };
    rows.iter().map(line).collect()
}

/// The figures that a note may be about: those that the sheet holds.
fn steps(report: &SheetReport, method: Method) -> Vec<(&'static str, &'static str)> {
    let Some(work) = &report.work else {
        return Vec::new();
    };
    let is_used = |field: &Field| {
        let in_rows = work
            .sheet
            .rows
            .iter()
            .any(|row| row.entries.get(*field).is_some());
        in_rows || work.sheet.whole.get(*field).is_some()
    };
    method
        .fields()
        .filter(is_used)
        .map(|field| (field.name(), field.label()))
        .collect()
}

fn said(rows: &[RowResult], row: &RowResult) -> String {
    let mut said = Vec::new();
    if row.left_out {
        said.push("The group left it out.".to_owned());
    }
    match row.standing {
        Standing::Belongs => {}
        Standing::Mentioned => said.push("If one row is odd, it is this one.".to_owned()),
        Standing::Anomalous => said.push("It does not belong with the others.".to_owned()),
    }
    if let Some(first) = row.repeats.and_then(|first| rows.get(first)) {
        said.push(format!("Repeats the frequency of row {}.", first.label));
    }
    said.join(" ")
}

fn note(note: &Annotation, when: &dyn Fn(i64) -> String) -> Note {
    let step = note
        .step
        .as_deref()
        .and_then(Field::named)
        .map(|field| field.label().to_owned());
    let row = note.row_label.as_ref().map(|label| format!("row {label}"));
    let about: Vec<_> = row.into_iter().chain(step).collect();
    Note {
        about: if about.is_empty() {
            "the sheet".to_owned()
        } else {
            about.join(", ")
        },
        body: note.body.clone(),
        by: note.by.clone(),
        when: when(note.written_at),
    }
}
