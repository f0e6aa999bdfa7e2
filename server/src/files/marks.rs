//! The marks file: one line a group and point, and one with the group's total.

use std::io::Write;

use super::cell;

/// The columns, in their order.
pub const COLUMNS: [&str; 13] = [
    "class",
    "group",
    "point",
    "title",
    "marks",
    "awarded",
    "suggested",
    "reason",
    "marked_by",
    "marked_at",
    "revision",
    "earlier",
    "point_changed",
];

/// What stands as the title of a group's total.
const TOTAL: &str = "total";

/// The marks of one group.
#[derive(Clone, Debug)]
pub struct Group {
    /// The label of its bench.
    pub label: String,
    /// Of each point, in the order of the scheme.
    pub points: Vec<Point>,
}

/// How one point of one group stands.
#[derive(Clone, Debug)]
pub struct Point {
    /// Its place in the scheme, from 1.
    pub number: i64,
    /// What it asks.
    pub title: String,
    /// At most so many marks.
    pub marks: i64,
    /// What the tool suggested when the mark was given; without a mark, what
    /// it suggests now. `None` where it suggests nothing.
    pub suggested: Option<i64>,
    /// The mark; `None` where none stands.
    pub mark: Option<Mark>,
}

/// A mark that stands.
#[derive(Clone, Debug)]
pub struct Mark {
    /// How many.
    pub awarded: i64,
    /// The marker's reason; blank where none was given.
    pub reason: String,
    /// Name of the marker.
    pub by: String,
    /// When, in the school's time, `yyyy-mm-dd hh:mm`.
    pub at: String,
    /// Version of the sheet that was on the screen; `None` where nothing was
    /// stored.
    pub revision: Option<i64>,
    /// Whether the sheet was stored again since.
    pub is_on_earlier_revision: bool,
    /// Whether the point has changed in the scheme since.
    pub has_point_changed: bool,
}

/// Writes the marks of a class.
///
/// # Errors
/// When the output cannot be written.
pub fn write(out: impl Write, class: &str, groups: &[Group]) -> csv::Result<()> {
    let mut out = csv::Writer::from_writer(out);
    out.write_record(COLUMNS)?;
    for group in groups {
        for point in &group.points {
            out.write_record(record(class, &group.label, point))?;
        }
        out.write_record(total(class, group))?;
    }
    Ok(out.flush()?)
}

fn record(class: &str, group: &str, point: &Point) -> [String; COLUMNS.len()] {
    let mark = point.mark.as_ref();
    let of_mark = |text: fn(&Mark) -> String| mark.map_or_else(String::new, text);
    [
        cell::typed(class).into_owned(),
        cell::typed(group).into_owned(),
        point.number.to_string(),
        cell::typed(&point.title).into_owned(),
        point.marks.to_string(),
        of_mark(|mark| mark.awarded.to_string()),
        number(point.suggested),
        of_mark(|mark| cell::typed(&mark.reason).into_owned()),
        of_mark(|mark| cell::typed(&mark.by).into_owned()),
        of_mark(|mark| mark.at.clone()),
        of_mark(|mark| number(mark.revision)),
        of_mark(|mark| yes(mark.is_on_earlier_revision)),
        of_mark(|mark| yes(mark.has_point_changed)),
    ]
}

/// Marks so far; none where nothing is marked.
fn total(class: &str, group: &Group) -> [String; COLUMNS.len()] {
    let marks: i64 = group.points.iter().map(|point| point.marks).sum();
    let awarded = group.points.iter().filter_map(|point| point.mark.as_ref());
    let awarded: Vec<i64> = awarded.map(|mark| mark.awarded).collect();
    let sum = (!awarded.is_empty()).then(|| awarded.iter().sum());
    let mut record = [const { String::new() }; COLUMNS.len()];
    record[0] = cell::typed(class).into_owned();
    record[1] = cell::typed(&group.label).into_owned();
    TOTAL.clone_into(&mut record[3]);
    record[4] = marks.to_string();
    record[5] = number(sum);
    record
}

fn number(number: Option<i64>) -> String {
    number.map_or_else(String::new, |number| number.to_string())
}

fn yes(is: bool) -> String {
    if is { "yes" } else { "no" }.to_owned()
}
