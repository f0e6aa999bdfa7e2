//! A feedback sheet, ready for a page and for one side of paper.

use analysis::field::{Field, Place, Role};
use analysis::sheet::{Cells, TypedSheet};
use analysis::working::Verdict;
use askama::filters::HtmlSafe;

use crate::db::annotation::Annotation;
use crate::db::class_set::ClassSet;
use crate::db::scheme::MarkingPoint;
use crate::pages::sheet::body::as_typed;
use crate::report::desk::PointStanding;
use crate::report::feedback::{Feedback, FeedbackSheet};
use crate::report::flag::FlagLine;
use crate::report::{Work, about};
use crate::table::{Cell, PageTable, Table};
use crate::words::{Say, capitalised};

/// Rows that are shown before the rest is only counted.
const MOST_ROWS: usize = 10;

/// Letters of notes that fit one side beside everything else.
const MOST_LETTERS: usize = 1600;

pub(super) struct SheetView<'a> {
    /// The language of its group.
    pub(super) say: Say,
    pub(super) class_set: &'a ClassSet,
    pub(super) label: &'a str,
    pub(super) typed: Option<SheetTyped>,
    pub(super) first: Option<FlagLine>,
    /// What they did there, in words for the group.
    pub(super) told: String,
    /// What its teacher found about the readings.
    pub(super) found: String,
    pub(super) notes: Vec<NoteView>,
    /// What the points ask, and how each stands.
    pub(super) points: Vec<(&'a MarkingPoint, &'a PointStanding)>,
    /// Marks awarded and marks there are; `None` while a point has none.
    pub(super) total: Option<(i64, u32)>,
    pub(super) next: String,
    /// How tightly it is set on paper: `plain`, `dense`, `densest`
    /// or `densest cut`.
    pub(super) set: &'static str,
}

/// What was read and worked out.
pub(super) struct SheetTyped {
    pub(super) rows: PageTable,
    /// Rows that have no place on paper.
    pub(super) more: usize,
    /// Figures of the whole sheet.
    pub(super) whole: Vec<Figure>,
}

/// A row of it.
struct BoxRow {
    label: String,
    figures: Vec<Figure>,
    is_screen_only: bool,
}

/// One figure.
#[derive(askama::Template)]
#[template(path = "feedback/figure.html")]
pub(super) struct Figure {
    say: Say,
    /// What it is, where no heading says so.
    what: &'static str,
    text: String,
    is_right: bool,
    /// Whether the first wrong turn is here.
    is_first_wrong: bool,
}

// A whole template, which has escaped what it was given.
impl HtmlSafe for Figure {}

pub(super) struct NoteView {
    pub(super) about: String,
    pub(super) body: String,
    /// Whether it has no place on paper.
    pub(super) is_screen_only: bool,
}

/// Readies one group's feedback sheet.
pub(super) fn view<'a>(
    say: Say,
    class_set: &'a ClassSet,
    feedback: &'a Feedback,
    sheet: &'a FeedbackSheet,
) -> SheetView<'a> {
    let points: Vec<_> = feedback.points.iter().zip(&sheet.marks.points).collect();
    let most = points.iter().map(|(asked, _)| asked.point.marks).sum();
    let notes = notes(say, &sheet.notes);
    let first = sheet.first(say);
    let work = sheet.work.as_ref();
    let typed = work.map(|work| typed(say, &sheet.bench.label, work, first.as_ref()));
    SheetView {
        say,
        class_set,
        label: &sheet.bench.label,
        told: first
            .as_ref()
            .map_or_else(String::new, |first| what_they_did(say, first)),
        first,
        found: found(say, &sheet.found),
        total: sheet
            .marks
            .is_complete()
            .then(|| (sheet.marks.total(), most)),
        next: say.next(sheet.next),
        set: setting(typed.as_ref(), &notes, &points),
        typed,
        notes,
        points,
    }
}

impl SheetView<'_> {
    /// Says which practical it is of, which class and when.
    pub(super) fn lead(&self) -> String {
        let (say, set) = (self.say, self.class_set);
        let practical = set.method().map_or("", |method| say.method(method));
        say.sheet_lead(practical, &set.class_name, say.date(&set.held_on))
    }
}

/// Says what the group did; which of two it was cannot be told where both give
/// its figure.
fn what_they_did(say: Say, first: &FlagLine) -> String {
    match first.rival {
        Some(_) => say.told_either(),
        None => say.slip_told(first.slip).to_owned(),
    }
}

/// Says where the teacher found slips in the readings. Returns no text when
/// none was.
fn found(say: Say, rows: &[String]) -> String {
    let place = |row: &String| match row.as_str() {
        "" => say.place_all_rows(),
        row => say.place_a_row(row),
    };
    let places = rows.iter().map(place);
    places
        .reduce(|most, next| say.list_more(most, next))
        .unwrap_or_default()
}

