//! The graph of a class: every group's rows on one sheet of graph paper.

use analysis::assess::{Assessment, Standing};
use analysis::stats::line::Line;

use super::points::{Point, marked};
use super::rows::{ExpectedSpeed, Fit, Rows};
use super::{Graph, Kind};
use crate::words::counted;
use crate::words::graph::{NO_GROUP, do_not_belong};

#[derive(Clone, Copy, Debug)]
pub struct GroupPoints<'a> {
    /// Its letter or number, short enough to write beside a point.
    pub name: &'a str,
    pub sheet: &'a Assessment,
    /// Whether it does not belong with the class.
    pub outlier: bool,
}

/// f against 1/λ for the rows of all groups. Most are thin crosses; only the
/// groups and rows that do not belong are named, so that these are seen at
/// once. Rows that a group left out are not drawn.
///
/// `line` is the class's line through the origin; `expected` gives the
/// expected speed (m/s) at a frequency (Hz), and should be `None` where the
/// groups' depths or tensions differ. For `id` see
/// [`super::sheet_graph`].
#[must_use]
pub fn class_graph(
    id: &str,
    title: &str,
    groups: &[GroupPoints<'_>],
    line: Option<&Line>,
    expected: Option<ExpectedSpeed<'_>>,
) -> Graph {
    let points: Vec<_> = groups.iter().flat_map(points_of).collect();
    let drawn = groups.iter().filter(|group| !points_of(group).is_empty());
    let rows = Rows {
        of: format!(
            "{} of {}",
            counted(points.len(), "row", "rows"),
            counted(drawn.count(), "group", "groups")
        ),
        apart: apart(groups, &points),
        points,
        fit: line.map(|line| Fit {
            name: "class best fit",
            gradient: line.slope.value,
        }),
        expected,
    };
    rows.graph(id, title, NO_GROUP)
}

fn points_of(group: &GroupPoints<'_>) -> Vec<Point> {
    let rows = group.sheet.rows.iter().filter(|row| !row.left_out);
    rows.filter_map(|row| {
        let point = Point::of_row(row)?;
        let name = format!("{} {}", group.name, point.name);
        let (kind, label) = match row.standing {
            Standing::Anomalous => (Kind::Ringed, Some(name.clone())),
            _ if group.outlier => (Kind::Apart, Some(group.name.to_owned())),
            _ => (Kind::Cross, None),
        };
        Some(Point {
            name,
            label,
            kind,
            ..point
        })
    })
    .collect()
}

fn apart(groups: &[GroupPoints<'_>], points: &[Point]) -> Vec<String> {
    let outlying = groups.iter().filter(|group| group.outlier);
    let outlying: Vec<_> = outlying.map(|group| group.name).collect();
    let ringed = marked(points, Kind::Ringed);
    let ringed: Vec<_> = ringed.map(|point| point.name.as_str()).collect();
    let groups = do_not_belong("group", "groups", &outlying, "the class");
    let rows = do_not_belong("", "", &ringed, "the other rows of the group");
    [groups, rows].into_iter().flatten().collect()
}
