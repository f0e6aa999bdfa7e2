//! A kit's sheets in date order, with the lines between which they should be.

use askama::Template;
use askama::filters::HtmlSafe;

use super::span::Span;
use crate::chart::AxisLabel;
use crate::chart::frame::{BOTTOM, HEIGHT, LEFT, Place, RIGHT, TOP, WIDTH};

/// Days of the axis: from 1 September to the last of August.
const DAYS: f64 = 366.0;
/// First day of each month, counted from 1 September, with its name.
const MONTHS: [(f64, &str); 12] = [
    (0.0, "Sep"),
    (30.0, "Oct"),
    (61.0, "Nov"),
    (91.0, "Dec"),
    (122.0, "Jan"),
    (153.0, "Feb"),
    (181.0, "Mar"),
    (212.0, "Apr"),
    (242.0, "May"),
    (273.0, "Jun"),
    (303.0, "Jul"),
    (334.0, "Aug"),
];
/// The axis reaches so many standard deviations from the reference: beyond,
/// a sheet is an arrow at the edge.
const REACH: f64 = 4.5;
/// Steps that fit up without crowding their labels.
const MOST: u32 = 8;

/// What is to be drawn.
#[derive(Clone, Debug)]
pub struct DatesOf {
    /// Begins the ids of its elements; must be its own on the page.
    pub id: String,
    /// What the graph is of.
    pub title: String,
    /// What it shows, for those who cannot see it.
    pub description: String,
    /// The ratio that kits are compared with.
    pub reference: f64,
    /// The ratios two and three standard deviations below and above it.
    pub sigma_lines: Option<[f64; 4]>,
    /// The kit's own median.
    pub median: Option<f64>,
    /// The sheets.
    pub sheets: Vec<Dated>,
}

/// A sheet.
#[derive(Clone, Copy, Debug)]
pub struct Dated {
    /// Days since 1 September.
    pub day: f64,
    /// Speed ÷ expected speed.
    pub ratio: f64,
    /// Whether it is left aside.
    pub is_aside: bool,
}

/// The graph, ready for a page.
#[derive(Clone, Debug, Template)]
#[template(path = "chart/dates.html")]
pub struct DateGraph {
    of: DatesOf,
    months: Vec<AxisLabel>,
    ticks: Vec<AxisLabel>,
    lines: Vec<Level>,
    marks: Vec<DateMark>,
}

impl HtmlSafe for DateGraph {}

/// A line from side to side.
#[derive(Clone, Debug)]
struct Level {
    class: &'static str,
    at: f64,
    name: &'static str,
}

#[derive(Clone, Copy, Debug)]
struct DateMark {
    place: Place,
    shape: Shape,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Shape {
    Cross,
    Aside,
    BeyondTop,
    BeyondBottom,
}

impl DateGraph {
    /// Lays the graph out; `None` where there is nothing to draw.
    #[must_use]
    pub fn draw(of: DatesOf) -> Option<Self> {
        let span = span(&of)?;
        let up = |value: f64| Place::new(0.0, BOTTOM - span.share(value) * (BOTTOM - TOP)).y;
        let marks = of.sheets.iter().map(|sheet| DateMark {
            place: Place::new(across(sheet.day), up(sheet.ratio)),
            shape: match sheet {
                sheet if sheet.ratio > span.high => Shape::BeyondTop,
                sheet if sheet.ratio < span.low => Shape::BeyondBottom,
                sheet if sheet.is_aside => Shape::Aside,
                _ => Shape::Cross,
            },
        });
        let marks: Vec<DateMark> = marks.collect();
        if marks.is_empty() {
            return None;
        }
        let ticks = span.ticks().into_iter().map(|tick| AxisLabel {
            at: Place::new(0.0, BOTTOM - tick.share * (BOTTOM - TOP)).y,
            text: tick.text,
            minor: false,
        });
        Some(Self {
            months: months(),
            ticks: ticks.collect(),
            lines: lines(&of, &span, up),
            marks,
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

    fn bottom() -> f64 {
        BOTTOM
    }

    fn width() -> f64 {
        WIDTH
    }

    fn height() -> f64 {
        HEIGHT
    }

    /// What the marks mean.
    fn key(&self) -> Vec<&'static str> {
        let has = |shapes: &[Shape]| self.marks.iter().any(|mark| shapes.contains(&mark.shape));
        let sentences = [
            (true, "Each cross is a sheet."),
            (
                has(&[Shape::Aside]),
                "An open circle is one that was left aside.",
            ),
            (
                has(&[Shape::BeyondTop, Shape::BeyondBottom]),
                "An arrow stands for a sheet beyond the edge of the graph.",
            ),
            (
                self.of.sigma_lines.is_some(),
                "Dashed lines: what it is compared with, and two and three standard deviations of single sheets from it.",
            ),
            (
                self.of.median.is_some(),
                "The full line is the kit’s own median.",
            ),
        ];
        sentences
            .into_iter()
            .filter_map(|(needed, sentence)| needed.then_some(sentence))
            .collect()
    }
}

fn across(day: f64) -> f64 {
    LEFT + (day / DAYS).clamp(0.0, 1.0) * (RIGHT - LEFT)
}

fn months() -> Vec<AxisLabel> {
    let months = MONTHS.iter().enumerate();
    months
        .map(|(index, (day, name))| AxisLabel {
            at: Place::new(across(*day), 0.0).x,
            text: (*name).to_owned(),
            minor: index % 2 == 1,
        })
        .collect()
}

fn span(of: &DatesOf) -> Option<Span> {
    let reach = match of.sigma_lines {
        Some([lowest, .., highest]) => (highest - lowest) / 6.0 * REACH,
        None => 0.25 * of.reference,
    };
    let median = of.median.unwrap_or(of.reference);
    let low = (of.reference - reach).min(median);
    let high = (of.reference + reach).max(median);
    Span::around(low, high, MOST)
}

fn lines(of: &DatesOf, span: &Span, up: impl Fn(f64) -> f64) -> Vec<Level> {
    let names = ["−3 s", "−2 s", "+2 s", "+3 s"];
    let sigmas = of.sigma_lines.into_iter().flatten().zip(names);
    let dashed = sigmas.chain([(of.reference, "compared with")]);
    let dashed = dashed.map(|(value, name)| ("expected", value, name));
    let own = of.median.map(|median| ("fit", median, ""));
    dashed
        .chain(own)
        .filter(|(_, value, _)| span.holds(*value))
        .map(|(class, value, name)| Level {
            class,
            at: up(value),
            name,
        })
        .collect()
}
