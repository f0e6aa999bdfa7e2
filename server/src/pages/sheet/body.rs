//! What a sheet says, ready for its page: result, slips, readings, working.

use analysis::assess::RowResult;
use analysis::field::{Field, Place, Role};
use analysis::method::Method;
use analysis::scheme::Answer;
use analysis::sheet::Cells;
use analysis::slip::Kind;
use analysis::unit::Unit;
use analysis::working::Verdict;

use crate::chart::{Graph, sheet_graph};
use crate::db::class_set::ClassSet;
use crate::report::Work;
use crate::report::finding::{self, FindingLine};
use crate::report::flag::{self, FlagLine};
use crate::table::{Cell, PageTable, Table};
use crate::words::number::{decimals, decimals_of_smallest, fixed, probability, speed_range};
use crate::words::{Say, capitalised, check, label, version};

/// What there is to show once something is stored.
pub(in crate::pages) struct Body {
    /// Whether any row gives a speed.
    pub(in crate::pages) is_known: bool,
    pub(in crate::pages) speed: String,
    pub(in crate::pages) interval: String,
    pub(in crate::pages) expected: Option<String>,
    /// Whether a depth had to be assumed for that.
    pub(in crate::pages) depth_is_assumed: bool,
    /// The speed without the rows that do not belong, where there are any.
    pub(in crate::pages) without_odd_rows: Option<String>,
    pub(in crate::pages) mean: Option<String>,
    pub(in crate::pages) free_fit: Option<(String, String)>,
    /// The rows as typed, and what follows from each.
    pub(in crate::pages) readings: PageTable,
    pub(in crate::pages) whole: Vec<(&'static str, String)>,
    /// Whether there is any working to judge.
    pub(in crate::pages) has_working: bool,
    /// Each with what its anchor is called.
    pub(in crate::pages) slips: Vec<(String, FlagLine)>,
    pub(in crate::pages) remarks: Vec<FlagLine>,
    /// What the readings suggest; `None` for an earlier version.
    pub(in crate::pages) suggested: Option<Suggested>,
    /// Step by step, theirs beside ours.
    pub(in crate::pages) working: PageTable,
    /// What the group wrote in its own words, each with what it is called.
    pub(in crate::pages) answers: Vec<(String, String)>,
    /// Labels of the rows.
    pub(in crate::pages) labels: Vec<String>,
    pub(in crate::pages) graph: Graph,
}

/// What the readings suggest.
pub(in crate::pages) struct Suggested {
    /// Each with what its anchor is called.
    pub(in crate::pages) likely: Vec<(String, FindingLine)>,
    /// Below the threshold of the summary.
    pub(in crate::pages) less_likely: Vec<(String, FindingLine)>,
    /// How probable it is that the readings hold no slip.
    pub(in crate::pages) no_slip: String,
}

pub(in crate::pages) fn body(work: &Work, class_set: &ClassSet, method: Method) -> Body {
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
            version::expected(expected, ratio, places)
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
        readings: readings(work),
        whole: whole(method, &typed.whole),
        has_working: work.has_working(),
        slips: flag::lines(Say::english(), work, Kind::Slip)
            .into_iter()
            .enumerate()
            .map(|(at, line)| (slip_anchor(at), line))
            .collect(),
        remarks: flag::lines(Say::english(), work, Kind::Remark),
        suggested: suggested(work, class_set),
        working: working(work),
        answers: answers(work),
        graph: graph(work),
        labels: assessment
            .rows
            .iter()
            .map(|row| row.label.clone())
            .collect(),
    }
}

fn suggested(work: &Work, class_set: &ClassSet) -> Option<Suggested> {
    let inference = work.inference.as_ref()?;
    let lines = finding::lines(work).into_iter().enumerate();
    let (likely, less_likely) = lines
        .map(|(at, line)| (suggested_anchor(at), line))
        .partition(|(_, line)| class_set.is_for_summary(line.share));
    Some(Suggested {
        likely,
        less_likely,
        no_slip: probability(inference.no_slip),
    })
}

/// Returns the anchor of a slip on the page, by its place among all (from 0).
pub(in crate::pages) fn slip_anchor(at: usize) -> String {
    format!("slip-{at}")
}

