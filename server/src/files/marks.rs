//! The marks file: one line a group and point, and one with the group's total.

use std::collections::HashMap;

use crate::clock::Zone;
use crate::db::scheme::MarkingPoint;
use crate::ids::RevisionId;
use crate::report::desk::{Desk, Mark, OnDesk, PointStanding};
use crate::table::Table;

/// What stands as the title of a group's total.
const TOTAL: &str = "total";

/// A line: a sheet, and one of its points; without one, its total.
struct MarkRow<'a>(&'a OnDesk, Option<(&'a MarkingPoint, &'a PointStanding)>);

/// Makes the table of the marks of a class, in the school's time. `versions`
/// are those of the stored sheets.
#[must_use]
pub fn table(desk: &Desk, versions: &HashMap<RevisionId, i64>, zone: &Zone) -> Table {
    let mut lines = Vec::new();
    for sheet in &desk.sheets {
        let points = desk.points.iter().zip(&sheet.marks.points);
        lines.extend(points.map(|point| MarkRow(sheet, Some(point))));
        lines.push(MarkRow(sheet, None));
    }
    let all: i64 = desk.points.iter().map(|p| i64::from(p.point.marks)).sum();
    Table::of(&lines)
        .text("class", |_| &desk.class_set.class_name)
        .text("group", |MarkRow(sheet, _)| &sheet.label)
        .figure("point", |line| blank(line.point().map(|p| p.number)))
        .text("title", |l| l.point().map_or(TOTAL, |p| &p.point.title))
        .figure("marks", |l| l.point().map_or(all, |p| p.point.marks.into()))
        .figure("awarded", |line| blank(line.awarded()))
        .figure("suggested", |line| blank(line.suggested()))
        .text("reason", |line| line.mark().map_or("", |mark| &mark.why))
        .text("marked_by", |line| line.mark().map_or("", |mark| &mark.by))
        .text("marked_at", |line| {
            blank(line.mark().map(|mark| zone.stamp(mark.marked_at)))
        })
        .figure("revision", |line| {
            let id = line.mark().and_then(|mark| mark.revision_id);
            blank(id.and_then(|id| versions.get(&id)))
        })
        .text("earlier", |l| l.is(|point| point.is_on_earlier_revision))
        .text("point_changed", |l| {
            l.is(|point| point.is_of_earlier_version)
        })
        .table()
}

impl<'a> MarkRow<'a> {
    fn point(&self) -> Option<&'a MarkingPoint> {
        self.1.map(|(point, _)| point)
    }

    fn mark(&self) -> Option<&'a Mark> {
        self.1.and_then(|(_, standing)| standing.mark.as_ref())
    }

    /// Returns the mark, or the marks so far. Returns `None` where none stands.
    fn awarded(&self) -> Option<i64> {
        if self.1.is_some() {
            return self.mark().map(|mark| mark.awarded);
        }
        let marks = self.0.marks.points.iter();
        let awarded = marks.filter_map(|point| Some(point.mark.as_ref()?.awarded));
        awarded.reduce(|sum, mark| sum + mark)
    }

    /// Returns what was suggested when the mark was given; without a mark,
    /// what is suggested now.
    fn suggested(&self) -> Option<i64> {
        let (_, standing) = self.1?;
        let now = standing.suggestion.as_ref().map(|s| i64::from(s.marks));
        self.mark().map_or(now, |mark| mark.suggested)
    }

    /// Says whether something is so of a mark that stands.
    fn is(&self, so: impl Fn(&PointStanding) -> bool) -> &'static str {
        let marked = self.1.filter(|(_, standing)| standing.mark.is_some());
        marked.map_or("", |(_, standing)| if so(standing) { "yes" } else { "no" })
    }
}

fn blank<T: ToString>(value: Option<T>) -> String {
    value.map_or_else(String::new, |value| value.to_string())
}
