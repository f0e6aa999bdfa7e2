//! One lane for each thing: its name, a mark for its figure, a bar for the
//! interval.

use askama::Template;
use askama::filters::HtmlSafe;

use super::span::Span;
use crate::chart::AxisLabel;
use crate::chart::frame::{Place, WIDTH};

/// Where the axis starts and ends. Names stand above their lanes, so that
/// these may be long.
const LEFT: f64 = 24.0;
const RIGHT: f64 = 536.0;
/// The first lane's upper edge.
const TOP: f64 = 8.0;
/// From one lane to the next.
const LANE: f64 = 62.0;
/// From a lane's upper edge to its first mark.
const TO_MARK: f64 = 40.0;
/// Between the marks of one lane.
const BETWEEN: f64 = 12.0;
/// Room for the numbers and the quantity below.
const BELOW: f64 = 68.0;
/// Steps that fit along without crowding their labels.
const MOST: u32 = 6;

/// What is to be drawn.
#[derive(Clone, Debug)]
pub struct LanesOf {
    /// Begins the ids of its elements; must be its own on the page.
    pub id: String,
    /// What the graph is of.
    pub title: String,
    /// What it shows, for those who cannot see it.
    pub description: String,
    /// The quantity along, with its unit: `share of groups / %`.
    pub quantity: &'static str,
    /// From top to bottom.
    pub lanes: Vec<Lane>,
    /// Values that the axis must show whatever the marks are.
    pub from_to: (f64, f64),
    /// Values at which lines run from top to bottom.
    pub lines: Vec<f64>,
    /// What the marks mean, one sentence each.
    pub key: Vec<String>,
}

/// One thing.
#[derive(Clone, Debug)]
pub struct Lane {
    /// Its name, above it.
    pub name: String,
    /// Its figures: this year's, then others.
    pub marks: Vec<LaneMark>,
}

/// A figure of a lane.
#[derive(Clone, Copy, Debug)]
pub struct LaneMark {
    /// The figure.
    pub value: f64,
    /// Its interval, where it has one.
    pub interval: Option<(f64, f64)>,
    /// Whether it is marked by an open circle: the year before, say.
    pub is_open: bool,
    /// Whether the axis must reach to the ends of its interval. One that
    /// rests on too little would squeeze all others; its bar then runs off.
    pub is_wide: bool,
}

impl LaneMark {
    /// A figure with its interval, marked by a cross.
    #[must_use]
    pub fn new(value: f64, interval: Option<(f64, f64)>) -> Self {
        Self {
            value,
            interval,
            is_open: false,
            is_wide: false,
        }
    }

    /// The same, marked by an open circle.
    #[must_use]
    pub fn open(self) -> Self {
        Self {
            is_open: true,
            ..self
        }
    }
}

/// The graph, ready for a page.
#[derive(Clone, Debug, Template)]
#[template(path = "chart/lanes.html")]
pub struct LaneGraph {
    of: LanesOf,
    height: f64,
    bottom: f64,
    ticks: Vec<AxisLabel>,
    lines: Vec<f64>,
    lanes: Vec<Drawn>,
}

impl HtmlSafe for LaneGraph {}

#[derive(Clone, Debug)]
struct Drawn {
    name: String,
    baseline: f64,
    marks: Vec<DrawnMark>,
}

#[derive(Clone, Debug)]
struct DrawnMark {
    place: Place,
    is_open: bool,
    bar: Option<(f64, f64)>,
}

impl LaneGraph {
    /// Lays the graph out; `None` where there is nothing to draw.
    #[must_use]
    pub fn draw(of: LanesOf) -> Option<Self> {
        let span = span(&of)?;
        let across = |value: f64| Place::new(LEFT + span.share(value) * (RIGHT - LEFT), 0.0).x;
        let mut top = TOP;
        let lanes = of.lanes.iter().map(|lane| {
            let mut at = top + TO_MARK;
            let marks = lane.marks.iter().map(|mark| {
                let drawn = DrawnMark {
                    place: Place::new(across(mark.value), at),
                    is_open: mark.is_open,
                    bar: mark.interval.map(|(low, high)| (across(low), across(high))),
                };
                at += BETWEEN;
                drawn
            });
            let drawn = Drawn {
                name: lane.name.clone(),
                baseline: top + 22.0,
                marks: marks.collect(),
            };
            top += LANE + BETWEEN * drawn.marks.len().saturating_sub(1) as f64;
            drawn
        });
        let lanes: Vec<Drawn> = lanes.collect();
        if lanes.is_empty() {
            return None;
        }
        let ticks = span.ticks();
        let crowd = ticks.len() > 5;
        let ticks = ticks
            .into_iter()
            .enumerate()
            .map(|(index, tick)| AxisLabel {
                at: Place::new(LEFT + tick.share * (RIGHT - LEFT), 0.0).x,
                text: tick.text,
                minor: crowd && index % 2 == 1,
            });
        Some(Self {
            height: top + BELOW,
            bottom: top,
            ticks: ticks.collect(),
            lines: of.lines.iter().map(|at| across(*at)).collect(),
            lanes,
            of,
        })
    }

    fn left() -> f64 {
        LEFT
    }

    fn right() -> f64 {
        RIGHT
    }

    fn top() -> f64 {
        TOP
    }

    fn width() -> f64 {
        WIDTH
    }
}

fn span(of: &LanesOf) -> Option<Span> {
    let (mut low, mut high) = of.from_to;
    let mut reach = |value: f64| {
        if value.is_finite() {
            low = low.min(value);
            high = high.max(value);
        }
    };
    of.lines.iter().copied().for_each(&mut reach);
    for mark in of.lanes.iter().flat_map(|lane| &lane.marks) {
        reach(mark.value);
        if let Some((low, high)) = mark.interval.filter(|_| !mark.is_wide) {
            reach(low);
            reach(high);
        }
    }
    Span::around(low, high, MOST)
}
