//! The record as its page shows it.

use analysis::moderation::comparison::{Agreement, Comparison, Person};

use crate::clock::long_date;
use crate::pages::moderation::called;
use crate::pages::moderation::comparison::figures::{marks as signed_marks, plain, range};
use crate::report::moderation::each_once;
use crate::report::moderation::record::{Decided, PointLine, Record, SheetLine, SheetName};
use crate::report::moderation::verdict::{Whose, one_colleague, words};
use crate::report::number::{self, signed};

/// A sheet of the sample: a line of the first table.
pub(super) struct SheetView {
    pub(super) called: String,
    pub(super) why: String,
    pub(super) first_by: String,
    pub(super) second_by: String,
    pub(super) first: String,
    pub(super) second: String,
    pub(super) apart: String,
    pub(super) stands: String,
    /// Each of its points, in the order of [`columns`].
    pub(super) points: Vec<String>,
}

/// Something that was decided.
pub(super) struct DecisionView {
    /// The sheet or the class.
    pub(super) about: String,
    pub(super) what: String,
    pub(super) reason: String,
    pub(super) by: String,
    pub(super) when: String,
    /// Whether the same was decided anew later.
    pub(super) is_replaced: bool,
}

/// A line of the comparison.
pub(super) struct AgreementView {
    pub(super) name: String,
    pub(super) n: usize,
    pub(super) mean: String,
    pub(super) interval: String,
    pub(super) sd: String,
    pub(super) within: usize,
    pub(super) exact: usize,
    pub(super) says: Vec<String>,
}

/// A point of the sample: a column of the table of all marks.
pub(super) struct Column {
    key: i64,
    pub(super) number: i64,
    pub(super) title: String,
}

/// The points of the sample, each once, in the order of their numbers.
pub(super) fn columns(record: &Record) -> Vec<Column> {
    let mut points: Vec<&PointLine> = record.sheets.iter().flat_map(|s| &s.points).collect();
    points.sort_by_key(|point| (point.number, point.key));
    let mut columns: Vec<Column> = Vec::new();
    for point in points {
        if columns.iter().all(|column| column.key != point.key) {
            columns.push(Column {
                key: point.key,
                number: point.number,
                title: point.title.clone(),
            });
        }
    }
    columns
}

/// A sheet by its class, date and group.
pub(super) fn called_sheet(sheet: &SheetName) -> String {
    called(&sheet.class, &sheet.held_on, &sheet.label)
}

pub(super) fn sheet(line: &SheetLine, columns: &[Column]) -> SheetView {
    let difference = line.first.zip(line.second);
    let first_by = line.points.iter().filter_map(|point| point.first.as_ref());
    SheetView {
        called: called_sheet(&line.sheet),
        why: line.why.clone(),
        first_by: each_once(first_by.map(|mark| mark.by.as_str())).join(", "),
        second_by: match line.second {
            Some(_) => line.second_marker.clone(),
            None => format!("{} (did not finish)", line.second_marker),
        },
        first: number::marks(line.first),
        second: number::marks(line.second),
        apart: difference.map_or_else(String::new, |(first, second)| {
            signed((second - first) as f64, 0)
        }),
        stands: number::marks(line.stands),
        points: columns
            .iter()
            .map(|column| marks(line, column.key))
            .collect(),
    }
}

/// Both marks of a point, and the one that stood in the end where it is
/// another than the first: `2, 4 → 3`.
fn marks(line: &SheetLine, key: i64) -> String {
    let Some(point) = line.points.iter().find(|point| point.key == key) else {
        return String::new();
    };
    let first = point.first.as_ref().map(|mark| mark.marks);
    let second = number::marks(point.second.as_ref().map(|mark| mark.marks));
    let both = format!("{}, {second}", number::marks(first));
    let stands = point.stands.as_ref().map(|mark| mark.marks);
    if stands == first {
        both
    } else {
        format!("{both} → {}", number::marks(stands))
    }
}

