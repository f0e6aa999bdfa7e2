//! One lane for each thing: its name, a mark for its figure, a bar for the
//! interval.

use super::drawing::{Axis, Curve, Drawing, Mark};
use super::frame::{Place, Ruler};
use super::label::{Label, Side};
use super::scale::Scale;
use super::{Graph, Kind};

/// Where the axis starts and ends. Names stand above their lanes, so that
/// these may be long.
const LEFT: f64 = 24.0;
const RIGHT: f64 = 536.0;
/// The first lane's upper edge.
const TOP: f64 = 8.0;
/// From one lane to the next.
const LANE: f64 = 62.0;
/// From a lane's upper edge to what its name stands on, and to its first mark.
const TO_NAME: f64 = 26.0;
const TO_MARK: f64 = 40.0;
/// Between the marks of one lane.
const BETWEEN: f64 = 12.0;
/// Room for the numbers and the quantity below.
const BELOW: f64 = 68.0;
/// Steps that fit along without crowding their labels.
const MOST: u32 = 6;

/// What is to be drawn.
#[derive(Clone, Debug)]
pub struct Lanes {
    /// Begins the ids of its elements; must be its own on the page.
    pub id: String,
    /// What the graph is of.
    pub title: String,
    /// What it shows, for those who cannot see it.
    pub description: String,
    /// The quantity along, with its unit: `share of groups / %`.
    pub quantity: &'static str,
    /// From top to bottom. Those without a mark are left out.
    pub lanes: Vec<Lane>,
    /// Values that the axis must show whatever the marks are.
    pub from_to: (f64, f64),
    /// Value at which a line runs from top to bottom.
    pub line: Option<f64>,
    /// What the crosses are, and the bars.
    pub key: String,
    /// What the open circles are.
    pub open: String,
}

/// One thing.
#[derive(Clone, Debug)]
pub struct Lane {
    /// Its name, above it.
    pub name: String,
    /// Its figures: this year's, then others.
    pub marks: Vec<LaneMark>,
}

impl Lane {
    /// Returns the lane of a figure and of its like of the year before, either
    /// of which may be wanting.
    pub fn new(name: impl Into<String>, now: Option<LaneMark>, before: Option<LaneMark>) -> Self {
        let before = before.map(|mark| LaneMark {
            is_open: true,
            ..mark
        });
        Self {
            name: name.into(),
            marks: now.into_iter().chain(before).collect(),
        }
    }
}

/// A figure of a lane, marked by a cross.
#[derive(Clone, Copy, Debug, Default)]
pub struct LaneMark {
    /// The figure.
    pub value: f64,
    /// Its interval, where it has one.
    pub interval: Option<(f64, f64)>,
    /// Whether it is marked by an open circle.
    pub is_open: bool,
    /// Whether the axis need not reach to the ends of its interval. One that
    /// rests on too little would squeeze all others; its bar then runs off.
    pub is_wide: bool,
}

impl LaneMark {
    /// Returns a cross with a bar.
    #[must_use]
    pub fn new(value: f64, interval: Option<(f64, f64)>) -> Self {
        Self {
            value,
            interval,
            ..Self::default()
        }
    }
}

/// Draws the lanes that have a mark. Returns `None` where none has.
#[must_use]
pub fn lanes(of: Lanes) -> Option<Graph> {
    let seen = of.lanes.iter().filter(|lane| !lane.marks.is_empty());
    let seen: Vec<&Lane> = seen.collect();
    if seen.is_empty() {
        return None;
    }
    let ruler = Ruler::between(LEFT, RIGHT, scale(&of, &seen)?);
    let mut bottom = TOP;
    let (mut marks, mut names) = (Vec::new(), Vec::new());
    for lane in seen {
        names.push(Label {
            corner: Place::new(LEFT, bottom + TO_NAME),
            side: Side::AboveRight,
            leads_to: None,
            lines: vec![lane.name.clone()],
        });
        let levels = (0..).map(|number| bottom + TO_MARK + f64::from(number) * BETWEEN);
        marks.extend(
            lane.marks
                .iter()
                .zip(levels)
                .map(|(mark, y)| drawn(mark, y, &ruler)),
        );
        bottom += LANE + BETWEEN * (lane.marks.len() - 1) as f64;
    }
    let line = of.line.map(|value| Curve {
        class: "expected",
        places: [TOP, bottom]
            .map(|y| Place::new(ruler.at(value), y))
            .to_vec(),
        label: None,
    });
    let has_open = marks.iter().any(|mark| mark.kind == Kind::LeftOut);
    let key = std::iter::once(of.key).chain(has_open.then_some(of.open));
    Some(Graph {
        id: of.id,
        title: of.title,
        description: of.description,
        key: key.collect(),
        points: None,
        drawing: Some(Drawing {
            height: bottom + BELOW,
            sides: [LEFT, RIGHT],
            ends: [TOP, bottom],
            along: ruler.axis(of.quantity),
            up: Axis::default(),
            curves: line.into_iter().collect(),
            marks,
            names,
        }),
    })
}

fn drawn(mark: &LaneMark, y: f64, ruler: &Ruler) -> Mark {
    let kind = if mark.is_open {
        Kind::LeftOut
    } else {
        Kind::Cross
    };
    let bar = mark.interval;
    Mark {
        bar: bar.map(|(low, high)| (ruler.at(low), ruler.at(high))),
        ..Mark::new(Place::new(ruler.at(mark.value), y), kind)
    }
}

fn scale(of: &Lanes, lanes: &[&Lane]) -> Option<Scale> {
    let marks = || lanes.iter().flat_map(|lane| &lane.marks);
    let kept = marks().filter(|mark| !mark.is_wide);
    let ends = kept.filter_map(|mark| mark.interval);
    let values = marks()
        .map(|mark| mark.value)
        .chain(ends.flat_map(|(low, high)| [low, high]))
        .chain(of.line)
        .filter(|value| value.is_finite());
    let (low, high) = values.fold(of.from_to, |(low, high), value| {
        (low.min(value), high.max(value))
    });
    Scale::around(low, high, MOST)
}