/// Says how tightly the sheet must be set to fit one side: by about how many
/// lines it has.
fn setting(
    typed: Option<&SheetTyped>,
    notes: &[NoteView],
    points: &[(&MarkingPoint, &PointStanding)],
) -> &'static str {
    let on_paper = notes.iter().filter(|note| !note.is_screen_only);
    let note_lines: usize = on_paper
        .map(|note| 1 + note.body.chars().count() / 80)
        .sum();
    let point_lines: usize = points
        .iter()
        .map(|(asked, _)| 1 + asked.point.title.chars().count() / 46)
        .sum();
    let typed_lines = typed.map_or(0, |typed| {
        3 + typed.rows.height() - typed.more + typed.whole.len() / 2
    });
    match note_lines + point_lines.div_ceil(2) + typed_lines {
        0..=26 => "plain",
        27..=36 => "dense",
        37..=52 => "densest",
        // Long titles are cut on paper, though not on the screen.
        _ => "densest cut",
    }
}

fn notes(say: Say, notes: &[Annotation]) -> Vec<NoteView> {
    let mut letters = 0;
    let view = |note: &Annotation| {
        letters += note.body.chars().count();
        NoteView {
            about: about(say, note)
                .as_deref()
                .map(capitalised)
                .unwrap_or_default(),
            body: note.body.clone(),
            is_screen_only: letters > MOST_LETTERS,
        }
    };
    notes.iter().map(view).collect()
}

fn typed(say: Say, label: &str, work: &Work, first: Option<&FlagLine>) -> SheetTyped {
    let sheet = &work.revision.entry.sheet;
    let fields = columns(sheet);
    let figure = |row: Option<usize>, cells: &Cells, field: Field| Figure {
        text: as_typed(cells, field),
        ..judged(say, work, first, row, field)
    };
    let rows = sheet.rows.iter().enumerate().map(|(at, row)| {
        let figures = fields.iter();
        let figures = figures.map(|field| figure(Some(at), &row.cells, *field));
        BoxRow {
            label: match row.left_out {
                true => say.feedback_left_out(&row.label),
                false => row.label.clone(),
            },
            figures: figures.collect(),
            is_screen_only: false,
        }
    });
    let mut rows: Vec<BoxRow> = rows.collect();
    let more = cut(&mut rows);
    let whole = sheet.whole.keys();
    let whole = whole.filter(|field| field.role() == Role::Working);
    let whole = whole.map(|field| Figure {
        what: say.field(*field),
        ..figure(None, &sheet.whole, *field)
    });
    let mut table = Table::of(&rows).text(say.sheet_row(), |row| &row.label);
    for (at, field) in fields.iter().enumerate() {
        table = table.figure(say.field(*field), |row| Cell::drawn(&row.figures[at]));
    }
    let table = table.marked("screen-only", |row| row.is_screen_only);
    SheetTyped {
        more,
        whole: whole.collect(),
        rows: table
            .on_page(say.feedback_table(label), "")
            .class("feedback-table"),
    }
}

/// Keeps the last rows of a long table off the paper, but never one with the
/// first wrong turn in it; how many.
fn cut(rows: &mut [BoxRow]) -> usize {
    let more = rows.len().saturating_sub(MOST_ROWS);
    let plain = |row: &&mut BoxRow| !row.figures.iter().any(|figure| figure.is_first_wrong);
    for row in rows.iter_mut().rev().filter(plain).take(more) {
        row.is_screen_only = true;
    }
    more
}

/// Returns the columns that any row uses, without what is said of it
/// elsewhere.
fn columns(typed: &TypedSheet) -> Vec<Field> {
    let is_used = |field: &Field| typed.rows.iter().any(|row| row.cells.contains_key(field));
    let of_rows = typed.method.fields().filter(|f| f.place() == Place::Row);
    of_rows.filter(is_used).collect()
}

/// Says whether a worked figure is right, or where the first wrong turn was
/// taken.
fn judged(
    say: Say,
    work: &Work,
    first: Option<&FlagLine>,
    row: Option<usize>,
    field: Field,
) -> Figure {
    let mut comparisons = work.assessment.comparisons.iter();
    let found = comparisons.find(|c| c.field == field && c.row == row && c.given.is_some());
    let label = row.map_or("", |row| work.assessment.rows[row].label.as_str());
    let is_first_wrong = first.is_some_and(|first| {
        let is_row = match (&first.key.row_label, &first.example_row) {
            (named, _) if !named.is_empty() => named == label,
            (_, example) if !example.is_empty() => example == label,
            _ => row.is_none(),
        };
        first.key.step == field.name() && is_row
    });
    Figure {
        say,
        what: "",
        text: String::new(),
        is_right: found.is_some_and(|c| c.verdict == Verdict::Right),
        is_first_wrong,
    }
}