/// Everything that was decided, oldest first.
pub(super) fn decisions(record: &Record, when: &dyn Fn(i64) -> String) -> Vec<DecisionView> {
    let decisions = record.decisions.iter();
    decisions
        .map(|line| {
            let point = match &line.point {
                Some(point) => format!("point {point}"),
                None => "every point".to_owned(),
            };
            DecisionView {
                about: match (&line.sheet, line.class_set) {
                    (Some(sheet), _) => called_sheet(sheet),
                    (None, id) => called_set(record, id.unwrap_or(0)),
                },
                what: match (line.decided, &line.point) {
                    (Decided::FirstStands, None) => {
                        "First marks stand: all other points".to_owned()
                    }
                    (what, _) => format!("{}: {point}", decided(what)),
                },
                reason: line.reason.clone(),
                by: line.by.clone(),
                when: when(line.at),
                is_replaced: line.is_replaced,
            }
        })
        .collect()
}

fn decided(decided: Decided) -> String {
    match decided {
        Decided::FirstStands => "The first mark stands".to_owned(),
        Decided::Agreed(marks) => format!("Agreed {marks}"),
        Decided::Again => "To be marked again".to_owned(),
        Decided::NotAgain => "Not to be marked again after all".to_owned(),
    }
}

/// Marks that stood in the end though nobody in the round had decided so: the
/// sheet, the point, and the mark.
pub(super) fn marked_since(record: &Record, when: &dyn Fn(i64) -> String) -> Vec<String> {
    let sheets = record.sheets.iter().flat_map(|sheet| {
        let points = sheet.points.iter().filter(|point| point.is_marked_since);
        points.map(move |point| (sheet, point))
    });
    sheets
        .map(|(sheet, point)| {
            let called = called_sheet(&sheet.sheet);
            let now = match &point.stands {
                Some(mark) => format!("{} by {}, {}", mark.marks, mark.by, when(mark.at)),
                None => "no mark".to_owned(),
            };
            format!("{called}, point {} {}: {now}", point.number, point.title)
        })
        .collect()
}

/// The lines of a comparison: all sheets, then each first marker.
pub(super) fn people(record: &Record) -> Vec<AgreementView> {
    let comparison: &Comparison = &record.comparison;
    let name = |id: &i64| record.people.get(id).cloned().unwrap_or_default();
    let whole = comparison.whole.iter().map(|agreement| {
        let verdicts = comparison.verdicts.iter();
        let says = verdicts.map(|one| words(one, agreement, Whose::Everyone));
        line("All sheets".to_owned(), agreement, says.collect())
    });
    let of = |person: &Person, whose: Whose, did: &str| {
        let agreement = &person.agreement;
        let verdicts = person.verdicts.iter();
        let mut says: Vec<String> = verdicts.map(|one| words(one, agreement, whose)).collect();
        let colleagues: Vec<String> = person.colleagues.iter().map(name).collect();
        says.extend(one_colleague(&colleagues, whose));
        line(format!("{}, {did}", name(&person.person)), agreement, says)
    };
    let first = comparison.first_markers.iter();
    let first = first.map(|person| of(person, Whose::First, "first"));
    let second = comparison.second_markers.iter();
    let second = second.map(|person| of(person, Whose::Second, "second"));
    whole.chain(first).chain(second).collect()
}

/// The lines of the points, those that cause disagreement first.
pub(super) fn points(record: &Record) -> Vec<AgreementView> {
    let points = record.comparison.points.iter();
    points
        .map(|point| {
            let title = record.points.get(&point.point).cloned();
            line(title.unwrap_or_default(), &point.agreement, Vec::new())
        })
        .collect()
}

fn line(name: String, agreement: &Agreement, says: Vec<String>) -> AgreementView {
    AgreementView {
        name,
        n: agreement.n,
        mean: signed_marks(agreement.mean.value),
        interval: range(agreement.mean.interval95, signed_marks),
        sd: agreement.sd.map_or_else(String::new, plain),
        within: agreement.within.count,
        exact: agreement.exact.count,
        says,
    }
}

/// A class set by its class and date.
pub(super) fn called_set(record: &Record, id: i64) -> String {
    let set = record.class_sets.iter().find(|set| set.id == id);
    set.map_or_else(String::new, |set| {
        format!("{}, {}", set.class, long_date(&set.held_on))
    })
}
