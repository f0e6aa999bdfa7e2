//! The record of a closed round: a line for each thing that was done, each
//! ruling, each point of each sheet, each class that is marked again and each
//! later entry.

use std::io::Write;

use super::cell;
use crate::db::moderation_record::Entry;
use crate::report::moderation::record::{
    AgainLine, DecisionLine, MarkLine, PointLine, Record, SheetLine,
};

/// The columns, in their order.
pub const COLUMNS: [&str; 24] = [
    "about",
    "at",
    "by",
    "text",
    "sheet",
    "class",
    "date",
    "group",
    "drawn_as",
    "point",
    "title",
    "marks",
    "first",
    "first_by",
    "first_at",
    "first_reason",
    "second",
    "second_by",
    "second_at",
    "second_reason",
    "settled",
    "decision",
    "done",
    "of",
];

/// A line: by column what is not blank.
type Cells = Vec<(&'static str, String)>;

/// Writes a record, with times as `stamp` writes them.
///
/// # Errors
/// When the output cannot be written.
pub fn write(
    out: impl Write,
    record: &Record,
    entries: &[Entry],
    stamp: &dyn Fn(i64) -> String,
) -> csv::Result<()> {
    let mut out = csv::Writer::from_writer(out);
    out.write_record(COLUMNS)?;
    for cells in lines(record, entries, stamp) {
        let line = COLUMNS.map(|column| {
            let cell = cells.iter().find(|(name, _)| *name == column);
            cell.map_or("", |(_, text)| text.as_str())
        });
        out.write_record(line)?;
    }
    Ok(out.flush()?)
}

fn lines(record: &Record, entries: &[Entry], stamp: &dyn Fn(i64) -> String) -> Vec<Cells> {
    let said = |about: &str, at: i64, by: &str, text: &str| {
        vec![
            ("about", about.to_owned()),
            ("at", stamp(at)),
            ("by", cell::typed(by).into_owned()),
            ("text", cell::typed(text).into_owned()),
        ]
    };
    let mut lines = Vec::new();
    let steps = record.steps.iter();
    lines.extend(steps.map(|step| said("step", step.at, &step.by, &step.what)));
    for ruling in &record.rulings {
        let mut cells = said("ruling", ruling.at, &ruling.by, &ruling.body);
        cells.push(("title", cell::typed(&ruling.title).into_owned()));
        lines.push(cells);
    }
    for sheet in &record.sheets {
        let points = sheet.points.iter();
        lines.extend(points.map(|point| marks(sheet, point, stamp)));
        if let Some(whole) = &sheet.whole {
            let mut cells = said("whole sheet", whole.at, &whole.by, &whole.reason);
            cells.extend(named(sheet));
            cells.push(("decision", "all first marks stand".to_owned()));
            lines.push(cells);
        }
    }
    for again in &record.again {
        let mut cells = said("marked again", again.at, &again.by, &again.reason);
        cells.extend(of_class(record, again));
        lines.push(cells);
    }
    let entries = entries.iter();
    lines.extend(entries.map(|entry| said("later entry", entry.at, &entry.by, &entry.body)));
    lines
}

fn named(sheet: &SheetLine) -> Cells {
    let name = &sheet.sheet;
    vec![
        ("sheet", format!("{}/{}", name.class_set, name.label)),
        ("class", cell::typed(&name.class).into_owned()),
        ("date", name.held_on.clone()),
        ("group", name.label.clone()),
        ("drawn_as", cell::typed(&sheet.why).into_owned()),
    ]
}

/// A point of a sheet, with what was decided on it.
fn marks(sheet: &SheetLine, point: &PointLine, stamp: &dyn Fn(i64) -> String) -> Cells {
    let mut cells = vec![("about", "marks".to_owned())];
    cells.extend(named(sheet));
    cells.push(("point", point.number.to_string()));
    cells.push(("title", cell::typed(&point.title).into_owned()));
    cells.push(("marks", point.most.to_string()));
    let first = ["first", "first_by", "first_at", "first_reason"];
    let second = ["second", "second_by", "second_at", "second_reason"];
    cells.extend(given(first, point.first.as_ref(), stamp));
    cells.extend(given(second, point.second.as_ref(), stamp));
    if let Some(settled) = point.settled {
        cells.push(("settled", settled.to_string()));
    }
    cells.extend(decided(point.decision.as_ref(), point.is_again, stamp));
    cells
}

fn given(
    [marks, by, at, why]: [&'static str; 4],
    mark: Option<&MarkLine>,
    stamp: &dyn Fn(i64) -> String,
) -> Cells {
    let Some(mark) = mark else {
        return Vec::new();
    };
    vec![
        (marks, mark.marks.to_string()),
        (by, cell::typed(&mark.by).into_owned()),
        (at, stamp(mark.at)),
        (why, cell::typed(&mark.why).into_owned()),
    ]
}

fn decided(
    decision: Option<&DecisionLine>,
    is_again: bool,
    stamp: &dyn Fn(i64) -> String,
) -> Cells {
    match decision {
        None if is_again => vec![("decision", "marked again".to_owned())],
        None => Vec::new(),
        Some(one) => {
            let what = match one.agreed {
                Some(_) => "agreed",
                None => "first mark stands",
            };
            vec![
                ("at", stamp(one.at)),
                ("by", cell::typed(&one.by).into_owned()),
                ("text", cell::typed(&one.reason).into_owned()),
                ("decision", what.to_owned()),
            ]
        }
    }
}

fn of_class(record: &Record, again: &AgainLine) -> Cells {
    let mut sets = record.class_sets.iter();
    let mut cells = vec![
        ("done", again.done.to_string()),
        ("of", again.of.to_string()),
    ];
    if let Some(set) = sets.find(|set| set.id == again.class_set) {
        cells.push(("class", cell::typed(&set.class).into_owned()));
        cells.push(("date", set.held_on.clone()));
    }
    let point = again.point.as_deref().unwrap_or("every point");
    cells.push(("title", cell::typed(point).into_owned()));
    cells
}