/// Returns the anchor of a finding on the page, by its place among all (from
/// 0).
pub(in crate::pages) fn suggested_anchor(at: usize) -> String {
    format!("suggested-{at}")
}

fn graph(work: &Work) -> Graph {
    let expected = |f| work.sheet.expected_speed(f);
    sheet_graph(
        "sheet-graph",
        "f against 1/λ",
        &work.assessment,
        Some(&expected),
    )
}

/// What a row gives of a column that we work out.
type Figured<'a> = &'a dyn Fn(&RowResult) -> Option<f64>;

fn readings(work: &Work) -> PageTable {
    let (typed, rows) = (&work.revision.entry.sheet, &work.assessment.rows);
    let of_rows = typed.method.fields();
    let of_rows = of_rows.filter(|f| f.place() == Place::Row && f.role() == Role::Reading);
    let is_used = |field: &Field| typed.rows.iter().any(|row| row.cells.contains_key(field));
    let lines: Vec<_> = typed.rows.iter().zip(rows).collect();
    let mut table = Table::of(&lines).text("Row", |(typed, _)| match typed.left_out {
        true => Say::english().feedback_left_out(&typed.label),
        false => typed.label.clone(),
    });
    for field in of_rows.filter(is_used) {
        table = table.figure(label(field), |(typed, _)| as_typed(&typed.cells, field));
    }
    let unit = wavelength_unit(typed.method);
    let wavelength = move |row: &RowResult| row.wavelength.map(|m| m / unit.si());
    let figures: [(&str, &str, Figured<'_>); 4] = [
        ("f", "Hz", &|row| row.frequency),
        ("λ", unit.symbol(), &wavelength),
        ("1/λ", "1/m", &|row| row.reciprocal),
        ("v", "m/s", &|row| row.speed),
    ];
    for (name, unit, of) in figures {
        let places = decimals_of_smallest(rows.iter().filter_map(of));
        table = table
            .figure(name, |(_, row)| fixed(of(row), places))
            .unit(unit);
    }
    table
        .words("Among the others", |(_, row)| version::row(rows, row))
        .on_page(
            "Readings and what follows from them",
            "Each row, and what follows from it",
        )
}

/// Figures that were given, or that could have been for the whole sheet: each
/// judged on the group's own figures before it.
fn working(work: &Work) -> PageTable {
    let judged = work.assessment.comparisons.iter();
    let judged: Vec<_> = judged
        .filter(|one| one.given.is_some() || one.row.is_none())
        .collect();
    Table::of(&judged)
        .text("Figure", |one| {
            let row = one.row.and_then(|row| work.assessment.rows.get(row));
            version::figure(one, row.map(|row| row.label.as_str()))
        })
        .figure("Theirs", |one| {
            Cell::from(one.given.as_deref().unwrap_or(version::NOT_GIVEN)).strong()
        })
        .figure("Follows", |one| one.follows.as_deref().unwrap_or("–"))
        .text("Verdict", |one| version::verdict(one))
        .words("Written out", |one| Say::english().sum(&one.arithmetic))
        .marked("turn", |one| one.verdict == Verdict::Wrong)
        .on_page("Working, theirs beside ours", "Step by step")
        .class("verdict")
}

/// Returns a box as typed, with its unit. Returns no text when nothing was.
pub(in crate::pages) fn as_typed(cells: &Cells, field: Field) -> String {
    let cell = cells.get(&field);
    cell.map_or_else(String::new, |cell| {
        crate::words::sheet::as_typed(field, cell)
    })
}

fn whole(method: Method, cells: &Cells) -> Vec<(&'static str, String)> {
    method
        .fields()
        .filter(|f| f.place() == Place::Sheet && f.role() == Role::Reading && cells.contains_key(f))
        .map(|field| (label(field), as_typed(cells, field)))
        .collect()
}

fn answers(work: &Work) -> Vec<(String, String)> {
    let answers = &work.revision.entry.answers;
    let written =
        Answer::ALL.map(|answer| (capitalised(check::answer(answer)), answers.get(answer)));
    let written = written.into_iter().filter(|(_, text)| !text.is_empty());
    written
        .map(|(what, text)| (what, text.to_owned()))
        .collect()
}

fn wavelength_unit(method: Method) -> Unit {
    method
        .heading_unit(Field::Wavelength)
        .unwrap_or(Unit::Metre)
}
