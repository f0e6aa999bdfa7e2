//! The record of a closed round: a line for each thing that it says.

use crate::db::moderation_record::RecordEntry;
use crate::report::moderation::record::{
    AgainLine, AnchorLine, Decided, DecisionLine, MarkLine, PointLine, Record, SheetLine, SheetName,
};
use crate::table::Table;

/// The columns, in their order.
const COLUMNS: [&str; 27] = [
    "about",
    "at",
    "by",
    "text",
    "decision",
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
    "stands",
    "stands_by",
    "stands_at",
    "stands_reason",
    "done",
    "of",
];

/// A line: by column what is not blank.
type Cells = Vec<(&'static str, String)>;

/// Makes the table of a record, with times as `stamp` writes them.
pub fn table(record: &Record, entries: &[RecordEntry], stamp: &dyn Fn(i64) -> String) -> Table {
    let lines = lines(record, entries, stamp);
    let mut table = Table::of(&lines);
    for column in COLUMNS {
        table = table.text(column, |cells| {
            let cell = cells.iter().find(|(name, _)| *name == column);
            cell.map_or("", |(_, text)| text)
        });
    }
    table.table()
}

fn lines(record: &Record, entries: &[RecordEntry], stamp: &dyn Fn(i64) -> String) -> Vec<Cells> {
    let said = |about: &str, at: i64, by: &str, text: &str| {
        vec![
            ("about", about.to_owned()),
            ("at", stamp(at)),
            ("by", by.to_owned()),
            ("text", text.to_owned()),
        ]
    };
    let mut lines = facts(record);
    let steps = record.steps.iter();
    lines.extend(steps.map(|step| said("step", step.at, &step.by, step.what())));
    let anchors = record.anchors.iter();
    lines.extend(anchors.flat_map(|anchor| marks_of_anchor(record, anchor)));
    for ruling in &record.rulings {
        let mut cells = said("ruling", ruling.at, &ruling.by, &ruling.body);
        cells.push(("title", ruling.title.clone()));
        lines.push(cells);
    }
    for sheet in &record.sheets {
        let points = sheet.points.iter();
        lines.extend(points.map(|point| marks(sheet, point, stamp)));
    }
    for decision in &record.decisions {
        let about = match decision.is_replaced {
            true => "decision, replaced",
            false => "decision",
        };
        let mut cells = said(about, decision.at, &decision.by, &decision.reason);
        cells.extend(decided(record, decision));
        lines.push(cells);
    }
    lines.extend(record.again.iter().map(|again| given_anew(record, again)));
    let entries = entries.iter();
    lines.extend(entries.map(|entry| said("later entry", entry.at, &entry.by, &entry.body)));
    lines
}

/// Lists what the round is about.
fn facts(record: &Record) -> Vec<Cells> {
    let tolerance = record.comparison.tolerance;
    let facts = [
        ("name", record.name.clone()),
        ("mark scheme", record.scheme.clone()),
        ("markers", record.markers.join("; ")),
        ("tolerance of a sheet", tolerance.total.to_string()),
        ("tolerance of a point", tolerance.point.to_string()),
        ("seed", record.seed.clone()),
    ];
    let facts = facts.into_iter().map(|(title, text)| {
        let about = ("about", "round".to_owned());
        vec![about, ("title", title.to_owned()), ("text", text)]
    });
    let sets = record.class_sets.iter().map(|set| {
        let about = ("about", "class set".to_owned());
        vec![
            about,
            ("class", set.class.clone()),
            ("date", set.held_on.clone()),
        ]
    });
    facts.chain(sets).collect()
}

fn named(name: &SheetName) -> Cells {
    vec![
        ("sheet", format!("{}/{}", name.class_set, name.label)),
        ("class", name.class.clone()),
        ("date", name.held_on.clone()),
        ("group", name.label.clone()),
    ]
}

/// Everyone's total of an anchor, and marks of the points that they differ on.
fn marks_of_anchor(record: &Record, anchor: &AnchorLine) -> Vec<Cells> {
    let differing = anchor.differing.iter();
    let differing = differing.map(|point| (point.title.as_str(), &point.marks));
    let all = std::iter::once(("total", &anchor.totals)).chain(differing);
    all.flat_map(|(title, marks)| {
        let markers = record.markers.iter().zip(marks);
        markers.map(move |(marker, marks)| {
            let mut cells = vec![("about", "anchor".to_owned()), ("by", marker.to_owned())];
            cells.extend(named(&anchor.sheet));
            cells.push(("title", title.to_owned()));
            cells.extend(marks.map(|marks| ("stands", marks.to_string())));
            cells
        })
    })
    .collect()
}

/// Returns a point of a sheet of the sample.
fn marks(sheet: &SheetLine, point: &PointLine, stamp: &dyn Fn(i64) -> String) -> Cells {
    let mut cells = vec![("about", "marks".to_owned())];
    cells.extend(named(&sheet.sheet));
    cells.push(("drawn_as", crate::words::taken(&sheet.why).to_owned()));
    cells.push(("point", point.number.to_string()));
    cells.push(("title", point.title.clone()));
    cells.push(("marks", point.most.to_string()));
    let columns = [
        ["first", "first_by", "first_at", "first_reason"],
        ["second", "second_by", "second_at", "second_reason"],
        ["stands", "stands_by", "stands_at", "stands_reason"],
    ];
    let marks = [&point.first, &point.second, &point.stands];
    for (columns, mark) in columns.into_iter().zip(marks) {
        cells.extend(mark.iter().flat_map(|mark| given(columns, mark, stamp)));
    }
    if point.is_marked_since {
        cells.push((
            "text",
            "marked since the draw, outside the round".to_owned(),
        ));
    }
    cells
}

fn given(
    [marks, by, at, why]: [&'static str; 4],
    mark: &MarkLine,
    stamp: &dyn Fn(i64) -> String,
) -> Cells {
    vec![
        (marks, mark.marks.to_string()),
        (by, mark.by.clone()),
        (at, stamp(mark.at)),
        (why, mark.says()),
    ]
}

/// Says what a decision is about, and the mark that it says.
fn decided(record: &Record, decision: &DecisionLine) -> Cells {
    let mut cells = match (&decision.sheet, decision.class_set) {
        (Some(sheet), _) => named(sheet),
        (None, id) => of_class(record, id.unwrap_or(0)),
    };
    let point = decision.point.as_deref().unwrap_or("every point");
    cells.push(("title", point.to_owned()));
    let (words, marks) = match decision.decided {
        Decided::FirstStands => ("first mark stands", None),
        Decided::Agreed(marks) => ("agreed", Some(marks)),
        Decided::Again => ("to be marked again", None),
        Decided::NotAgain => ("not to be marked again", None),
    };
    cells.push(("decision", words.to_owned()));
    cells.extend(marks.map(|marks| ("stands", marks.to_string())));
    cells
}

fn of_class(record: &Record, id: i64) -> Cells {
    let set = record.class_sets.iter().find(|set| set.id == id);
    set.map_or_else(Vec::new, |set| {
        vec![("class", set.class.clone()), ("date", set.held_on.clone())]
    })
}

fn given_anew(record: &Record, again: &AgainLine) -> Cells {
    let mut cells = vec![("about", "marked again".to_owned())];
    cells.extend(of_class(record, again.class_set));
    let point = again.point.as_deref().unwrap_or("every point");
    cells.push(("title", point.to_owned()));
    cells.push(("done", again.done.to_string()));
    cells.push(("of", again.of.to_string()));
    cells
}
